// What the statements lack: what falls due of a loan, goods at the beginning, values without a day or without an account.
import { dayName, lastDayOfYear } from '#calendar/day.ts'
import { month, monthName } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { isReconciledThrough } from '#db/reconcile/reconcile-reader.ts'
import { gapsBetween } from '#db/statements/months-read.ts'
import { listAccruals } from '#db/year-store.ts'
import { isCash, isReconcilable } from '#ledger/account.ts'
import { type BookYear, closingOf } from '#ledger/reports/book-year.ts'
import { valueOn } from '#ledger/reports/market-values.ts'
import { heldAtYearEnd, isUntold } from '#ledger/reports/stock-inventory.ts'
import { cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { boughtGaps } from './bought-gaps.ts'
import { depreciationGaps } from './depreciation-stated.ts'
import type { SideStatements, YearPackFigures } from './figures.ts'
import type { PackGround } from './pack-ground.ts'
import { isUnbooked } from './side-statements.ts'
import { soldGaps } from './sold-gaps.ts'
import { writeOffGaps } from './write-off-gaps.ts'

type Gap = YearPackFigures['gaps'][number]

export const statementGaps = (
  ground: PackGround,
  sides: readonly SideStatements[],
  hasYearBefore: boolean,
): Gap[] => [
  ...unreconciled(ground),
  ...unread(ground),
  ...sides.flatMap(({ depreciation }) => depreciation.flatMap(depreciationGaps)),
  ...dueUnknown(ground, sides),
  ...(hasYearBefore ? [] : firstItems(ground)),
  ...values(ground),
  ...writeOffGaps(ground),
  ...soldGaps(
    ground,
    sides.flatMap(({ depreciation }) => depreciation),
  ),
  ...boughtGaps(ground),
  ...ground.sides.flatMap((side) => depreciationOfWhat(ground, side)),
]

const inputs = (ground: PackGround, at: string) => `/year-pack/inputs?year=${ground.year}#${at}`

/** Money accounts that moved in the year and were held against no statement through its end. */
const unreconciled = ({ books, year, sides }: PackGround): Gap[] => {
  const names = sides
    .flatMap((side) => side.accounts)
    .filter(({ account }) => isReconcilable(account))
    .filter((row) => row.monthsCents.some((sum) => sum !== 0) || closingOf(row) !== 0)
    .filter(({ account }) => !isReconciledThrough(books, account.id, lastDayOfYear(year)))
    .map(({ account }) => account.name)
  return names.length === 0
    ? []
    : [
        {
          says: `Not reconciled with a statement through the end of ${year}: ${names.join(', ')}.`,
          href: '/books/reconcile',
        },
      ]
}

/** Months between two files of an account that no file speaks of. */
const unread = ({ books, year }: PackGround): Gap[] => {
  const missing = gapsBetween(books, month(year, 12))
  return listAccounts(books, { withArchived: true }).flatMap(({ id, name }) => {
    const months = (missing.get(id) ?? []).filter((one) => one >= month(year, 1))
    return months.length === 0
      ? []
      : [
          {
            says: `“${name}”: no statement was read of ${months.map((one) => monthName(one)).join(', ')}. What moved then is in none of these figures.`,
            href: '/books/statements',
          },
        ]
  })
}

const dueUnknown = (ground: PackGround, sides: readonly SideStatements[]): Gap[] =>
  sides
    .flatMap(({ end }) => end.dueUnknown)
    .map((name) => ({
      says: `“${name}”: say what falls due within twelve months, or its terms. Until then all of it counts as due later, and measures of liquidity cannot be worked out.`,
      href: inputs(ground, 'said'),
    }))

/**
 * Without a beginning, all that is on hand at the end would count as earned in the first year. Only of what people entered: a batch
 * that began within the year had nothing at its beginning.
 */
const firstItems = (ground: PackGround): Gap[] =>
  ground.sides
    .filter(
      ({ sideId }) =>
        listAccruals(ground.books, sideId, ground.year).length > 0 &&
        ground.items.begin.get(sideId)!.length === 0,
    )
    .map(({ name }) => ({
      says: `${name}: what the cash books do not show was entered for the end of ${ground.year} and not for its beginning. On the accrual basis all of it counts as earned in the year.`,
      href: inputs(ground, 'year-end'),
    }))

const values = (ground: PackGround): Gap[] => {
  const on = lastDayOfYear(ground.year)
  const valued = [...ground.things.values()]
    .flat()
    .filter(({ holding }) => heldAtYearEnd(holding, ground.year))
    .flatMap(({ holding, values }) => {
      const value = valueOn(values, on)
      return value ? [{ holding, value }] : []
    })
  const listed = (found: typeof valued) => found.map(({ holding }) => holding.name).join(', ')
  const undated = valued.filter(({ value }) => value.day === null)
  const homeless = valued.filter(({ holding }) => holding.accountId === null && !isUnbooked(holding))
  return [
    ...(undated.length === 0
      ? []
      : [
          {
            says: `Market values without a day, so that they count in every year: ${listed(undated)}. Enter what they are worth on ${dayName(on)}.`,
            href: inputs(ground, 'things'),
          },
        ]),
    ...(homeless.length === 0
      ? []
      : [
          {
            says: `Market values that stand in no sheet, because the thing has no account: ${listed(homeless)}. Choose the account that holds what each cost.`,
            href: inputs(ground, 'holdings'),
          },
        ]),
  ]
}

/** Depreciation that the schedule knows nothing of cannot be taken off for what was valued. */
const depreciationOfWhat = (ground: PackGround, side: BookYear): Gap[] => {
  const taken = side.accounts.filter(
    (row) => row.account.kind === 'asset' && !isCash(row.account) && closingOf(row) < 0,
  )
  const things = ground.things.get(side.sideId) ?? []
  const known = sumCents(
    things.map(({ holding, deducted }) => (isUntold(holding) ? holding.costCents : deducted.end)),
  )
  const booked = -sumCents(taken.map(closingOf))
  const isValued = side.accounts.some(({ account }) => ground.market.end.has(account.id))
  return !isValued || booked <= known
    ? []
    : [
        {
          says: `${side.name}: ${formatCents(cents(booked - known))} of depreciation in the books is of nothing on the inventory. The market column takes it off, also where it is of something that was valued.`,
          href: inputs(ground, 'market'),
        },
      ]
}
