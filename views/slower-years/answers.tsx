// The mixes, the path to them, the cushion, claim ages and one of us alone: what takes a moment.
import { nameOfMonth } from '#calendar/month.ts'
import type { MixFound } from '#farm/mix/mix.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { SlowerAnswers, SlowerFigures } from '#today/slower-years/figures.ts'
import { PageTitle } from '../layout.tsx'
import type { PlanFormIdsProps } from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { withQuery } from '../parts/with-query.ts'
import { ClaimPart } from './claims.tsx'
import { AskForm, PhaseMixPart } from './phase-mix.tsx'

interface AnswersProps {
  answers: SlowerAnswers
  figures: SlowerFigures
  ids: PlanFormIdsProps
  /** How the mix was asked, as in the address. */
  query: string
}

export const AnswersPage = ({ answers, figures, ids, query }: AnswersProps) => (
  <>
    <PageTitle
      help="slowerAnswers"
      purpose="Which enterprises keep the net at fewer hours, and what must be saved and claimed by then."
    >
      Mix, cushion, claims
    </PageTitle>
    {answers.mixes.length > 0 ? <p class="answer">{mixInWords(answers)}</p> : null}
    <section id="mix" aria-labelledby="mix-title">
      <h2 id="mix-title">The mix for each phase</h2>
      {answers.mixes.length > 0 ? <AskForm answers={answers} figures={figures} /> : null}
      {answers.mixes.map((mix) => (
        <PhaseMixPart mix={mix} answers={answers} ids={ids} />
      ))}
      {answers.mixes.length === 0 ? (
        <p>
          <a href="/slower-years/phases/new">Add a phase</a>, and the mix for its hours shows here.
        </p>
      ) : null}
    </section>
    <PathPart answers={answers} query={query} />
    <CushionPart answers={answers} />
    <ClaimPart answers={answers} />
    <AlonePart answers={answers} />
    <Caution askWhom="the Social Security Administration and a licensed tax preparer">
      Benefits follow published law, carried on by the plan’s own growth past its last year. The mix knows the
      hours, limits and prices that the plan names, and no others.
    </Caution>
  </>
)

/** What the first slower phase can bring. */
function mixInWords({ mixes }: SlowerAnswers): string {
  const { answer, from } = mixes[0]!
  const when = nameOfMonth(from)
  return answer.kind === 'found'
    ? `From ${when} the farm can bring ${formatDollars(answer.net)} a year in ${hoursBeside(answer)}.`
    : `No mix is found for the hours from ${when} on.`
}

/** Hours that are not known are not told to be fewer. */
export const hoursBeside = ({ hours, hoursToday }: Pick<MixFound, 'hours' | 'hoursToday'>): string => {
  if (hours < 0.98 * hoursToday) return 'fewer hours'
  if (hours > 1.02 * hoursToday)
    return `more hours than before it, ${whole(hours)} instead of ${whole(hoursToday)}`
  return 'about as many hours as before it'
}

const PathPart = ({ answers, query }: Pick<AnswersProps, 'answers' | 'query'>) => {
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
        csv={withQuery('/slower-years/answers.csv', `table=path&${query}`)}
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
              says: `The least savings, retirement accounts counted, with which no month from then to the end of the plan goes short, as planned. Found by trying sums until it just holds. ${cushion.earns}`,
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

/** A floor reached before is the plan's own: then what is lowest, and what goes short, tells what the work is worth. */
export function sayAlone(one: SlowerAnswers['alone'][number]): string {
  const without = `Without ${one.name}’s work from ${nameOfMonth(one.from)} on,`
  if (one.floorMonth === null) return `${without} savings stay above the floor.`
  const floor = `savings reach the floor in ${nameOfMonth(one.floorMonth)}`
  if (!one.floorAsPlanned) return `${without} ${floor}.`
  const short =
    one.monthsShort === 0
      ? 'no month goes short'
      : `${one.monthsShort} ${one.monthsShort === 1 ? 'month goes' : 'months go'} short`
  return `As planned ${floor}, before ${nameOfMonth(one.from)}; without ${one.name}’s work from then on they are lowest in ${nameOfMonth(one.lowestMonth)}, at ${formatDollars(one.lowestSpendable)}, and ${short}.`
}

const AlonePart = ({ answers }: { answers: SlowerAnswers }) =>
  answers.alone.length === 0 ? null : (
    <section id="alone" aria-labelledby="alone-title">
      <h2 id="alone-title">If one of us can no longer work</h2>
      <ul>
        {answers.alone.map((one) => (
          <li>{sayAlone(one)}</li>
        ))}
      </ul>
      <details>
        <summary>The figures of each</summary>
        <DataTable
          caption={`From ${nameOfMonth(answers.alone[0]!.from)} on: pay and side ventures of that person end, hired help does the farm hours`}
          csv="/slower-years/answers.csv?table=alone"
          stack
          ofPlan
          rows={answers.alone}
          columns={[
            { title: 'Who', isHeader: true, cell: (one) => one.name },
            {
              title: 'Below the floor',
              cell: ({ floorMonth, floorAsPlanned }) =>
                floorMonth ? `${nameOfMonth(floorMonth)}${floorAsPlanned ? ', as planned' : ''}` : 'never',
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
