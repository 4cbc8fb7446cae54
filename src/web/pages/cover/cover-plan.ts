// The plan's marketplace part as its form shows it and takes it: who is on it, and the premiums for this household.
import { z } from 'zod'
import { type Day, day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import { centsToDollars } from '#money/cents.ts'
import { ageRatings } from '#plan/health-plan.ts'
import { isRelative } from '#plan/life/lived.ts'
import { ratingPlaceOf } from '#plan/place/follows-from-place.ts'
import { issuedIn } from '#plan/place/issued-in.ts'
import type { Plan } from '#plan/plan.ts'
import { medicareStart } from '#rules/age-by-law.ts'
import { memberFactors, ratedAge } from '#rules/marketplace/premium-by-age.ts'
import { premiumLevel } from '#runway/compile/compile.ts'
import { checkbox, moneyZeroOrMore, monthOrNull } from '#web/forms/fields.ts'

export const marketplaceForm = z.object({
  ageRating: z.enum(ageRatings, { error: 'Choose how premiums rise with age' }).optional(),
  plan: moneyZeroOrMore(),
  benchmark: moneyZeroOrMore(),
  care: moneyZeroOrMore(),
  employerUntil: monthOrNull().optional(),
  advance: checkbox(),
  expansion: checkbox(),
})

export interface MarketplacePerson {
  id: string
  name: string
  isListed: boolean
}

/** Everyone of the plan who could be on marketplace cover, and who is listed for it. */
export const marketplacePeople = (plan: Plan): MarketplacePerson[] => {
  const listed = new Set(plan.health.marketplace.members.map((one) => one.person))
  return peopleOf(plan)
    .filter((one) => listed.has(one.id) || !isOnMedicare(plan, one))
    .map(({ id, name }) => ({ id, name, isListed: listed.has(id) }))
}

/** Medicare goes before an employer's plan, and nobody on it is sold one of the marketplace (42 USC 1395ss(d)(3)). */
export const onMedicare = (plan: Plan): string[] =>
  peopleOf(plan)
    .filter((one) => isOnMedicare(plan, one))
    .map(({ name }) => name)

/** As the plan begins. */
const isOnMedicare = (plan: Plan, { id, born }: { id: string; born: string }): boolean =>
  plan.health.medicareFrom65 && !isChild(plan, id) && medicareStart(born) <= parseMonth(plan.startMonth)!

const isChild = ({ household }: Plan, id: string): boolean =>
  household.dependents.some((one) => one.id === id && !isRelative(one))

/** Input of the month from which someone is on the marketplace. */
export const fromName = (person: string): string => `from.${person}`

/**
 * The month of those listed; of others what to begin with: the one after pay that ends, as an employer's plan mostly ends with it. Empty
 * means the plan's first month.
 */
const openingFrom = (plan: Plan): Record<string, string> => {
  const after = monthAfterPay(plan)
  const { members } = plan.health.marketplace
  return Object.fromEntries(
    peopleOf(plan).map(({ id }) => {
      const listed = members.find(({ person }) => person === id)
      return [fromName(id), (listed ? listed.from : after) ?? '']
    }),
  )
}

const monthAfterPay = ({ household }: Plan): string | undefined => {
  const last = household.pay
    .filter(({ kind, to }) => kind === 'wages' && to !== undefined)
    .map(({ to }) => to!)
    .sort()
    .at(-1)
  return last === undefined ? undefined : monthText(addMonths(parseMonth(last)!, 1))
}

/** Empty where nobody is on one; null where the plan tells more than one month for all: then the plan's own form has it. */
export const employerUntil = (plan: Plan): string | null => {
  const { employerPlans } = plan.health
  const [first] = employerPlans
  if (first === undefined) return ''
  const everyone = peopleOf(plan)
    .filter((one) => !isOnMedicare(plan, one))
    .every(({ id }) => employerPlans.some(({ person }) => person === id))
  const alike = employerPlans.every(({ from, to }) => from === undefined && to === first.to)
  return everyone && alike && first.to !== undefined ? first.to : null
}

/** The plan's premiums for the people listed at their ages of this January, in this year's money. */
export const openingMarketplace = (plan: Plan, today: Day): Record<string, string> => {
  const { marketplace, careBefore65, medicaidExpansion } = plan.health
  const listed = marketplace.members.map((one) => one.person)
  const times = householdFactor(plan, listed, ratingPlaceOf(plan), today) * premiumsRisen(plan, today)
  const text = (dollars: number) => (dollars > 0 ? dollars.toFixed(2) : '')
  return {
    ...openingFrom(plan),
    employerUntil: employerUntil(plan) ?? '',
    ageRating: marketplace.ageRating,
    plan: text(marketplace.planAt21 * times),
    benchmark: text(marketplace.benchmarkAt21 * times),
    care: text(careBefore65),
    advance: marketplace.advanceCredit ? 'yes' : '',
    expansion: medicaidExpansion ? 'yes' : '',
  }
}

export interface TypedMarketplace {
  form: z.output<typeof marketplaceForm>
  members: readonly string[]
  /** The month from which each person is on the marketplace; null where it was left empty, none where it was not asked. */
  from: ReadonlyMap<string, string | null>
  /** Whether a field still holds the text it opened with. */
  isUntouched: (name: string) => boolean
}

/**
 * The plan with the form's premiums, each kept as that of a person of 21 at the plan's first prices; members who stay keep
 * their place and months, and a premium that was not touched, for the same people, keeps all its digits. Null when premiums are
 * typed and nobody is chosen.
 */
export const withMarketplace = (plan: Plan, typed: TypedMarketplace, today: Day): Plan | null => {
  const { form } = typed
  const chosen = new Set(typed.members.filter((id) => peopleOf(plan).some((one) => one.id === id)))
  if (chosen.size === 0 && (form.plan > 0 || form.benchmark > 0)) return null
  const { marketplace, careBefore65 } = plan.health
  const staying = marketplace.members.filter((one) => chosen.has(one.person))
  const added = [...chosen].filter((id) => !staying.some((one) => one.person === id))
  const members = [
    ...staying.map((one) =>
      !typed.from.has(one.person) || typed.isUntouched(fromName(one.person))
        ? one
        : { ...one, from: typed.from.get(one.person) ?? undefined },
    ),
    ...added.map((person) => ({ person, from: typed.from.get(person) ?? undefined })),
  ]
  const ageRating = form.ageRating ?? marketplace.ageRating
  const listed = { ...plan, health: { ...plan.health, marketplace: { ...marketplace, members, ageRating } } }
  const factor = householdFactor(listed, [...chosen], ratingPlaceOf(listed), today)
  const times = factor * premiumsRisen(plan, today)
  const before = householdFactor(
    plan,
    marketplace.members.map(({ person }) => person),
    ratingPlaceOf(plan),
    today,
  )
  const areSame = factor === before && samePeople(members, marketplace.members)
  const at21 = (name: 'plan' | 'benchmark', saved: number): number => {
    if (areSame && typed.isUntouched(name)) return saved
    return times > 0 ? Math.round((centsToDollars(form[name]) / times) * 10_000) / 10_000 : 0
  }
  return {
    ...plan,
    health: {
      ...plan.health,
      marketplace: {
        ...marketplace,
        members,
        ageRating,
        planAt21: at21('plan', marketplace.planAt21),
        benchmarkAt21: at21('benchmark', marketplace.benchmarkAt21),
        advanceCredit: form.advance,
      },
      // Not on the form where a state is chosen, whose own limits count.
      medicaidExpansion:
        plan.household.place.state === undefined ? form.expansion : plan.health.medicaidExpansion,
      employerPlans:
        form.employerUntil === undefined || typed.isUntouched('employerUntil')
          ? plan.health.employerPlans
          : employerPlansUntil(plan, form.employerUntil),
      careBefore65: typed.isUntouched('care') ? careBefore65 : centsToDollars(form.care),
    },
  }
}

type Members = readonly { person: string }[]
const samePeople = (a: Members, b: Members): boolean =>
  a.length === b.length && a.every(({ person }, place) => person === b[place]!.person)

/** Of all who are in the plan and not on Medicare. */
const employerPlansUntil = (plan: Plan, month: Month | null): Plan['health']['employerPlans'] =>
  month === null
    ? []
    : peopleOf(plan)
        .filter((one) => !isOnMedicare(plan, one))
        .map(({ id }) => ({ person: id, to: monthText(month) }))

const peopleOf = (plan: Plan): { id: string; name: string; born: string }[] => [
  ...plan.household.people,
  ...plan.household.dependents,
]

/** Sum of factors of the people listed who are under 65 as their policies are issued this year, as the place rates them. */
const householdFactor = (plan: Plan, ids: readonly string[], place: string, today: Day): number => {
  const year = Number.parseInt(today.slice(0, 4), 10)
  const rated = peopleOf(plan)
    .filter((one) => ids.includes(one.id))
    .map((one) => ({
      age: ratedAge(monthOfDay(day(one.born)), year, issuedIn(plan, one.id, year)),
      isDependent: isChild(plan, one.id),
    }))
    .filter(({ age }) => age < 65)
  return memberFactors(place, rated, year).reduce((sum, factor) => sum + factor, 0)
}

/** How far premiums have risen since the plan's first year, by the plan. */
const premiumsRisen = (plan: Plan, today: Day): number =>
  premiumLevel(plan)(Math.max(yearOf(parseMonth(plan.startMonth)!), yearOf(monthOfDay(today))))
