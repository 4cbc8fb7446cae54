// The headline of Now: as planned, in a bad year, one time in ten. Three answers to one question, none larger than the others.

import type { Child } from 'hono/jsx'
import { type Month, monthName } from '#calendar/month.ts'
import { countedFrom, longSpell, monthsWords } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { refreshes } from '../parts/htmx.ts'
import type { ChanceNow } from './figures.ts'

type Read = Extract<NowFigures['plan'], { status: 'read' }>

export interface AnswersProps {
  plan: Read
  /** Of today. */
  month: Month
  chance: ChanceNow
  /** The bad years are run for the picture below, after the page. */
  stormsWait: boolean
}

export const Answers = ({ plan, month, chance, stormsWait }: AnswersProps) => (
  <section
    id="answers"
    class="answers-block"
    aria-label="Months left"
    {...watched(chance.isRunning || stormsWait)}
  >
    <p class="answer">{sentenceOf(plan, chance)}</p>
    <ol class="answers">
      <Answer label="As planned" value={leftWords(plan.monthsLeft)} more={countedOn(plan)}>
        {plannedWords(plan, month)} {plan.drawsFit ? `${plan.drawsFit.says} ` : ''}
        <a href="/runway">Why</a>
      </Answer>
      <Answer label="In a bad year" value={plan.worst ? leftWords(plan.worst.monthsLeft) : 'Not run yet'}>
        {badYearWords(plan)} <a href="/runway/storms">Which bad years</a>
      </Answer>
      <Answer label="One time in ten" value={chanceValue(chance)}>
        {chanceWords(chance)} <a href="/runway/chance">How sure</a>
      </Answer>
    </ol>
  </section>
)

const countedOn = ({ calledOn, onProgram, workedToEnd }: Read) => {
  const says = [calledOn, onProgram, workedToEnd].flatMap((one) => (one ? [one.says] : []))
  return says.length === 0 ? null : { title: 'What it counts on', says: says.join(' ') }
}

/** Asks for itself again while simulations or bad years run; without script the page is loaded again by hand. */
const watched = (isWaiting: boolean) => (isWaiting ? refreshes('answers', { get: '/now' }, 'every 2s') : {})

const Answer = (props: {
  label: string
  value: Child
  /** What is read once, behind. */
  more?: { title: string; says: string } | null
  children: Child
}) => (
  <li>
    <p class="answer-label">{props.label}</p>
    <p class="answer-value">{props.value}</p>
    <p class="answer-said">{props.children}</p>
    {props.more ? (
      <details>
        <summary>{props.more.title}</summary>
        <p class="hint">{props.more.says}</p>
      </details>
    ) : null}
  </li>
)

const leftWords = (left: number | null): string => (left === null ? 'Savings last' : monthsWords(left))

/** The comfortable answer never stands alone: what most simulations do is said with it. */
const sentenceOf = (plan: Read, { outcome, isOfBefore }: ChanceNow): Child => {
  const planned =
    plan.monthsLeft === null
      ? 'If all goes as planned, savings last.'
      : `If all goes as planned, savings reach the floor in ${monthsWords(plan.monthsLeft)}.`
  if (outcome === null || isOfBefore) return planned
  const middle = outcome.middle
  const isWorse = middle !== null && (plan.monthsLeft === null || middle < plan.monthsLeft)
  if (middle === null) {
    const share = Math.round((100 * outcome.neverReach) / outcome.runs)
    return plan.monthsLeft === null
      ? `${planned} In ${share}% of simulations they last too.`
      : `${planned} In ${share}% of simulations they last.`
  }
  return (
    <>
      {planned} {isWorse ? <strong>Most simulations go worse.</strong> : null} In half of{' '}
      {outcome.runs.toLocaleString('en-US')} simulations, savings reach the floor within {longSpell(middle)}.
    </>
  )
}

const plannedWords = (plan: Read, month: Month): string => {
  if (plan.monthsLeft === null)
    return plan.marginMonth === null
      ? ''
      : `Smallest margin: ${formatDollars(plan.marginDollars)} above the floor in ${monthName(plan.marginMonth)}.`
  const floor =
    plan.floorMonth === null
      ? ''
      : `Below the floor in ${monthName(plan.floorMonth)}, ${countedFrom(month)}; `
  return plan.runsShort === null
    ? `${floor}retirement accounts pay from then on, and money does not run out.`
    : `${floor}out of money in ${monthName(plan.runsShort)}.`
}

const badYearWords = ({ worst, badYears }: Read): string => {
  if (worst === null) return 'The bad years of the plan are run a moment after the page.'
  const reach = `${badYears.reachFloor} of ${badYears.count} bad years reach the floor.`
  return worst.floorMonth === null
    ? `${worst.name} is the hardest: lowest savings ${formatDollars(worst.lowestDollars)}.`
    : `To ${monthName(worst.floorMonth)}: ${worst.name}. ${reach}`
}

const chanceValue = ({ outcome, isRunning }: ChanceNow): Child => {
  if (outcome === null) return isRunning ? 'Being run' : 'Not run'
  return outcome.oneInTen === null ? (
    'Savings last'
  ) : (
    <>
      {monthsWords(outcome.oneInTen)} <small>or fewer</small>
    </>
  )
}

const ofSimulations = ({ neverReach, runs }: { neverReach: number; runs: number }): string => {
  const all = runs.toLocaleString('en-US')
  return neverReach === 0
    ? `In none of ${all} simulations do`
    : `In ${neverReach === runs ? `all of ${all}` : `${neverReach} of ${all}`} simulations`
}

const chanceWords = ({ outcome, isRunning, isOfBefore }: ChanceNow): string => {
  if (outcome === null)
    return isRunning
      ? 'A thousand simulations of the plan are under way; this page fills them in.'
      : 'Simulations say how far the plan can be trusted.'
  // Where the middle run lasts, the share of those that do says it, and says more.
  const half = outcome.middle === null ? '' : `Half the time ${longSpell(outcome.middle)} or less. `
  const never = `${ofSimulations(outcome)} savings stay above the floor throughout.`
  const before = isOfBefore ? ' From before the last change; new ones are under way.' : ''
  return `${half}${never}${before}`
}
