// Reads and saves the plan's marketplace part: who is on it, and the premiums as the marketplace shows them for this household.
import { z } from 'zod'
import { type Day, day, monthOfDay } from '#calendar/day.ts'
import { month, monthText } from '#calendar/month.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { type Cents, centsToDollars } from '#money/cents.ts'
import type { Plan, PlanInput } from '#plan/plan.ts'
import { ageFactor } from '#rules/marketplace/age-curve.ts'
import { countedPeople } from '#rules/marketplace/premium-by-age.ts'
import { currentPlan } from './current-plan.ts'
import { checkbox, formIdField, moneyZeroOrMore } from './fields.ts'
import { changePlan } from './start-plan.ts'

export const marketplaceForm = z.object({
  formId: formIdField(),
  plan: moneyZeroOrMore(),
  benchmark: moneyZeroOrMore(),
  care: moneyZeroOrMore(),
  advance: checkbox(),
  expansion: checkbox(),
})

export interface MarketplacePerson {
  id: string
  name: string
  isListed: boolean
}

/** Everyone of the plan who could be on marketplace cover. */
export const marketplacePeople = (books: Books): MarketplacePerson[] => {
  const current = currentPlan(books)
  if (current.status !== 'read') return []
  const listed = new Set(current.plan.health.marketplace.members.map((one) => one.person))
  return peopleOf(current.plan).map(({ id, name }) => ({ id, name, isListed: listed.has(id) }))
}

/** The plan's premiums for the people listed at their ages of this January, in this year's money. */
export const openingMarketplace = (books: Books, today: Day): Record<string, string> => {
  const current = currentPlan(books)
  if (current.status !== 'read') return {}
  const { plan } = current
  const { marketplace, careBefore65, medicaidExpansion } = plan.health
  const listed = marketplace.members.map((one) => one.person)
  const times = householdFactor(plan, listed, today) * premiumLevel(plan, today)
  const text = (dollars: number) => (dollars > 0 ? dollars.toFixed(2) : '')
  return {
    plan: text(marketplace.planAt21 * times),
    benchmark: text(marketplace.benchmarkAt21 * times),
    care: text(careBefore65),
    advance: marketplace.advanceCredit ? 'yes' : '',
    expansion: medicaidExpansion ? 'yes' : '',
  }
}

/** Keeps the months of members who stay, and a plan's premium as that of a person of 21 at the plan's first prices. */
export const saveMarketplace = (
  books: Books,
  act: Act,
  form: z.output<typeof marketplaceForm>,
  members: readonly string[],
  today: Day,
): FieldProblem[] => {
  const current = currentPlan(books)
  if (current.status !== 'read') {
    return [{ path: '', message: 'There is no plan yet. Enter who you are and what a month costs first.' }]
  }
  const { plan } = current
  const known = members.filter((id) => peopleOf(plan).some((one) => one.id === id))
  if (known.length === 0 && (form.plan > 0 || form.benchmark > 0)) {
    return [{ path: 'members', message: 'Choose who the premium is for' }]
  }
  const times = householdFactor(plan, known, today) * premiumLevel(plan, today)
  const at21 = (amount: Cents): number =>
    times > 0 ? Math.round((centsToDollars(amount) / times) * 10_000) / 10_000 : 0
  const saved = changePlan(books, act, monthText(monthOfDay(today)), 'Cover', (before: PlanInput) => ({
    ...before,
    health: {
      ...before.health,
      marketplace: {
        ...before.health?.marketplace,
        members: known.map(
          (id) => before.health?.marketplace?.members?.find((one) => one.person === id) ?? { person: id },
        ),
        planAt21: at21(form.plan),
        benchmarkAt21: at21(form.benchmark),
        advanceCredit: form.advance,
      },
      medicaidExpansion: form.expansion,
      careBefore65: centsToDollars(form.care),
    },
  }))
  return saved.ok ? [] : saved.problems
}

const peopleOf = (plan: Plan): { id: string; name: string; born: string }[] => [
  ...plan.household.people,
  ...plan.household.dependants,
]

/** Sum of age factors of the people listed who are under 65 this January, three children at most. */
const householdFactor = (plan: Plan, ids: readonly string[], today: Day): number => {
  const january = month(Number.parseInt(today.slice(0, 4), 10), 1)
  const ages = peopleOf(plan)
    .filter((one) => ids.includes(one.id))
    .map((one) => Math.max(0, Math.floor((january - monthOfDay(day(one.born))) / 12)))
    .filter((age) => age < 65)
  const counted = countedPeople(ages)
  return ages.reduce((sum, age, place) => sum + (counted.has(place) ? ageFactor(age) : 0), 0)
}

/** How far premiums have risen since the plan's first year, by the plan. */
const premiumLevel = (plan: Plan, today: Day): number => {
  const years = Number.parseInt(today.slice(0, 4), 10) - Number.parseInt(plan.startMonth.slice(0, 4), 10)
  return (1 + plan.assumptions.premiumGrowth) ** Math.max(0, years)
}
