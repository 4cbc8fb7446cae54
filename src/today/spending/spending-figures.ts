// What a side spent by kind and month, of the household against what was expected of the same months.
import { type Day, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, monthText } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { monthSumsOfSide, spanOfBooks } from '#db/ledger/balances.ts'
import { householdMonths } from '#db/ledger/household-months.ts'
import type { Books } from '#db/open.ts'
import { booksReach } from '#db/reconcile/books-reach.ts'
import { householdSide, type SideId } from '#ledger/account.ts'
import type { HouseholdMonth } from '#ledger/household-month.ts'
import { addCents, type Cents, cents, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { hasCareInLiving, type PlannedMonth } from '#runway/against-books/variance-lines.ts'
import { currentPlan } from '#today/current-plan.ts'
import { expectedMonths } from '#today/projection/forecasts.ts'
import type { SpendingFigures, SpendingRow } from './figures.ts'

/** `until`: a month up to this one; else the last that is over and that the books reach. */
export const spendingFigures = (
  books: Books,
  today: Day,
  asked: { sideId: SideId; until: Month | null; count: number },
): SpendingFigures => {
  const span = spanOfBooks(books)
  const now = monthOfDay(today)
  const last = asked.until !== null && asked.until <= now ? asked.until : lastWhole(books, today, now)
  const first = Math.min(last, Math.max(span?.first ?? last, addMonths(last, 1 - asked.count))) as Month
  const months = Array.from({ length: last - first + 1 }, (_, at) => addMonths(first, at))
  const isHousehold = asked.sideId === householdSide
  const rows = isHousehold
    ? householdRows(books, months, expectedOf(books))
    : accountRows(books, asked.sideId, months)
  const things = rows.find(({ name, accountId }) => accountId === null && name === lastingName)
  return {
    months,
    now,
    isOver: lastDayOf(last) < today,
    rows,
    total: totalRow(rows, months),
    lastThingsCents: things?.spent.at(-1) ?? zeroCents,
  }
}

const lastWhole = (books: Books, today: Day, now: Month): Month => {
  const reach = booksReach(books, today)
  return Math.min(addMonths(now, -1), reach === null ? now : monthOfDay(reach)) as Month
}

type Expected = ReadonlyMap<string, PlannedMonth>

const expectedOf = (books: Books): Expected => {
  const current = currentPlan(books)
  return new Map(
    current.status === 'read' ? expectedMonths(books, current).map((one) => [one.month, one]) : [],
  )
}

interface Kind {
  name: string
  ofBooks: (month: HouseholdMonth) => Cents
  ofPlan: (month: PlannedMonth) => number
  /** Which accounts stand under it. */
  has: (purpose: HouseholdMonth['costs'][number]['purpose']) => boolean
}

const livingName = 'Living costs'
const careName = 'Care'
const lastingName = 'Lasting things and one-off items'

/** Together what a month cost, and the lasting things bought in it; each account of costs stands under one of them. */
const kinds: readonly Kind[] = [
  {
    name: livingName,
    ofBooks: (month) => month.livingCents,
    ofPlan: (month) => month.living,
    has: (purpose) => purpose === null || !['care', 'premium', 'tax', 'debt', 'farm_food'].includes(purpose),
  },
  {
    name: careName,
    ofBooks: (month) => month.careCents,
    ofPlan: (month) => month.care,
    has: (purpose) => purpose === 'care',
  },
  {
    name: 'Premiums',
    ofBooks: (month) => month.premiumCents,
    ofPlan: (month) => month.premiums,
    has: (purpose) => purpose === 'premium',
  },
  {
    name: 'Taxes',
    ofBooks: (month) => month.taxCents,
    ofPlan: (month) => month.taxes,
    has: (purpose) => purpose === 'tax',
  },
  {
    name: 'Loan payments',
    ofBooks: (month) => month.loanPaidCents,
    ofPlan: (month) => month.loanPayments,
    has: () => false,
  },
  {
    name: lastingName,
    ofBooks: (month) => month.thingsCents,
    ofPlan: (month) => month.oneOffs,
    has: () => false,
  },
  {
    name: 'Paid on cards, their charges not booked yet',
    ofBooks: (month) => month.cardUnreadCents,
    ofPlan: () => 0,
    has: () => false,
  },
]

/** Of a plan that has care among its living costs. */
const kindsWithoutCare: readonly Kind[] = kinds
  .filter(({ name }) => name !== careName)
  .map((kind) =>
    kind.name === livingName
      ? {
          ...kind,
          ofBooks: (month) => addCents(month.livingCents, month.careCents),
          has: (purpose) => kind.has(purpose) || purpose === 'care',
        }
      : kind,
  )

const householdRows = (books: Books, months: readonly Month[], expected: Expected): SpendingRow[] => {
  const read = householdMonths(books, months[0]!, months.at(-1)!)
  const known = months.flatMap((month) => expected.get(monthText(month)) ?? [])
  return (hasCareInLiving(known) ? kindsWithoutCare : kinds).flatMap(({ name, ofBooks, ofPlan, has }) => {
    const kind = rowOf({
      name,
      accountId: null,
      spent: read.map(ofBooks),
      planned: months.map((month) => {
        const plan = expected.get(monthText(month))
        return plan ? dollarsToCents(ofPlan(plan)) : null
      }),
    })
    if (kind.totalCents === 0 && (kind.plannedCents ?? 0) === 0) return []
    const names = new Map(
      read.flatMap(({ costs }) =>
        costs.filter(({ purpose }) => has(purpose)).map((one) => [one.accountId, one.name] as const),
      ),
    )
    const accounts = [...names].map(([accountId, account]) =>
      rowOf({
        name: account,
        accountId,
        spent: read.map(({ costs }) =>
          sumCents(costs.filter((one) => one.accountId === accountId).map((one) => one.cents)),
        ),
        planned: null,
      }),
    )
    return [kind, ...largestFirst(accounts)]
  })
}

/** The other books' costs are planned by enterprise, not by account: they stand without a plan. */
const accountRows = (books: Books, sideId: SideId, months: readonly Month[]): SpendingRow[] => {
  const sums = monthSumsOfSide(books, sideId, months[0]!, months.at(-1)!)
  const rows = listAccounts(books, { sideId, withArchived: true })
    .filter(({ kind }) => kind === 'expense')
    .map(({ id, name }) =>
      rowOf({
        name,
        accountId: id,
        spent: months.map(
          (month) => sums.find((sum) => sum.accountId === id && sum.month === month)?.sumCents ?? zeroCents,
        ),
        planned: null,
      }),
    )
  return largestFirst(rows)
}

const largestFirst = (rows: readonly SpendingRow[]): SpendingRow[] =>
  rows
    .filter(({ spent }) => spent.some((one) => one !== 0))
    .sort((one, other) => other.totalCents - one.totalCents || one.name.localeCompare(other.name, 'en'))

const rowOf = (row: Pick<SpendingRow, 'name' | 'accountId' | 'spent' | 'planned'>): SpendingRow => ({
  ...row,
  totalCents: sumCents(row.spent),
  ...heldAgainst(row.spent, row.planned),
})

/** The months that a plan knows, and what was spent in those: the two are held against each other, no others. */
const heldAgainst = (
  spent: readonly Cents[],
  planned: SpendingRow['planned'],
): Pick<SpendingRow, 'plannedCents' | 'differenceCents'> => {
  const known = (planned ?? []).flatMap((plan, at) => (plan === null ? [] : [{ plan, spent: spent[at]! }]))
  if (known.length === 0) return { plannedCents: null, differenceCents: null }
  const plannedCents = sumCents(known.map(({ plan }) => plan))
  return { plannedCents, differenceCents: cents(sumCents(known.map((one) => one.spent)) - plannedCents) }
}

/** Of the kinds, where there are some, else of the accounts: none is counted in its kind and by itself. */
const totalRow = (rows: readonly SpendingRow[], months: readonly Month[]): SpendingRow => {
  const kindRows = rows.filter(({ accountId }) => accountId === null)
  const counted = kindRows.length > 0 ? kindRows : rows
  const known = months.map(
    (_, at) => kindRows.length > 0 && kindRows.every(({ planned }) => planned?.[at] != null),
  )
  return rowOf({
    name: 'Total',
    accountId: null,
    spent: months.map((_, at) => sumCents(counted.map(({ spent }) => spent[at]!))),
    planned: months.map((_, at) =>
      known[at] ? sumCents(kindRows.map(({ planned }) => planned![at]!)) : null,
    ),
  })
}
