// All sides as one set of books: crossings between them are taken out, so that money moved inside the family is neither income nor cost.
import { cents } from '#money/cents.ts'
import type { AccountYear, BookYear } from './book-year.ts'

/**
 * One merged year. Accounts that stand for another side go; goods used at home are taken out of the farm's value and the
 * household's cost. Goods given to somebody outside for something of the household stay the sale and the cost that they are.
 * Throws when what is taken out does not cancel, which means that a crossing's halves differ.
 */
export const together = (sides: readonly BookYear[], name = 'All sides'): BookYear => {
  const year = sides[0]?.year
  if (year === undefined) throw new Error('No books to put together')
  const off = sides
    .flatMap((side) => side.accounts)
    .filter(({ account }) => account.crossingRole !== null)
    .reduce((sum, row) => sum + row.openingCents + row.monthsCents.reduce((a, b) => a + b, 0), 0)
  if (off !== 0) throw new Error(`Crossings do not cancel in ${year}: off by ${off} cents`)
  return {
    sideId: 'together',
    kind: 'together',
    name,
    year,
    accounts: withOwnNames(sides),
  }
}

/** Two accounts of one name stay two, each told by its side. */
const withOwnNames = (sides: readonly BookYear[]): AccountYear[] => {
  const used = sides.filter(({ kind }) => kind !== 'household').map(usedAtHome)
  const all = used.reduce((sum, months) => sum.map((one, i) => one + months[i]!), noMonths())
  const usedOf = (side: BookYear) => (side.kind === 'household' ? all.map((one) => -one) : usedAtHome(side))
  const rows = sides.flatMap((side) => withoutCrossings(side, usedOf(side)).map((row) => ({ side, row })))
  const times = new Map<string, number>()
  for (const { row } of rows) times.set(row.account.name, (times.get(row.account.name) ?? 0) + 1)
  return rows.map(({ side, row }) =>
    times.get(row.account.name) === 1
      ? row
      : { ...row, account: { ...row.account, name: `${row.account.name}, ${side.name}` } },
  )
}

const noMonths = (): number[] => new Array<number>(12).fill(0)

/** Of the goods that left a business in each month, what its value of goods used at home has: the rest was sold for something. */
const usedAtHome = (side: BookYear): number[] => {
  const counter = side.accounts.find(({ account }) => account.systemRole === 'goods_value')
  const goods = side.accounts.filter(({ account }) => account.crossingRole === 'goods')
  return noMonths().map((_, i) => {
    const left = goods.reduce((sum, { monthsCents }) => sum + (monthsCents[i] ?? 0), 0)
    const value = -(counter?.monthsCents[i] ?? 0)
    return left * value <= 0 ? 0 : Math.sign(left) * Math.min(Math.abs(left), Math.abs(value))
  })
}

const withoutCrossings = (side: BookYear, used: readonly number[]): AccountYear[] => {
  const goods = side.accounts.filter(({ account }) => account.crossingRole === 'goods')
  const kept = side.accounts.filter(({ account }) => account.crossingRole === null)
  const role = side.kind === 'household' ? 'goods_cost' : 'goods_value'
  const counter = kept.find(({ account }) => account.systemRole === role)
  if (!counter && (used.some((one) => one !== 0) || goods.some(({ openingCents }) => openingCents !== 0)))
    throw new Error(`${side.name}: goods crossed, but no account holds their value`)
  const less = (row: AccountYear): AccountYear => ({
    ...goods.map(withoutMonths).reduce(plus, row),
    monthsCents: row.monthsCents.map((sum, i) => cents(sum + (used[i] ?? 0))),
  })
  return kept.map((row) => (row === counter ? less(row) : row))
}

/** What a business gave in a month is told apart from what was there before. */
const withoutMonths = (row: AccountYear): AccountYear => ({
  ...row,
  monthsCents: row.monthsCents.map(() => cents(0)),
})

const plus = (row: AccountYear, other: AccountYear): AccountYear => ({
  ...row,
  openingCents: cents(row.openingCents + other.openingCents),
  paidDownCents: cents(row.paidDownCents + other.paidDownCents),
  termInterestCents: cents(row.termInterestCents + other.termInterestCents),
  inTradeCents: cents((row.inTradeCents ?? 0) + (other.inTradeCents ?? 0)),
  withoutMoneyCents: cents(row.withoutMoneyCents + other.withoutMoneyCents),
  monthsCents: row.monthsCents.map((sum, i) => cents(sum + (other.monthsCents[i] ?? 0))),
})
