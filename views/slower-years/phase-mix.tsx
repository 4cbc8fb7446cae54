// The mix of one phase: what it keeps, scales and trips, what an hour, an acre and a market day are worth; and the form that asks it otherwise.
import { nameOfMonth } from '#calendar/month.ts'
import { manyOf } from '#farm/herd/species-words.ts'
import type { MixFound } from '#farm/mix/mix.ts'
import { formatDollars, formatDollarsAndCents, formatPercent } from '#money/format.ts'
import type { SlowerAnswers, SlowerFigures } from '#today/slower-years/figures.ts'
import { Button } from '../parts/button.tsx'
import {
  Checkbox,
  Hidden,
  PercentField,
  PlanFormIds,
  type PlanFormIdsProps,
  RadioGroup,
} from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Fold } from '../parts/fold.tsx'
import { DataTable } from '../parts/table.tsx'

type PhaseMix = SlowerAnswers['mixes'][number]

export const AskForm = ({ answers, figures }: { answers: SlowerAnswers; figures: SlowerFigures }) => {
  const found = answers.mixes.map((mix) => mix.answer).find((one): one is MixFound => one.kind === 'found')
  const things = found ? [...found.lines, ...found.markets] : []
  return (
    <details class="no-print" open={answers.pinned.length > 0 || answers.largestChange !== null}>
      <summary>Options</summary>
      <form method="get" action="/slower-years/answers" class="phase-form">
        <RadioGroup
          name="aim"
          label="Look for"
          value={answers.aim === 'most net' ? 'net' : 'hours'}
          options={[
            { value: 'net', label: 'The most net within the hours' },
            { value: 'hours', label: 'The fewest hours that keep today’s net' },
          ]}
        />
        {things.length > 0 ? (
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
        ) : null}
        <PercentField
          name="change"
          label="Show a path with no more change a year than, percent"
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

interface PhaseMixProps {
  mix: PhaseMix
  answers: SlowerAnswers
  ids: PlanFormIdsProps
}

export const PhaseMixPart = ({ mix, answers, ids }: PhaseMixProps) => {
  const { answer } = mix
  const title = `${nameOfMonth(mix.from)}: ${mix.phase}`
  if (answer.kind !== 'found')
    return (
      <div class="phase">
        <h3>{title}</h3>
        <p>
          {answer.because}.{' '}
          {answer.kind === 'nothing limits' ? <a href="/farm">Enter them under Farm</a> : null}
        </p>
      </div>
    )
  return (
    <Fold name={title} holds={`${formatDollars(answer.net)} a year`}>
      <p>
        {formatDollars(answer.net)} a year {hoursSay(answer.hours, answer)}; the farm before it makes{' '}
        {formatDollars(answer.netToday)} {hoursSay(answer.hoursToday, answer)}. {asItIsSays(answer)}{' '}
        {mix.netKept !== null && mix.netKept > 0.98
          ? 'That keeps the net of the farm before it.'
          : mix.netKept !== null
            ? `${formatPercent(mix.netKept, 0)} of that net is kept.`
            : ''}{' '}
        {inWords(answer)}
      </p>
      <p>{sayThere(mix.there, answer)}</p>
      <details>
        <summary>Details: scales, trips and what one more hour is worth</summary>
        <Worth answer={answer} aim={answers.aim} />
        <ScalesAndTrips answer={answer} />
      </details>
      <p class="hint">
        {mix.alone
          .map((one) =>
            one.net === null
              ? `Without ${one.name}’s hours no mix fits.`
              : `Without ${one.name}’s hours the best mix makes ${formatDollars(one.net)} a year.`,
          )
          .join(' ')}
      </p>
      {isThere(mix.there, answer) ? null : <TakeMix mix={mix} answers={answers} ids={ids} title={title} />}
    </Fold>
  )
}

/** A farm whose lines name no hours is not told to need none. */
const hoursSay = (hours: number, { withoutHours }: MixFound): string => {
  if (withoutHours.length === 0) return `in ${whole(hours)} hours`
  const silent = withoutHours.join(', ')
  return hours < 0.5
    ? `in hours not known yet: enter those of ${silent}`
    : `in ${whole(hours)} hours, those of ${silent} not counted, since the plan gives none`
}

/** Today's scales and trips are among what is compared. */
const asItIsSays = ({ net, netAsItIs }: MixFound): string => {
  if (netAsItIs === null) return 'As it is, it does not fit these hours and limits.'
  return netAsItIs > net - 1
    ? 'Nothing is gained over keeping every scale and trip as it is.'
    : `With every scale and trip kept as it is, it would make ${formatDollars(netAsItIs)}.`
}

const isThere = (there: PhaseMix['there'], answer: MixFound): boolean =>
  Math.abs(answer.net - there.net) < 1 && Math.abs(answer.hours - there.hours) < 1

/** Beside the phase as the plan has it: a mix that makes less says so. */
const sayThere = (there: PhaseMix['there'], answer: MixFound): string => {
  const more = answer.net - there.net
  const planned = `The plan as saved makes ${formatDollars(there.net)} ${hoursSay(there.hours, answer)} once it has settled`
  if (isThere(there, answer)) return `${planned}: it has this mix already.`
  if (more >= -1) return `${planned}: this mix makes ${formatDollars(Math.max(0, more))} more.`
  return `${planned}: this mix makes ${formatDollars(-more)} less, and takes ${
    answer.hours <= there.hours
      ? `${whole(there.hours - answer.hours)} hours fewer`
      : `${whole(answer.hours - there.hours)} hours more`
  }. Take it only if those are the hours you mean.`
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
  const said = words.join('; ')
  return said === '' ? '' : `${said[0]!.toUpperCase()}${said.slice(1)}.`
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
          says: 'What the net would gain from one more hour in that month, with sizes and trips in whole numbers kept as they are.',
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
const whole = (value: number) => Math.round(value).toLocaleString('en-US')
const tenth = (value: number) => String(Math.round(value * 10) / 10)

const ScalesAndTrips = ({ answer }: { answer: MixFound }) => (
  <div class="columns">
    <DataTable
      caption="Scales"
      rows={answer.lines}
      columns={[
        { title: 'Line', isHeader: true, cell: (one) => one.name },
        { title: 'Before', isNumber: true, cell: (one) => tenth(one.today) },
        { title: 'Mix', isNumber: true, cell: (one) => tenth(one.scale) },
        { title: 'In', cell: (one) => manyOf(one.unit) },
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
)

const TakeMix = ({ mix, answers, ids, title }: PhaseMixProps & { title: string }) => (
  <form method="post" action={`/slower-years/phases/${mix.index}/mix`} class="no-print">
    <PlanFormIds {...ids} />
    <Hidden name="aim" value={answers.aim === 'most net' ? 'net' : 'hours'} />
    {answers.pinned.map((id) => (
      <Hidden name="keep[]" value={id} />
    ))}
    <Button quiet small label={`Take this mix into the plan: ${title}`}>
      Take this mix into the plan
    </Button>
  </form>
)
