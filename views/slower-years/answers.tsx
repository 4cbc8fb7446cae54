// The mixes, the path to them, the cushion, claim ages and one of us alone: the part of the page that takes a moment.
import { nameOfMonth } from '#calendar/month.ts'
import { ageInWords } from '#calendar/spell.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { SlowerAnswers, SlowerFigures } from '#today/slower-years/figures.ts'
import { LinkButton } from '../parts/button.tsx'
import type { PlanFormIdsProps } from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { DataTable } from '../parts/table.tsx'
import { AskForm, PhaseMixPart } from './phase-mix.tsx'

/** With script the part comes by itself; without, by its link. */
export const AnswersWaiting = ({ query, hasPhases }: { query: string; hasPhases: boolean }) => (
  <div
    id="answers"
    hx-get={`/slower-years?${query}`}
    hx-trigger="load"
    hx-target="#answers"
    hx-swap="outerHTML"
  >
    <h2>{hasPhases ? 'The mix for each phase, and the savings needed' : 'The savings needed'}</h2>
    <p>
      Working it out takes a few seconds.{' '}
      <LinkButton href={`/slower-years?${query}#answers`} small quiet>
        Work it out
      </LinkButton>
    </p>
  </div>
)

interface AnswersPartProps {
  answers: SlowerAnswers
  figures: SlowerFigures
  ids: PlanFormIdsProps
}

export const AnswersPart = ({ answers, figures, ids }: AnswersPartProps) => (
  <div id="answers">
    <section id="mix" aria-labelledby="mix-title">
      <h2 id="mix-title">The mix for each phase</h2>
      {answers.mixes.length > 0 ? <AskForm answers={answers} figures={figures} /> : null}
      {answers.mixes.map((mix) => (
        <PhaseMixPart mix={mix} answers={answers} ids={ids} />
      ))}
      {answers.mixes.length === 0 ? <p>Add a phase above, and the mix for its hours shows here.</p> : null}
    </section>
    <PathPart answers={answers} />
    <CushionPart answers={answers} />
    <ClaimPart answers={answers} />
    <AlonePart answers={answers} />
  </div>
)

const PathPart = ({ answers }: { answers: SlowerAnswers }) => {
  if (answers.path.length === 0) return null
  const stopped = answers.path.find((one) => one.because !== null)
  return (
    <section id="path" aria-labelledby="path-title">
      <h2 id="path-title">A path from today’s farm</h2>
      <p>
        No line changes by more than {formatPercent(answers.largestChange ?? 0, 0)} a year (and no market by
        more than that part of its trips, one trip at least). {stopped ? stopped.because : ''}
      </p>
      <DataTable
        caption="Scales by year"
        hideCaption
        csv="/slower-years.csv?table=path"
        ofPlan
        rows={answers.path.filter((one) => one.net !== null)}
        columns={[
          { title: 'Year', isHeader: true, cell: (one) => String(one.year) },
          ...(answers.path[0]?.lines ?? []).map((line, k) => ({
            title: line.name,
            isNumber: true,
            cell: (one: SlowerAnswers['path'][number]) => tenth(one.lines[k]?.scale ?? 0),
          })),
          { title: 'Hours', isNumber: true, cell: (one) => whole(one.hours ?? 0) },
          { title: 'Net', isNumber: true, cell: (one) => formatDollars(one.net ?? 0) },
        ]}
      />
    </section>
  )
}

const CushionPart = ({ answers }: { answers: SlowerAnswers }) => {
  const { cushion } = answers
  return (
    <section id="cushion" aria-labelledby="cushion-title">
      <h2 id="cushion-title">The cushion at the first slower year</h2>
      {cushion === null ? (
        <p>The plan has no slower year ahead, or no sum tried is enough for it to last.</p>
      ) : (
        <Figures>
          <Figure
            label={`Savings needed by ${nameOfMonth(cushion.month)}`}
            value={formatDollars(cushion.needed)}
            note="As the first slower year begins"
            madeOf={{
              says: 'The least savings, retirement accounts counted, with which no month from then to the end of the plan goes short, as planned. Found by trying sums until it just holds.',
              rows: [
                { label: 'The plan has by then', value: formatDollars(cushion.savings) },
                { label: 'Gap', value: formatDollars(cushion.gap), isTotal: true },
              ],
              more: { text: 'The cushion for a chosen confidence', href: '/runway/questions/cushion' },
            }}
          />
          <Figure
            label="Set aside each month until then"
            value={formatDollars(cushion.setAside)}
            note={
              cushion.gap > 0
                ? `The same sum in each of ${cushion.months} months, not raised with prices, at ${formatPercent(cushion.yearlyReturn)} a year, the plan’s bonds`
                : 'The plan itself has the cushion by then'
            }
          />
        </Figures>
      )}
    </section>
  )
}

const ClaimPart = ({ answers }: { answers: SlowerAnswers }) => (
  <section id="claims" aria-labelledby="claims-title">
    <h2 id="claims-title">Social Security by claim age</h2>
    <ul>
      {answers.claims.map((person) => (
        <li>{claimInWords(person)}</li>
      ))}
    </ul>
    <details>
      <summary>Every claim age</summary>
      <div class="columns">
        {answers.claims.map((person) => (
          <DataTable
            caption={`${person.name}; the plan says ${ageInWords(person.planned)}`}
            ofPlan
            csv="/slower-years.csv?table=claims"
            rows={person.choices}
            columns={[
              {
                title: 'Claims at',
                isHeader: true,
                cell: (one) => `${ageInWords(one.age)}${isPlanned(person, one) ? ' (plan)' : ''}`,
              },
              {
                title: 'Benefits a month from 71',
                isNumber: true,
                cell: (one) =>
                  one.monthlyAfter70 === null ? 'the plan ends before' : formatDollars(one.monthlyAfter70),
              },
              { title: 'Left at the end', isNumber: true, cell: (one) => formatDollars(one.savingsAtEnd) },
              { title: 'Months short', isNumber: true, cell: (one) => String(one.monthsShort) },
            ]}
          />
        ))}
      </div>
    </details>
    <p class="hint">
      The other’s claim as planned. Claiming late pays for a long life; the plan runs to its own ages.{' '}
      <a href="/runway/questions/claim">How sure is that?</a>
    </p>
  </section>
)

type Claims = SlowerAnswers['claims'][number]

const isPlanned = ({ planned }: Claims, { age }: Claims['choices'][number]): boolean =>
  age.years === planned.years && age.months === planned.months

const claimInWords = (person: Claims): string => {
  const planned = person.choices.find((one) => isPlanned(person, one))
  const best = person.choices.reduce((a, b) =>
    b.monthsShort < a.monthsShort || (b.monthsShort === a.monthsShort && b.savingsAtEnd > a.savingsAtEnd)
      ? b
      : a,
  )
  const said = planned
    ? `${person.name} claims at ${ageInWords(person.planned)} by the plan, which leaves ${formatDollars(planned.savingsAtEnd)} at its end`
    : `${person.name} claims at ${ageInWords(person.planned)} by the plan`
  if (!person.choices.some((one) => one.hasBenefits))
    return `${person.name}: no benefits are counted. Enter what was earned in past years under Runway, Edit the plan, Household.`
  const isBest =
    !planned || (best.monthsShort === planned.monthsShort && best.savingsAtEnd < planned.savingsAtEnd + 1)
  return isBest
    ? `${said}; no other age would leave more.`
    : `${said}. Claiming at ${ageInWords(best.age)} would leave most: ${formatDollars(best.savingsAtEnd)}.`
}

const AlonePart = ({ answers }: { answers: SlowerAnswers }) =>
  answers.alone.length === 0 ? null : (
    <section id="alone" aria-labelledby="alone-title">
      <h2 id="alone-title">If one of us can no longer work</h2>
      <ul>
        {answers.alone.map((one) => (
          <li>
            Without {one.name}’s work{' '}
            {one.floorMonth
              ? `savings reach the floor in ${nameOfMonth(one.floorMonth)}.`
              : 'savings stay above the floor.'}
          </li>
        ))}
      </ul>
      <details>
        <summary>The figures of each</summary>
        <DataTable
          caption={`From ${nameOfMonth(answers.alone[0]!.from)} on: pay and side ventures of that person end, hired help does the farm hours`}
          csv="/slower-years.csv?table=alone"
          ofPlan
          rows={answers.alone}
          columns={[
            { title: 'Who', isHeader: true, cell: (one) => one.name },
            {
              title: 'Below the floor',
              cell: (one) => (one.floorMonth ? nameOfMonth(one.floorMonth) : 'never'),
            },
            {
              title: 'Lowest spendable savings',
              isNumber: true,
              cell: (one) => formatDollars(one.lowestSpendable),
            },
            { title: 'In', cell: (one) => nameOfMonth(one.lowestMonth) },
            { title: 'Months short', isNumber: true, cell: (one) => String(one.monthsShort) },
            { title: 'Unmet costs', isNumber: true, cell: (one) => formatDollars(one.unmetNeed) },
            { title: 'Savings at the end', isNumber: true, cell: (one) => formatDollars(one.savingsAtEnd) },
          ]}
        />
        <p>
          Spendable savings are less the tax owed so far and can fall below zero while retirement accounts
          still pay; a month is short when nothing pays. Disability benefits and insurance are not counted.
          What the farm could be with the other’s hours alone stands with each mix above.
        </p>
      </details>
    </section>
  )
const whole = (value: number) => Math.round(value).toLocaleString('en-US')
const tenth = (value: number) => String(Math.round(value * 10) / 10)
