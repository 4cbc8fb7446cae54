// What the answer about draws says: first whether it would leave the household worse off, then the level, the steps, and the plan beside them.
import { addMonths, type Month, monthName } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { BearableDraw, ComparedDraws, Draw } from './draw-answer.ts'

type Told = Pick<Draw, 'answer' | 'starts' | 'untilMonth' | 'compared'>

export function sayDraw(told: Told, firstMonth: number, confidence: number, hasSlower: boolean): string {
  const { answer, starts, untilMonth } = told
  if (answer.kind === 'cannot be reached') return answer.because
  const name = (month: number) => monthName(addMonths(firstMonth as Month, month))
  const sentences = [
    warning(told.compared, name, confidence),
    sayLevel(answer, name, untilMonth, confidence, hasSlower),
    sayOthers(answer, starts, name),
    saySteps(answer, name),
  ]
  return sentences.filter((each) => each !== '').join(' ')
}

const percent = (share: number) => formatPercent(share, 0)

/** An answer that leaves the household worse off than its plan, or below its floor, says so before anything else. */
function warning(
  compared: readonly ComparedDraws[],
  name: (month: number) => string,
  confidence: number,
): string {
  const [plan, ...others] = compared
  const called = { plan: 'today’s plan', level: 'one level', steps: 'the steps' }
  const worse = others.filter((each) => each.worse)
  const until = (month: number) => (Number.isFinite(month) ? `, in the middle one until ${name(month)}` : '')
  const how = ({ standing }: ComparedDraws) =>
    `nothing goes unpaid in ${percent(standing.held.share)} of simulations and savings stay above the floor in ${percent(standing.aboveFloor.share)}${until(standing.monthsLeft.median)}`
  if (worse.length > 0)
    return `Not so well as today’s plan: with ${worse.map((each) => `${called[each.as]} ${how(each)}`).join(', with ')}; as planned ${how(plan!)}.`
  const low = others.filter((each) => each.standing.aboveFloor.share < confidence)
  if (low.length === 0) return ''
  return `What the farm can pay does not keep savings above the floor: ${low.map((each) => `with ${called[each.as]} in ${percent(each.standing.aboveFloor.share)}`).join(', ')} of simulations, as planned in ${percent(plan!.standing.aboveFloor.share)}.`
}

function sayLevel(
  { level, fromMonth, after, paths }: BearableDraw,
  name: (month: number) => string,
  untilMonth: number,
  confidence: number,
  hasSlower: boolean,
): string {
  if (level.value <= 0)
    return `The farm can pay no one level of draws until ${name(untilMonth)} in ${percent(confidence)} of simulations.`
  const then =
    after === null
      ? ''
      : after.level.value > 0
        ? ` From ${name(after.fromMonth)} on, in the slower years, it can pay ${formatDollars(after.level.value)}${after.paths < paths ? `, from ${after.paths} of them` : ''}.`
        : ` From ${name(after.fromMonth)} on, in the slower years, it can pay none so surely.`
  const until = hasSlower ? `until ${name(untilMonth)}` : 'to the end of the plan'
  return `The farm can pay draws of ${formatDollars(level.value)} a month from ${name(fromMonth)} ${until}, rising with prices, with its reserve intact in ${percent(confidence)} of simulations (margin of error: ${formatDollars(level.low)} to ${formatDollars(level.high)}).${then}`
}

function sayOthers(
  { fromMonth, level, paths }: BearableDraw,
  starts: Draw['starts'],
  name: (month: number) => string,
): string {
  const elsewhere = starts.filter((start) => start.fromMonth !== fromMonth)
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

function saySteps({ steps, paidInWorstYear }: BearableDraw, name: (month: number) => string): string {
  if (steps.length === 0) return ''
  const list = steps.map((each) => `${formatDollars(each.perMonth)} from ${name(each.fromMonth)}`)
  return `By steps it can pay more: ${list.join(', ')}; each year’s draws are then paid in full in at least ${percent(paidInWorstYear)} of simulations.`
}
