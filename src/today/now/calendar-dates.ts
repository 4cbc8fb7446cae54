// The dates ahead for this household: standing transfers from the books, and the dates the law sets for the plan's people.
import { addDays, type Day, day, dayInMonth, firstDayOf } from '#calendar/day.ts'
import { addMonths, parseMonth, yearIn } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { listStanding } from '#db/transfers/standing-store.ts'
import { householdSide } from '#ledger/account.ts'
import { nextOccurrence, type StandingTransfer } from '#ledger/standing.ts'
import { departureOf } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { inheritedAccountOf } from '#plan/savings-plan.ts'
import type { DueDate } from '#rules/due-date.ts'
import { dueDates } from '#rules/due-dates.ts'
import type { StateCode } from '#rules/places/state-names.ts'
import { currentPlan } from '#today/current-plan.ts'
import { isFarmer } from '#today/tax/books-year.ts'
import { payrollGround } from '#today/tax/payroll-ground.ts'
import { asksStateNothing } from '#today/tax/tax-days.ts'
import { rentFormsAsked, workFormsAsked } from './forms-asked.ts'
import { salesTaxSaid } from './sales-tax.ts'

export interface CalendarDate {
  id: string
  day: Day
  kind: DueDate['kind'] | 'standing'
  title: string
  says: string
  source: string | null
}

/** Everything from a month back to about thirteen months ahead, in order. */
export const calendarDates = (books: Books, today: Day): CalendarDate[] => {
  const from = addDays(today, -31)
  const to = addDays(today, 400)
  const plan = currentPlan(books)
  const read = plan.status === 'read' ? plan.plan : null
  const law = dueDates(
    {
      people: read ? peopleOf(read) : [],
      inherited: read ? inheritedOf(read) : [],
      state: read && taxedByState(read),
      isFarmerYear: (year) => isFarmer(books, read, year),
      asksStateNothing: (year, due) => asksStateNothing(books, read, year, due, today),
      paidForWork: (year) => workFormsAsked(books, year),
      paidRent: (year) => rentFormsAsked(books, year),
      payroll: (year) => payrollGround(books, year),
      salesTax: salesTaxSaid(books).due,
      saves: saves(books, read),
      usesMarketplace: read === null || read.health.marketplace.members.length > 0,
    },
    from,
    to,
  )
  const standing = listStanding(books).flatMap((transfer) => occurrences(transfer, today, to))
  return [...law, ...standing].sort((a, b) =>
    a.day === b.day ? a.id.localeCompare(b.id) : a.day < b.day ? -1 : 1,
  )
}

/** The state where the household lives, if the plan counts its tax. */
export const taxedByState = ({ tax, household }: Plan): StateCode | null =>
  tax.method === 'law' && tax.stateTax.kind !== 'none' ? (household.place.state ?? null) : null

/** Into retirement or health savings, which may be paid in until the return is due: by the plan, or as the books hold them. */
export const saves = (books: Books, plan: Plan | null): boolean => {
  if (plan?.savings.accounts.some(({ kind }) => kind === 'traditional' || kind === 'roth')) return true
  const held = listAccounts(books, { sideId: householdSide }).filter(
    ({ savingsKind }) => savingsKind === 'traditional' || savingsKind === 'roth' || savingsKind === 'health',
  )
  const balances = held.length > 0 ? balancesOn(books) : null
  return held.some(({ id }) => (balances?.get(id) ?? 0) !== 0)
}

const peopleOf = (plan: Plan) =>
  plan.household.people.map((person) => ({
    id: person.id,
    name: person.name,
    born: day(person.born),
    ...goneFrom(plan, person.id),
    hasTraditionalAccount: plan.savings.accounts.some(
      (account) =>
        account.kind === 'traditional' &&
        (account.owner === undefined || account.owner === person.id) &&
        account.inherited === undefined,
    ),
  }))

const goneFrom = (plan: Plan, id: string): { goneFrom?: Day } => {
  const departure = departureOf(plan, id)
  return departure === null ? {} : { goneFrom: firstDayOf(departure.month) }
}

const inheritedOf = ({ household, savings }: Plan) =>
  savings.accounts.flatMap((account) => {
    const heir = household.people.find(({ id }) => id === account.owner) ?? household.people[0]
    if (account.inherited === undefined || account.inheritedIn === undefined || heir === undefined) return []
    const law = inheritedAccountOf(account, yearIn(heir.born), parseMonth(account.inheritedIn)!)
    return [{ id: account.id, name: account.name, account: law }]
  })

/** Amounts stay out: calendars are often copied to other computers. */
const occurrences = (transfer: StandingTransfer, today: Day, to: Day): CalendarDate[] => {
  const first = nextOccurrence(transfer, today)
  const dates: CalendarDate[] = []
  for (let month = first?.month; month !== undefined; month = addMonths(month, 1)) {
    const on = dayInMonth(month, transfer.dayOfMonth)
    if (on > to || (transfer.lastMonth !== null && month > transfer.lastMonth)) break
    dates.push({
      id: `standing-${transfer.id}-${on}`,
      day: on,
      kind: 'standing',
      title: `Standing transfer: ${transfer.name}`,
      says:
        transfer.posting === 'automatic'
          ? 'The books record it automatically; move the money.'
          : 'Move the money, then confirm it in the books.',
      source: null,
    })
  }
  return dates
}
