// The mixes, the path to them, the cushion, claim ages and one of us alone: the part of the page that takes a moment.
import { type Month, monthName, parseMonth } from '#calendar/month.ts'
import type { MixFound } from '#farm/mix.ts'
import { formatDollars, formatDollarsAndCents, formatPercent } from '#money/format.ts'
import { Button, LinkButton } from '../parts/button.tsx'
import { Checkbox, Hidden, PercentField, RadioGroup } from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { DataTable } from '../parts/table.tsx'
import type { SlowerAnswers, SlowerFigures } from './figures.ts'

type PhaseMix = SlowerAnswers['mixes'][number]

/** With script the part comes by itself; without, by its link. */
export const AnswersWaiting = ({ query, hasPhases }: { query: string; hasPhases: boolean }) => (
  <div
    id="answers"
    hx-get={`/slower-years?${query}`}
    hx-trigger="load"
    hx-target="#answers"
    hx-swap="outerHTML"
  >
    <h2>{hasPhases ? 'The mix for each phase, and what must stand ready' : 'What must stand ready'}</h2>
    <p>
      Working it out takes a few seconds.{' '}
      <LinkButton href={`/slower-years?${query}#answers`} small>
        Work it out
      </LinkButton>
    </p>
  </div>
)

export const AnswersPart = ({ answers, figures }: { answers: SlowerAnswers; figures: SlowerFigures }) => (
  <div id="answers">
    <section id="mix" aria-labelledby="mix-title">
      <h2 id="mix-title">The mix for each phase</h2>
      <AskForm answers={answers} figures={figures} />
      {answers.mixes.map((mix) => (
        <PhaseMixPart mix={mix} figures={figures} answers={answers} />
      ))}
      {answers.mixes.length === 0 ? <p>Add a phase above, and the mix for its hours stands here.</p> : null}
    </section>
    <PathPart answers={answers} />
    <CushionPart answers={answers} />
    <ClaimPart answers={answers} />
    <AlonePart answers={answers} />
  </div>
)

const AskForm = ({ answers, figures }: { answers: SlowerAnswers; figures: SlowerFigures }) => {
  const found = answers.mixes.map((mix) => mix.answer).find((one): one is MixFound => one.kind === 'found')
  const things = found ? [...found.lines, ...found.markets] : []
  return (
    <details class="no-print" open={answers.pinned.length > 0 || answers.largestChange !== null}>
      <summary>Ask it otherwise</summary>
      <form method="get" action="/slower-years" class="phase-form">
        <Hidden name="answers" value="yes" />
        <RadioGroup
          name="aim"
          label="Look for"
          value={answers.aim === 'most net' ? 'net' : 'hours'}
          options={[
            { value: 'net', label: 'The most net within the hours' },
            { value: 'hours', label: 'The fewest hours that keep today’s net' },
          ]}
        />
        <fieldset class="choices">
          <legend>Keep as it is</legend>
          {things.map((one) => (
            <Checkbox
              name="keep[]"
              label={one.name}
              checkedValue={one.id}
              checked={answers.pinned.includes(one.id)}
            />
          ))}
        </fieldset>
        <PercentField
          name="change"
          label="Show a path with no more change a year than, %"
          value={answers.largestChange === null ? '' : String(Math.round(answers.largestChange * 100))}
        />
        <Button>Work it out</Button>
      </form>
      {figures.phases.length > 1 ? (
        <p class="hint">Each phase starts from the farm as the plan has it just before.</p>
      ) : null}
    </details>
  )
}

const PhaseMixPart = ({
  mix,
  figures,
  answers,
}: {
  mix: PhaseMix
  figures: SlowerFigures
  answers: SlowerAnswers
}) => {
  const { answer } = mix
  const title = `${named(mix.from)}: ${mix.phase}`
  if (answer.kind !== 'found')
    return (
      <div class="phase">
        <h3>{title}</h3>
        <p>{answer.because}.</p>
      </div>
    )
  return (
    <div class="phase">
      <h3>{title}</h3>
      <p>
        {formatDollars(answer.net)} a year in {whole(answer.hours)} hours; the farm before it makes{' '}
        {formatDollars(answer.netToday)} in {whole(answer.hoursToday)}.{' '}
        {mix.netKept !== null && mix.netKept > 0.98
          ? 'The net holds.'
          : mix.netKept !== null
            ? `${formatPercent(mix.netKept, 0)} of the net is kept.`
            : ''}{' '}
        {inWords(answer)}
      </p>
      <Worth answer={answer} aim={answers.aim} />
      <div class="columns">
        <DataTable
          caption="Scales"
          rows={answer.lines}
          columns={[
            { title: 'Line', isHeader: true, cell: (one) => one.name },
            { title: 'Before', isNumber: true, cell: (one) => tenth(one.today) },
            { title: 'Mix', isNumber: true, cell: (one) => tenth(one.scale) },
            { title: 'In', cell: (one) => `${one.unit}s` },
          ]}
        />
        <DataTable
          caption="Market trips a year"
          rows={answer.markets}
          columns={[
            { title: 'Market', isHeader: true, cell: (one) => one.name },
            { title: 'Before', isNumber: true, cell: (one) => whole(one.today) },
            { title: 'Mix', isNumber: true, cell: (one) => whole(one.trips) },
          ]}
        />
      </div>
      <p class="hint">
        {mix.alone
          .map(
            (one) =>
              `Without ${one.name}’s hours the best mix makes ${one.net === null ? 'nothing that fits' : formatDollars(one.net)}.`,
          )
          .join(' ')}
      </p>
      <form method="post" action={`/slower-years/phases/${mix.index}/mix`} class="no-print">
        <Hidden name="basedOn" value={String(figures.revisionNo)} />
        <Hidden name="aim" value={answers.aim === 'most net' ? 'net' : 'hours'} />
        {answers.pinned.map((id) => (
          <Hidden name="keep[]" value={id} />
        ))}
        <Button small label={`Take the mix of ${title} into the plan`}>
          Take this mix into the plan
        </Button>
      </form>
    </div>
  )
}

const inWords = (answer: MixFound): string => {
  const dropped = answer.markets
    .filter((one) => one.today > 0.5 && one.trips < 0.5)
    .map((one) => `${one.name} is dropped`)
  const ended = answer.lines
    .filter((one) => one.today > 0.05 && one.scale < 0.05)
    .map((one) => `${one.name} ends`)
  const grown = answer.lines
    .filter((one) => one.scale > one.today * 1.1 + 0.05)
    .map((one) => `more ${one.name}`)
  const words = [...dropped, ...ended, ...grown]
  return words.length > 0 ? `${words.join('; ')}.` : ''
}

const Worth = ({ answer, aim }: { answer: MixFound; aim: SlowerAnswers['aim'] }) => {
  const tight = answer.periods
    .filter((one) => one.worthOfHour > 0.005)
    .sort((a, b) => b.worthOfHour - a.worthOfHour)
  const days = answer.markets
    .flatMap((market) => market.bySeason.map((one) => ({ name: market.name, worth: one.worthOfOneMore })))
    .filter((one) => one.worth > 0.5)
    .sort((a, b) => b.worth - a.worth)
  const unit = (value: number) =>
    aim === 'most net' ? formatDollarsAndCents(value) : `${tenth(value)} hours`
  return (
    <Figures>
      <Figure
        label="Worth of one more hour"
        value={tight[0] ? unit(tight[0].worthOfHour) : 'Nothing'}
        note={
          tight[0]
            ? `in ${tight
                .map((one) => one.name)
                .slice(0, 3)
                .join(', ')}`
            : 'No month is short of hours'
        }
        madeOf={{
          says: 'What the net would gain from one more hour in that month, scales and trips that are whole held as they are.',
          rows: answer.periods.map((one) => ({
            label: `${one.name}: ${whole(one.needed)} of ${whole(one.crew)} hours${one.hired > 0.05 ? `, ${whole(one.hired)} hired` : ''}`,
            value: unit(one.worthOfHour),
          })),
        }}
      />
      <Figure
        label="Worth of one more acre"
        value={answer.worthOfAcre === null ? 'Not counted' : unit(answer.worthOfAcre)}
        note={answer.worthOfAcre === 0 ? 'There is land to spare' : ''}
      />
      <Figure
        label="Worth of one more market day"
        value={days[0] ? unit(days[0].worth) : 'Nothing'}
        note={days[0] ? days[0].name : 'No market day would pay for its hours'}
      />
    </Figures>
  )
}

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
            label={`Must stand ready in ${named(cushion.month)}`}
            value={formatDollars(cushion.needed)}
            note={`Dollars of that month; ${formatDollars(cushion.neededInFirstPrices)} in the plan’s first prices`}
            madeOf={{
              says: 'The least savings, retirement accounts counted, with which no month from then to the end of the plan goes short, on the expected course. Found by trying sums until it just holds.',
              rows: [
                { label: 'The plan has by then', value: formatDollars(cushion.savings) },
                { label: 'Gap', value: formatDollars(cushion.gap), isTotal: true },
              ],
              more: { text: 'The cushion for a chosen confidence', href: '/runway/chance' },
            }}
          />
          <Figure
            label="Set aside each month until then"
            value={formatDollars(cushion.setAside)}
            note={
              cushion.gap > 0
                ? `Level for ${cushion.months} months at ${formatPercent(cushion.yearlyReturn)} a year, the plan’s bonds`
                : 'The plan’s own course has the cushion by then'
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
    <div class="columns">
      {answers.claims.map((person) => (
        <DataTable
          caption={`${person.name}; the plan says ${person.plannedYears}`}
          csv="/slower-years.csv?table=claims"
          rows={person.choices}
          columns={[
            {
              title: 'Claims at',
              isHeader: true,
              cell: (one) => `${one.years}${one.years === person.plannedYears ? ' (plan)' : ''}`,
            },
            {
              title: 'Benefits a month from 71',
              isNumber: true,
              cell: (one) => formatDollars(one.monthlyAfter70),
            },
            { title: 'Left at the end', isNumber: true, cell: (one) => formatDollars(one.savingsAtEnd) },
            { title: 'Short', isNumber: true, cell: (one) => String(one.monthsShort) },
          ]}
        />
      ))}
    </div>
    <p class="hint">
      In the plan’s first prices, the other’s claim as planned. Claiming late pays for a long life; the plan
      runs to its own ages.
    </p>
  </section>
)

const AlonePart = ({ answers }: { answers: SlowerAnswers }) =>
  answers.alone.length === 0 ? null : (
    <section id="alone" aria-labelledby="alone-title">
      <h2 id="alone-title">If one of us can no longer work</h2>
      <DataTable
        caption={`From ${named(answers.alone[0]!.from)} on: pay and side ventures of that person end, hired help does the farm hours`}
        csv="/slower-years.csv?table=alone"
        rows={answers.alone}
        columns={[
          { title: 'Who', isHeader: true, cell: (one) => one.name },
          { title: 'Below the floor', cell: (one) => (one.floorMonth ? named(one.floorMonth) : 'never') },
          {
            title: 'Lowest spendable savings',
            isNumber: true,
            cell: (one) => formatDollars(one.lowestSpendable),
          },
          { title: 'In', cell: (one) => named(one.lowestMonth) },
          { title: 'Months short', isNumber: true, cell: (one) => String(one.monthsShort) },
          { title: 'Savings at the end', isNumber: true, cell: (one) => formatDollars(one.savingsAtEnd) },
        ]}
      />
      <p>
        Disability benefits and insurance are not counted. What the farm could be with the other’s hours alone
        stands with each mix above.
      </p>
    </section>
  )

const named = (text: string) => monthName(parseMonth(text) as Month)
const whole = (value: number) => Math.round(value).toLocaleString('en-US')
const tenth = (value: number) => String(Math.round(value * 10) / 10)
