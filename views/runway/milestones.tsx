// The milestones of the course on Runway: each figure with its month, what months left are counted from, and what the books miss.
import {
  addMonths,
  type Month,
  monthName,
  monthNames,
  monthOfYear,
  nameOfMonth,
  parseMonth,
  yearOf,
} from '#calendar/month.ts'
import { countedFrom } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import type { SeenMonth } from '#runway/dollars/seen-month.ts'
import type { RunwayFigures } from '#today/runway/figures.ts'
import { Figure, Figures } from '../parts/figure.tsx'

interface MilestonesProps {
  figures: RunwayFigures
  months: readonly SeenMonth[]
}

/** What the course comes to, each figure with when and from when. */
export const Milestones = ({ figures, months }: MilestonesProps) => {
  const { milestones } = figures
  const countsFrom = parseMonth(figures.countedFrom)!
  return (
    <section aria-labelledby="milestones-title">
      <h2 id="milestones-title">
        {figures.asPlanned ? figures.planName : `${figures.planName}, with the levers`}
      </h2>
      <Figures>
        <Figure
          label="Months left"
          word="months left"
          value={milestones.monthsLeft === null ? 'To the end' : String(milestones.monthsLeft)}
          note={
            milestones.floorMonth === null
              ? 'of the plan'
              : `floor crossed in ${nameOfMonth(milestones.floorMonth)}, ${countedFrom(countsFrom)}`
          }
        />
        <Lowest figures={figures} months={months} />
        <Unmet milestones={milestones} />
        <Figure
          label="Carry month"
          word="carry month"
          value={milestones.carryMonth === null ? 'None' : nameOfMonth(milestones.carryMonth)}
          note={`${drawWords(figures, months)}${milestones.carryJudgedTo === null ? '' : `; counted up to the first slower year, ${nameOfMonth(milestones.carryJudgedTo)}`}`}
        />
        {milestones.firstSlowerMonth === null ? null : (
          <Figure
            label="At the first slower year"
            word="slower year"
            value={formatDollars(milestones.savingsAtFirstSlower ?? 0)}
            note={`all savings, ${nameOfMonth(milestones.firstSlowerMonth)}`}
          />
        )}
      </Figures>
      <Missed from={parseMonth(months[0]!.month)!} until={countsFrom} />
      {figures.why.length > 1 ? (
        <details>
          <summary>Why</summary>
          <ul class="why">
            {figures.why.slice(1).map((sentence) => (
              <li>{sentence}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  )
}

/** Once nothing is left to pay with, that is how low they come: tax owed by then is a part of what stays unmet. */
const Lowest = ({ figures, months }: { figures: RunwayFigures; months: readonly SeenMonth[] }) => {
  const { runsShort, lowestSpendable } = figures.milestones
  return (
    <Figure
      label="Lowest spendable savings"
      word="spendable savings"
      value={runsShort === null ? formatDollars(lowestSpendable) : 'None left'}
      note={
        runsShort === null ? lowestWords(figures, months) : `out of money from ${nameOfMonth(runsShort)} on`
      }
    />
  )
}

const Unmet = ({ milestones }: Pick<RunwayFigures, 'milestones'>) =>
  milestones.runsShort === null ? null : (
    <Figure
      label="Unmet costs"
      word="unmet costs"
      value={formatDollars(milestones.unmetNeed)}
      note={`in all, from ${nameOfMonth(milestones.runsShort)} on: nothing is left to pay them`}
    />
  )

/** Months before this one are projected only where the books do not hold them. */
const Missed = ({ from, until }: { from: Month; until: Month }) => {
  if (from >= until) return null
  const last = addMonths(until, -1)
  const first = yearOf(from) === yearOf(last) ? monthNames[monthOfYear(from) - 1] : monthName(from)
  return (
    <p>
      {from === last
        ? `The books miss ${monthName(last)}: it is counted as planned, and the projection begins with it.`
        : `The books miss the months from ${first} to ${monthName(last)}: they are counted as planned, and the projection begins with them.`}
    </p>
  )
}

/** Below zero they are less than the tax that is owed by then: the accounts themselves never are. */
/** Draws that were paid before the months projected are not told as if they were to begin. */
const drawWords = ({ milestones, drawnSince }: RunwayFigures, months: readonly SeenMonth[]): string => {
  const { firstDraw } = milestones
  const next = firstDraw === null ? null : nameOfMonth(firstDraw)
  if (drawnSince === null) return next === null ? 'no draws' : `draws begin in ${next}`
  const since = `draws since ${nameOfMonth(drawnSince)}`
  if (next === null) return `${since}, none to come`
  return firstDraw === months[0]?.month ? `${since}, and they go on` : `${since}, the next in ${next}`
}

const lowestWords = ({ milestones }: RunwayFigures, months: readonly SeenMonth[]): string => {
  const month = nameOfMonth(milestones.lowestMonth)
  const owed = months.find((one) => one.month === milestones.lowestMonth)?.taxOwed ?? 0
  if (milestones.lowestSpendable >= -0.5) return month
  return `${month}: ${formatDollars(milestones.lowestSpendable + owed)} in accounts less ${formatDollars(owed)} of tax owed by then`
}
