// Things bought in the year by the books that the inventory does not know: nothing of their cost is written off.
import { type Day, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { boughtOn } from '#db/year/bought-on.ts'
import { type Account, isLasting } from '#ledger/account.ts'
import { type BookYear, closingOf } from '#ledger/reports/book-year.ts'
import { heldAtYearEnd } from '#ledger/reports/stock-inventory.ts'
import { cents, sumCents } from '#money/cents.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import type { YearPackFigures } from './figures.ts'
import type { PackGround } from './pack-ground.ts'

type Gap = YearPackFigures['gaps'][number]

export const boughtGaps = (ground: PackGround): Gap[] =>
  ground.sides.filter(({ kind }) => kind !== 'household').flatMap((side) => gapsOfSide(ground, side))

const gapsOfSide = (ground: PackGround, side: BookYear): Gap[] => {
  const { books, year } = ground
  const accounts = side.accounts.map(({ account }) => account)
  const lasting = accounts.filter((account) => isLasting(account) && account.currentKind === null)
  const bought = boughtOn(books, lasting, { from: firstDayOfYear(year), to: lastDayOfYear(year) })
  // A thing without an account may be any of these purchases: it counts against the first that it fits.
  let homeless = sumCents(costsOf(ground, side, null, year))
  return lasting.flatMap((account) => {
    const postings = bought.filter(({ accountId }) => accountId === account.id)
    const inBooks = sumCents(postings.map(({ amountCents }) => amountCents))
    const known = sumCents(costsOf(ground, side, account.id, year))
    const unknown = Math.min(inBooks - known, costBeyond(ground, side, account))
    const untold = Math.max(0, unknown - homeless)
    homeless = cents(Math.max(0, homeless - Math.max(0, unknown)))
    if (untold === 0) return []
    const first = firstUnknown(postings, costsOf(ground, side, account.id, year))
    const cost = Math.min(untold, first?.amountCents ?? untold)
    return [
      {
        says: `${side.name}: bought in ${year}, ${formatCents(inBooks)} on “${account.name}” in the books, ${formatCents(cents(inBooks - untold))} on the inventory. Nothing is written off of the rest until it stands there.`,
        href: newThing({
          side: side.sideId,
          year,
          account: account.id,
          cost: centsToDecimalText(cents(cost)),
          bought: first?.day ?? '',
          name: first?.memo ?? '',
        }),
        action: 'Add it to the inventory',
      },
    ]
  })
}

/** What the account holds at the year's end beyond the things on it: paid for late, a thing of another year is no new one. */
const costBeyond = ({ things, year }: PackGround, side: BookYear, { id }: Account): number => {
  const row = side.accounts.find(({ account }) => account.id === id)!
  const gathers = side.accounts.some(({ account }) => account.contraKind === 'depreciation')
  const held = (things.get(side.sideId) ?? [])
    .filter(({ holding }) => holding.accountId === id && heldAtYearEnd(holding, year))
    .map(({ holding, deducted }) => cents(holding.costCents - (gathers ? 0 : deducted.end)))
  return Math.max(0, closingOf(row) - sumCents(held))
}

/** Costs of things that came in the year and lie on the account, what was sold of them in parts with the rest; null: on none. */
const costsOf = ({ things }: PackGround, side: BookYear, accountId: number | null, year: number) => {
  const costs = new Map<string, number>()
  for (const { holding } of things.get(side.sideId) ?? []) {
    if (holding.accountId !== accountId || yearIn(holding.acquiredDay) !== year) continue
    const id = holding.partOf?.holdingId ?? holding.id
    costs.set(id, (costs.get(id) ?? 0) + holding.costCents)
  }
  return [...costs.values()].map(cents)
}

/** The first purchase that is not a thing's whole cost. */
const firstUnknown = <Bought extends { amountCents: number }>(
  postings: readonly Bought[],
  costs: readonly number[],
): Bought | undefined => {
  const left = [...costs]
  return postings.find(({ amountCents }) => {
    const at = left.indexOf(amountCents)
    if (at < 0) return true
    left.splice(at, 1)
    return false
  })
}

interface NewThing {
  side: string
  year: number
  account: number
  cost: string
  bought: Day | ''
  name: string
}

/** The form of a new thing with what the books tell of it. */
const newThing = (told: NewThing): string =>
  `/year-pack/holdings/new?${new URLSearchParams(Object.entries(told).map(([name, value]): [string, string] => [name, String(value)]))}`
