// Why a bad year changes nothing, or looks better than none, told from the figures of the months it falls into.
import { nameOfMonth, parseMonth } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { weeklyHoursAt } from '#farm/work-months.ts'
import { formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { Storm } from '#plan/assumption-plan.ts'
import { drawsAreToCome } from '#plan/draw-plan.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import type { ProjectedMonth } from '#runway/project.ts'
import type { StormChange } from './storm-parts.ts'

/** The whole sentence. `months`: the plan as expected. Each thing that the bad year touches has its own reason for doing nothing. */
export const whyNothing = (plan: Plan, months: readonly ProjectedMonth[], storm: Storm): string => {
  const from = parseMonth(storm.from)! - firstMonthOf(plan)
  const hit = months.slice(Math.max(0, from), Math.max(0, from + storm.months))
  if (hit.length === 0) return 'It changes nothing. It lies outside the months of the plan.'
  const sum = (pick: (one: ProjectedMonth) => number) => hit.reduce((total, one) => total + pick(one), 0)
  const isUntold = hoursToGive(plan, months, storm) !== null
  const reasons = [
    ...(storm.salesShare === 1 ? [] : ['The farm sells nothing in these months']),
    ...(storm.lostMarket === undefined ? [] : [marketReason(plan, hit, storm.lostMarket)]),
    ...(storm.hoursLostPerWeek > 0 && !isUntold
      ? [hoursReason(sum, 'Those who are left have hours enough for it')]
      : []),
    ...(storm.person === undefined ? [] : personReasons(plan, sum, storm.person, isUntold)),
    ...(storm.payStops === undefined
      ? []
      : [`${nameIn(plan.household, storm.payStops)} has no pay in these months`]),
    ...(storm.drawsLateMonths > 0 ? [drawsReason(plan, sum)] : []),
    ...(storm.premiumJump === 0 ? [] : [premiumReason(sum)]),
    ...(storm.livingShare === 1 ? [] : ['There are no living costs in these months']),
    ...(storm.stockFall + storm.bondFall > 0 ? [fallReason(plan, hit[0]!)] : []),
  ]
  if (reasons.length === 0 && !isUntold) return 'It changes nothing that the plan has.'
  const known = isUntold ? ' but the farm’s work, and the hours it needs are not given' : ''
  return [`It changes nothing${known}`, ...reasons].map((one) => `${one}.`).join(' ')
}

type Sum = (pick: (one: ProjectedMonth) => number) => number

const marketReason = (plan: Plan, hit: readonly ProjectedMonth[], lost: string): string => {
  const course = farmCourse(plan.farm, parseMonth(hit[0]!.month)!, hit.length)
  const place = course.markets.findIndex(({ id }) => id === lost)
  if (place < 0) return 'The farm has no such market'
  const sold = course.marketSales.subarray(place * hit.length, (place + 1) * hit.length)
  return sold.reduce((a, b) => a + b, 0) < 1
    ? `Nothing is sold at ${course.markets[place]!.name} in these months`
    : `The other markets take what was sold at ${course.markets[place]!.name}`
}

const hoursReason = (sum: Sum, otherwise: string): string =>
  sum((one) => one.farmHours) < 1 ? 'The farm asks for no hours in these months' : otherwise

/** Where a bad year takes work from a farm whose hours nobody has given: what it takes cannot be told, and where the hours go. */
export const hoursToGive = (
  { farm, household }: Plan,
  months: readonly ProjectedMonth[],
  storm: Storm,
): { says: string; asks: string; href: string } | null => {
  const takesWork = storm.person !== undefined || storm.hoursLostPerWeek > 0
  const isWorked = months.some((one) => one.farmHours + one.hiredHours + one.undoneHours > 0.01)
  if (!takesWork || isWorked || farm.enterprises.length + farm.herds.length === 0) return null
  const [only, ...others] = farm.enterprises
  const given = weeklyHoursAt(farm, parseMonth(storm.from)!)
  const canGive = farm.crew.flatMap(({ who }, at) =>
    given[at]! > 0 ? [`${nameIn(household, who)} ${Math.round(given[at]! * 10) / 10} hours a week`] : [],
  )
  const crew = canGive.length === 0 ? '' : ` The plan has what each can give (${canGive.join(', ')}).`
  return {
    says: `The hours that the farm’s enterprises need are not given, so none of its work is lost.${crew}`,
    asks: 'Give the hours an enterprise needs',
    href: only && others.length + farm.herds.length === 0 ? `/farm/enterprises/${only.id}` : '/farm',
  }
}

/** Nothing changed, so no pay and no venture of this person has stopped, and no hour went unworked or was hired for. */
const personReasons = (plan: Plan, sum: Sum, id: string, isUntold: boolean): string[] => {
  const { people } = plan.household
  const name = nameIn(plan.household, id)
  const others = people.filter((one) => one.id !== id).map((one) => one.name)
  return [
    `${name} has no pay and no side venture in these months`,
    ...(isUntold
      ? []
      : [
          hoursReason(
            sum,
            plan.farm.crew.some(({ who }) => who === id)
              ? `${others.length === 0 ? 'Others' : allOf(others)} can work the farm’s hours without ${name}`
              : `${name} is not among those who work on the farm`,
          ),
        ]),
  ]
}

const nameIn = ({ people }: Pick<Plan['household'], 'people'>, id: string): string =>
  people.find((one) => one.id === id)?.name ?? id

const drawnAnyway =
  'Before savings fall below the floor, all that the farm can spare is drawn, however late the planned draws come'

const drawsReason = (plan: Plan, sum: Sum): string => {
  if (sum((one) => one.plannedDraw) < 1) return 'The plan has no draws'
  if (!drawsAreToCome(plan.draw, firstMonthOf(plan))) return 'All draws of the plan have begun already'
  return sum((one) => one.drawToHoldFloor) < 1
    ? 'The draws that are still to come bring nothing'
    : drawnAnyway
}

const premiumReason = (sum: Sum): string =>
  sum((one) => one.premiums + one.advanceCredit) < 1
    ? 'No premium is paid in these months'
    : 'The premium credit pays all of the jump'

const fallReason = (plan: Plan, at: ProjectedMonth): string => {
  const invested = plan.savings.accounts.filter(({ mix }) => mix.stocks + mix.bonds > 0)
  if (invested.length === 0) return 'No account holds stocks or bonds'
  return at.cash + at.taxable + at.traditional + at.roth + at.health < 1
    ? 'All accounts are empty by then'
    : 'The accounts that hold stocks or bonds are empty by then'
}

/** Why draws that come late leave the same sums: what the farm does not give in its month it gives later. */
export const whyOnlyLater = (isCalledOn: boolean): string => {
  const later = 'It moves draws to later months: over the ten years after it begins they come to the same.'
  return isCalledOn ? `${later} ${drawnAnyway}.` : later
}

/** What a bad year costs where savings last as many months all the same. `floorMonth`: as planned; null: never. */
export const whyNoSooner = (changes: readonly StormChange[], floorMonth: string | null): string => {
  const ofHouse = changes.filter(({ side }) => side === 'household')
  const sum = (over: readonly StormChange[]) => over.reduce((all, { dollars }) => all + Math.abs(dollars), 0)
  const [lost, gained] = [ofHouse.filter(({ helps }) => !helps), ofHouse.filter(({ helps }) => helps)]
  const less = sum(lost) - sum(gained)
  const same =
    floorMonth === null
      ? 'savings stay above the floor all the same'
      : `savings fall below the floor in ${nameOfMonth(floorMonth)} all the same`
  if (less >= 1) return `It takes ${formatDollars(less)} in the ten years after it begins: ${same}.`
  const by = gained.slice(0, 2).map(({ name, isCost }) => `${isCost ? 'lower' : 'more'} ${name}`)
  return `It takes ${formatDollars(sum(lost))}, made good by ${allOf(by)} in the ten years after it begins: ${same}.`
}

/** What makes a death, or another bad year, look better than the plan as expected: money is all that is counted. */
export const whyBetter = (changes: readonly StormChange[]): string => {
  const ofHouse = changes.filter(({ side }) => side === 'household')
  const list = (words: string, which: (one: StormChange) => boolean): string[] => {
    const found = ofHouse.filter(which).slice(0, 4)
    const said = found.map(({ name, dollars }) => `${name} ${formatDollars(Math.abs(dollars))}`).join(', ')
    return found.length === 0 ? [] : [`${words} (${said})`]
  }
  const made = [
    ...list('costs end or fall', ({ helps, isCost }) => helps && isCost),
    ...list('more comes in', ({ helps, isCost }) => helps && !isCost),
    ...list('less comes in', ({ helps, isCost }) => !helps && !isCost),
    ...list('costs rise', ({ helps, isCost }) => !helps && isCost),
  ]
  return `In money it looks better than as planned, and money is all that is counted here. Over the ten years after it ${made.join('; ')}.`
}
