// Milestones in plain words, each with its reason and, where one more amount a month would mend it, that amount.
import { nameOfMonth } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'
import { undoneSays } from '#farm/told/undone-told.ts'
import { formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import { lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import type { SeenCourse } from './dollars/dollars.ts'
import type { SeenMonth } from './dollars/seen-month.ts'
import { calledOn, calledWords, isToldWhole, toldYears, unmetIn } from './farm/called-on.ts'
import { idleCashSentence } from './savings/idle-cash.ts'

/** One sentence a milestone, most pressing first. `mend` is what `mendingAmount` found, when it was asked. */
export const whySentences = (plan: Plan, projection: SeenCourse, mend: Mend | null = null): string[] => [
  floorSentence(plan, projection),
  ...mendSentence(projection, mend),
  ...lowestSentence(projection),
  carrySentence(plan, projection),
  ...calledSentence(projection),
  ...contributionSentence(projection),
  ...workSentence(projection),
  ...slowerSentence(projection),
  ...idleCashSentence(plan, projection),
  ...shortSentence(projection),
]

/** Dollars a month from a month on, in dollars of those months, that would keep savings at the floor or above. */
export interface Mend {
  perMonth: number
  from: string
  /** The last month for which it was tried; null: to the end of the plan. */
  until: string | null
}

const floorSentence = (plan: Plan, projection: SeenCourse): string => {
  const { milestones, months } = projection
  if (milestones.floorMonth === null) return 'Savings stay at or above the floor to the end of the plan.'
  const at = months.findIndex((month) => month.month === milestones.floorMonth)
  const left = milestones.monthsLeft!
  const reason = at < 1 ? 'they are below it already' : reasonBefore(plan, projection, at)
  const fall = months[at]!.floor < 0.5 ? 'savings run out' : 'savings fall below the floor'
  return `${monthsWords(left)} left: ${fall} in ${nameOfMonth(milestones.floorMonth)}, because ${reason}.`
}

const mendSentence = ({ milestones }: SeenCourse, mend: Mend | null): string[] =>
  milestones.floorMonth === null || mend === null
    ? []
    : [
        `${formatDollars(Math.ceil(mend.perMonth))} more each month from ${nameOfMonth(mend.from)} would hold the floor ${mend.until === null ? 'to the end of the plan' : `until ${nameOfMonth(mend.until)}`}.`,
      ]

interface Pull {
  dollars: number
  words: string
}

/** What pulled hardest in the twelve months up to the crossing, against the twelve before them (or the plan's start). */
const reasonBefore = (plan: Plan, { months, parts }: SeenCourse, at: number): string => {
  const year = months.slice(Math.max(0, at - 11), at + 1)
  const before = months.slice(Math.max(0, at - 23), Math.max(1, at - 11))
  const sum = (name: keyof SeenMonth, over = year) =>
    over.reduce((total, one) => total + Number(one[name]), 0)
  const more = (name: keyof SeenMonth) => (before.length === 12 ? sum(name) - sum(name, before) : 0)
  // What is called on beyond the plan's draws is told in a sentence of its own, and is no draw of the plan.
  const gapOf = (over: readonly SeenMonth[]) =>
    over.reduce(
      (all, one) =>
        all +
        one.householdCosts -
        (one.draw - one.drawToHoldFloor) -
        one.pay -
        one.side -
        one.socialSecurity -
        one.loanDrawn,
      0,
    )
  const gap = gapOf(year)
  const way = months.slice(0, at)
  const wayGap = (gapOf(way) / at) * 12
  const called = (way.reduce((all, one) => all + one.drawToHoldFloor, 0) / at) * 12
  // Where the farm gave some of it beyond the plan, the gap is told of the whole way, and what of it savings gave: that × the time is what they fell by.
  const isShared = called > 0.5 && wayGap > called
  const shared = isShared
    ? `; the farm’s spare cash pays ${formatDollars(called)} of that a year, savings the rest`
    : ''
  const told = formatDollars(isShared ? wayGap : gap)
  const over = isShared ? 'a year on average until then' : inMonths(year.length)
  const firstDraw = months.findIndex((month) => month.draw - month.drawToHoldFloor > 0)
  if (firstDraw < 0 || firstDraw > at) {
    const none = months.some((month) => month.plannedDraw > 0) ? 'no draws come' : 'the plan draws nothing'
    const when =
      firstDraw < 0 ? none : `the plan draws nothing before ${nameOfMonth(months[firstDraw]!.month)}`
    return `${when}${isShared ? ' but for farm cash called on to hold the floor' : ''}, and the household spends ${told} more ${over} than comes in${shared}`
  }
  const pulls = [
    pull(
      endsByPlan(plan, months[at]!, sum('farmSales')) ? 0 : sum('unmetDraw'),
      (said) => `the farm cannot pay ${said} of the draws planned for the year before`,
    ),
    fromHousehold(sum('contribution'), more('contribution'), before.length === 12),
    pull(sum('oneOffs'), (said) => `${oneOffWords(plan, year)} ${said} in the year before`),
    pull(more('taxes'), (said) => `tax takes ${said} more than a year before`),
    pull(more('premiums'), (said) => `premiums are ${said} a year higher than a year before`),
    pull(more('care'), (said) => `care costs ${said} more than a year before`),
    pull(more('loanPayments'), (said) => `loan payments are ${said} higher than a year before`),
    pull(-sum('returns'), (said) => `accounts lose ${said} in the year before`),
    ...plan.household.living.map(({ name }, line) =>
      pull(
        before.length === 12 ? moreOfLine(plan, parts, line, at) : 0,
        (said) => `${name} costs ${said} more than a year before`,
      ),
    ),
  ]
  const worst = pulls.reduce((a, b) => (b.dollars > a.dollars ? b : a))
  if (worst.dollars > 1 && worst.dollars > 0.35 * Math.max(gap, 1)) return worst.words
  return `household costs run ${told} ${over} above ${isShared ? 'planned draws' : 'draws'} and other income${shared}`
}

/** A course that falls within its first year has no year before it. */
const inMonths = (count: number): string =>
  count === 12 ? 'in the year before' : `in the ${monthsWords(count)} before`

const pull = (dollars: number, words: (said: string) => string): Pull => ({
  dollars,
  words: words(formatDollars(dollars)),
})

/** What a plan pays into the farm from its start on is news in its first two years alone. */
const fromHousehold = (paid: number, more: number, isCompared: boolean): Pull =>
  isCompared
    ? pull(more, (said) => `the farm takes ${said} more from the household than a year before`)
    : pull(paid, (said) => `the farm takes ${said} from the household in the year before`)

/** The one-off costs of these months by their names, what a life event costs among them. */
const oneOffWords = (plan: Plan, months: readonly SeenMonth[]): string => {
  const [first, last] = [months[0]!.month, months.at(-1)!.month]
  const names = lived(plan)
    .household.oneOffs.filter(({ month, cost }) => month >= first && month <= last && cost > 0)
    .sort((a, b) => b.cost - a.cost)
    .map(({ name }) => `“${name}”`)
  if (names.length < 2) return names[0] ? `${names[0]} costs` : 'one-off items cost'
  return names.length === 2 ? `${allOf(names)} cost` : `${names[0]} and other one-off items cost`
}

/** A farm of cash alone pays draws as long as that lasts: then it is the plan that is not told whole. */
const unpaidWords = ({ farm }: Plan, said: string, isWhole: boolean): string => {
  const draws = `${said} of the ${isWhole ? 'planned draws' : 'draws planned for the first ten years'}`
  return farm.enterprises.length + farm.herds.length === 0
    ? `the plan names nothing that the farm sells, so ${draws} cannot be paid`
    : `the farm cannot pay ${draws}`
}

/** Draws that the plan itself lets go, with a slower year or a farm that sells no more, are nobody's failure. */
const endsByPlan = (plan: Plan, at: SeenMonth, sold: number): boolean =>
  (plan.farm.enterprises.length + plan.farm.herds.length > 0 && sold <= 0) ||
  plan.farm.phases.some((phase) => phase.from <= at.month)

/** What a living line costs more in the twelve months up to a month than in the twelve before them, as the run noted it. */
const moreOfLine = (plan: Plan, parts: SeenCourse['parts'], line: number, at: number): number => {
  if (parts === null) return 0
  const span = parts.living.length / lived(plan).household.living.length
  const row = parts.living.subarray(line * span, (line + 1) * span)
  const sum = (from: number, to: number) => row.subarray(from, to).reduce((a, b) => a + b, 0)
  return sum(at - 11, at + 1) - sum(at - 23, at - 11)
}

const lowestSentence = ({ milestones, months }: SeenCourse): string[] => {
  const at = months.find((month) => month.month === milestones.lowestMonth)
  if (!at || milestones.floorMonth !== null) return []
  const above = milestones.lowestSpendable - at.floor
  return [
    `Spendable savings are lowest in ${nameOfMonth(milestones.lowestMonth)}: ${formatDollars(milestones.lowestSpendable)}, ${formatDollars(above)} above the floor.`,
  ]
}

const carrySentence = (plan: Plan, { milestones, months }: SeenCourse): string => {
  const { carryMonth, carryJudgedTo, carryMonthToEnd } = milestones
  const horizon =
    carryJudgedTo === null ? 'the end of the plan' : `the first slower year, ${nameOfMonth(carryJudgedTo)}`
  if (carryMonth !== null) {
    const says = `From ${nameOfMonth(carryMonth)} the farm’s draws cover all household costs, up to ${horizon}`
    if (carryJudgedTo === null) return `${says}.`
    if (carryMonthToEnd === carryMonth) return `${says}, and beyond it to the end of the plan.`
    return `${says}. ${afterSlowing(months, carryJudgedTo)}`
  }
  const judged = carryJudgedTo === null ? months : months.filter((one) => one.month < carryJudgedTo)
  // The first eleven months are no year yet.
  const best = judged.slice(11).reduce((most, month) => Math.max(most, month.coverRatio ?? 0), 0)
  // What was drawn before its month is not missing for want of a farm that pays: that is told with those draws.
  const called = calledOn(months)
  const unmet = unmetIn(toldYears(months)) - (called?.taken ?? 0)
  const reason =
    plan.draw.policy === 'steps' && plan.draw.steps.length === 0
      ? 'the plan has no draws'
      : unmet > 0.5
        ? unpaidWords(plan, formatDollars(unmet), isToldWhole(months))
        : `draws, less what the household puts in, ${best >= 0.995 ? 'cover household costs over some years and not over all that follow' : `reach at most ${Math.round(best * 100)}% of household costs over a year`}`
  return `The farm does not carry the household for good before ${horizon}: ${reason}.`
}

/** Farm cash drawn beyond the plan's draws is never taken without a word. */
const calledSentence = ({ months }: SeenCourse): string[] => {
  const called = calledOn(months)
  return called === null ? [] : [`${calledWords(called)} The plan’s savings section turns that off.`]
}

/** How far draws reach once they fall by the plan, alone and with what else comes in. */
const afterSlowing = (months: readonly SeenMonth[], from: string): string => {
  let [costs, draws, others, called] = [0, 0, 0, 0]
  for (const month of months) {
    if (month.month < from) continue
    costs += month.householdCosts
    draws += month.draw - month.drawToHoldFloor
    called += month.drawToHoldFloor
    others += month.socialSecurity + month.pay + month.side
  }
  if (costs <= 0) return 'After it there are no household costs.'
  const share = (dollars: number) => `${Math.round((dollars / costs) * 100)}%`
  return `From then to the end of the plan draws, which fall by the plan, cover ${share(draws)} of household costs; with Social Security, pay${called > 0.5 ? ', side ventures and what is drawn beyond the plan' : ' and side ventures'} it is ${share(draws + others + called)}, and savings do the rest.`
}

const contributionSentence = ({ milestones, months }: SeenCourse): string[] => {
  const total = months.reduce((sum, month) => sum + month.contribution, 0)
  if (total < 1) return []
  const until =
    milestones.farmStandsAloneFrom === null
      ? 'and still does at the end of the plan'
      : `and stands alone from ${milestones.farmStandsAloneFrom}`
  return [`The farm needs ${formatDollars(total)} from the household in all, ${until}.`]
}

/** The first year in which hours in a hundred are missing, told once. */
const workSentence = ({ months }: SeenCourse): string[] => {
  const years = new Map<string, { undone: number; worked: number }>()
  for (const { month, undoneHours, farmHours } of months) {
    const year = years.get(month.slice(0, 4)) ?? { undone: 0, worked: 0 }
    years.set(month.slice(0, 4), {
      undone: year.undone + undoneHours,
      worked: year.worked + farmHours,
    })
  }
  const said = [...years].flatMap(([year, hours]) => undoneSays(year, hours) ?? [])
  return said.slice(0, 1)
}

const slowerSentence = ({ milestones }: SeenCourse): string[] =>
  milestones.firstSlowerMonth === null
    ? []
    : [
        `At the first slower year, ${nameOfMonth(milestones.firstSlowerMonth)}, all savings together are ${formatDollars(milestones.savingsAtFirstSlower!)}.`,
      ]

const shortSentence = ({ milestones }: SeenCourse): string[] => {
  if (milestones.runsShort === null) return []
  const ages = milestones.agesWhenShort.map(({ name, age }) => `${name} is ${age}`).join(', ')
  return [
    `Money runs short in ${nameOfMonth(milestones.runsShort)}${ages === '' ? '' : ` (${ages})`}: ${formatDollars(milestones.unmetNeed)} of needs in all cannot be met.`,
  ]
}
