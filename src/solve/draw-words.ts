// What the answer about draws says: the level and whether the plan does better, then in what, the slower years, and the steps.
import { addMonths, type Month, monthName, monthText } from '#calendar/month.ts'
import { formatDollars, formatPercent, formatRange } from '#money/format.ts'
import { allOf, anyOf } from '#money/lists.ts'
import type { BearableDraw, ComparedDraws, Draw } from './draw-answer.ts'
import { type Said, saidIn } from './question.ts'
import type { Standing } from './standing.ts'

type Told = Pick<Draw, 'answer' | 'starts' | 'untilMonth' | 'compared'>

/** Its calendar month, and how many months it has. */
interface Span {
  firstMonth: number
  months: number
}

/** The answer in one sentence, and what else is to be said of it, a thing at a time. */
export function sayDraw(
  told: Told,
  { firstMonth, months }: Span,
  confidence: number,
  hasSlower: boolean,
): Said {
  const { answer, starts } = told
  if (answer.kind === 'cannot be reached') return saidIn(answer.because)
  const name = (month: number) => monthName(addMonths(firstMonth as Month, month))
  return saidIn(
    sayLevel(told, answer, name, confidence, hasSlower),
    warning(told.compared, name, confidence),
    saySure(answer, confidence),
    sayAfter(answer, name),
    sayOthers(answer, starts, name),
    saySteps(answer, name, besideLevel(told, { firstMonth, months }, hasSlower, name)),
  )
}

const percent = (share: number) => formatPercent(share, 0)

/** Two shares, in tenths or hundredths of a percent where whole ones are alike; null where these are too. */
const apart = (one: number, other: number): [string, string] | null => {
  for (const digits of [0, 1, 2]) {
    const said = [formatPercent(one, digits), formatPercent(other, digits)] as [string, string]
    if (said[0] !== said[1]) return said
  }
  return null
}

const called = { plan: 'today’s plan', level: 'one level', steps: 'the steps' }

/** Of an answer that leaves the household worse off than its plan, or below its floor: in what, before anything else is said of it. */
function warning(
  [plan, ...others]: readonly ComparedDraws[],
  name: (month: number) => string,
  confidence: number,
): string {
  const worse = others.filter((each) => each.worse)
  if (worse.length > 0) return `Not so well as today’s plan: ${sayWorse(worse, plan!, name)}.`
  const low = others.filter((each) => each.standing.aboveFloor.share < confidence)
  if (low.length === 0) return ''
  const above = ({ standing }: ComparedDraws) => percent(standing.aboveFloor.share)
  const start = 'What the farm can pay does not keep savings above the floor'
  if (low.every((each) => above(each) === above(plan!)))
    return `${start}: with ${anyOf(low.map((each) => called[each.as]))} they stay above it in ${above(plan!)} of simulations, no more and no fewer than as planned.`
  return `${start}: ${low.map((each) => `with ${called[each.as]} in ${above(each)}`).join(', ')} of simulations, as planned in ${above(plan!)}.`
}

/** What differs of each, what it is worse in first; those that differ alike are said together. */
function sayWorse(
  worse: readonly ComparedDraws[],
  plan: ComparedDraws,
  name: (month: number) => string,
): string {
  const by = new Map<string, string[]>()
  for (const each of worse) {
    const how = howWorse(each, plan, name)
    by.set(how, [...(by.get(how) ?? []), `with ${called[each.as]}`])
  }
  return [...by].map(([how, which]) => `${allOf(which)} ${how}`).join('; ')
}

function howWorse(one: ComparedDraws, plan: ComparedDraws, name: (month: number) => string): string {
  const [then, planned] = [one.standing, plan.standing]
  const held = apart(then.held.share, planned.held.share)
  const above = apart(then.aboveFloor.share, planned.aboveFloor.share)
  const [until, plannedUntil] = [then, planned].map(({ monthsLeft: { median } }) =>
    Number.isFinite(median) ? `in ${name(median)}` : 'never',
  )
  const middle =
    until === plannedUntil ? null : `${until} in the middle simulation instead of ${plannedUntil}`
  const isSooner = one.worseIn === 'sooner'
  const said = {
    held: held && `nothing goes unpaid in ${held[0]} of simulations instead of ${held[1]}`,
    short: one.worseIn === 'short' ? 'money tends to run short sooner' : null,
    floor: above && `savings stay above the floor in ${above[0]} of simulations instead of ${above[1]}`,
    sooner: isSooner
      ? `savings tend to fall below the floor sooner${middle === null ? '' : `, ${middle}`}`
      : middle && `savings fall below the floor ${middle}`,
  }
  const first = one.worseIn === null ? null : said[one.worseIn]
  const rest = Object.values(said).filter((each) => each !== first)
  const worse = [first, ...rest].filter((each) => each !== null).join(', ')
  return endsHigher(then, planned)
    ? `${worse}, and yet more is left at the end in the middle simulation`
    : worse
}

/** By as much as whole dollars show. */
const endsHigher = (one: Standing, plan: Standing): boolean =>
  Math.round(one.atEnd.median) > Math.round(plan.atEnd.median)

/** What can be drawn now comes first, where the answer begins later. */
function sayLevel(
  { compared, starts, untilMonth }: Told,
  { level, fromMonth, paths }: BearableDraw,
  name: (month: number) => string,
  confidence: number,
  hasSlower: boolean,
): string {
  if (level.value <= 0)
    return `The farm can pay no one level of draws until ${name(untilMonth)} in ${percent(confidence)} of simulations.`
  const own = compared.find(({ as }) => as === 'level')
  const but = own?.worse
    ? ', but today’s plan does better'
    : own && own.standing.aboveFloor.share < confidence
      ? ', but savings do not stay above the floor'
      : ''
  const until = hasSlower ? `until ${name(untilMonth)}` : 'to the end of the plan'
  const draws = `${formatDollars(level.value)} a month from ${name(fromMonth)}`
  const now = fromMonth > 0 ? startNow(starts) : undefined
  if (now === undefined) return `The farm can pay draws of ${draws} ${until}, rising with prices${but}.`
  if (now.level.value <= 0)
    return `The farm can pay no draws that begin now; it can pay ${draws} ${until}, rising with prices${but}.`
  const about = now.paths < paths ? 'about ' : ''
  return `The farm can pay draws of ${about}${formatDollars(now.level.value)} a month from now on ${until}, rising with prices, or ${draws}${but}.`
}

const startNow = (starts: Draw['starts']) => starts.find(({ fromMonth }) => fromMonth === 0)

const saySure = ({ level }: BearableDraw, confidence: number): string =>
  level.value <= 0
    ? ''
    : `The farm keeps its reserve then in ${percent(confidence)} of simulations. Margin of error: ${formatRange(level.low, level.high, formatDollars)}.`

const sayAfter = ({ level, after, paths }: BearableDraw, name: (month: number) => string): string =>
  level.value <= 0 || after === null
    ? ''
    : after.level.value > 0
      ? `From ${name(after.fromMonth)} on, in the slower years, it can pay ${formatDollars(after.level.value)}${after.paths < paths ? `, from ${after.paths} simulations` : ''}.`
      : `From ${name(after.fromMonth)} on, in the slower years, it can pay none so surely.`

function sayOthers(
  { fromMonth, level, paths }: BearableDraw,
  starts: Draw['starts'],
  name: (month: number) => string,
): string {
  const elsewhere = starts.filter((start) => start.fromMonth !== fromMonth && start.fromMonth !== 0)
  const few = elsewhere.find((start) => start.paths < paths)
  const others = elsewhere.map((start) =>
    start.level.value > 0
      ? `${formatDollars(start.level.value)} from ${name(start.fromMonth)}`
      : `nothing yet from ${name(start.fromMonth)}`,
  )
  return others.length === 0 || level.value <= 0
    ? ''
    : `Begun at other times${few ? `, from ${few.paths} simulations` : ''}: ${others.join(', ')}.`
}

function saySteps(
  { steps, paidInWorstYear }: BearableDraw,
  name: (month: number) => string,
  beside: string | null,
): string {
  if (steps.length === 0) return ''
  if (beside === null)
    return 'Steps would come to the same: in none of its years can the farm pay another level.'
  const list = steps.map((each) => `${formatDollars(each.perMonth)} from ${name(each.fromMonth)}`)
  return `By steps it can pay ${list.join(', ')}: ${beside}; each year’s draws are then paid in full in at least ${percent(paidInWorstYear)} of simulations.`
}

/** Whether the steps bring more than the one level, until the slower years and in them, at first prices; null where they are that level. */
function besideLevel(
  { compared, untilMonth }: Told,
  { firstMonth, months }: Span,
  hasSlower: boolean,
  name: (month: number) => string,
): string | null {
  const [level, steps] = (['level', 'steps'] as const).map((as) => {
    const draw = compared.find((one) => one.as === as)?.draw
    return drawnBy(draw?.policy === 'steps' ? draw.steps : [], firstMonth, months)
  })
  if (level!.every((each, m) => isAlike(each, steps![m]!))) return null
  const mean = (drawn: readonly number[], from: number, to: number) =>
    drawn.slice(from, to).reduce((sum, each) => sum + each, 0) / Math.max(1, to - from)
  const word = (from: number, to: number): string => {
    const [one, other] = [mean(level!, from, to), mean(steps!, from, to)]
    if (isAlike(one, other)) return 'as much'
    return other > one ? 'more' : 'less'
  }
  const than = (of: string) => (of === 'as much' ? 'as much in all' : `${of} in all`)
  const as = (of: string) => (of === 'as much' ? 'as one level' : 'than one level')
  const first = word(0, untilMonth)
  const later = hasSlower ? word(untilMonth, months) : first
  if (later === first)
    return `${than(first)} ${as(first)}${hasSlower ? `, until ${name(untilMonth)} and from then on` : ''}`
  return `${than(first)} until ${name(untilMonth)} ${as(first)}, and ${later} from then on`
}

/** Levels are found within ten dollars: those as near to each other are one. */
const isAlike = (one: number, other: number): boolean =>
  Math.abs(one - other) <= 25 + 0.01 * Math.max(one, other)

/** By month of the plan, at first prices. */
const drawnBy = (
  steps: readonly { from: string; perMonth: number }[],
  firstMonth: number,
  months: number,
): number[] =>
  Array.from({ length: months }, (_, m) => {
    const month = monthText((firstMonth + m) as Month)
    return steps.findLast(({ from }) => from <= month)?.perMonth ?? 0
  })
