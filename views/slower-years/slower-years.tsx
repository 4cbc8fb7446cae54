// The Slower years page: phases with hour caps, what the farm then is and earns, and what carries the house as it slows down.
import { nameOfMonth, yearIn } from '#calendar/month.ts'
import type { PhaseBeside } from '#farm/phase-years.ts'
import { formatDollars } from '#money/format.ts'
import type { LacksQuarters, SlowerFigures } from '#today/slower-years/figures.ts'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { StackChart } from '../charts/stack-chart.tsx'
import { PageTitle } from '../layout.tsx'
import type { PlanFormIdsProps } from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Caution } from '../parts/message.tsx'
import { OnThisPage } from '../parts/on-this-page.tsx'
import { DataTable } from '../parts/table.tsx'
import { AnswersWaiting } from './answers-brief.tsx'
import { People } from './people.tsx'
import { knownHours, netForHours, Phases, tenth } from './phases.tsx'
import { SplitSection, type SplitSectionProps } from './split.tsx'

export const SlowerYearsPage = (props: {
  figures: SlowerFigures
  ids: PlanFormIdsProps
  split: SplitSectionProps['typed']
}) => (
  <>
    <PageTitle help="slowerYears" purpose="The same net from fewer hours, and what to save by then.">
      Slower years
    </PageTitle>
    <Answer figures={props.figures} />
    <OnThisPage parts={pageParts} />
    <Top figures={props.figures} />
    <Phases figures={props.figures} />
    <AnswersWaiting />
    <Income figures={props.figures} />
    <People figures={props.figures} />
    <SplitSection figures={props.figures} ids={props.ids} typed={props.split} />
    <Caution askWhom="the Social Security Administration, Medicare or your state’s counseling program, and a licensed tax preparer">
      Benefits, premiums and required distributions follow published law, carried on by the plan’s own growth
      past its last year.
    </Caution>
  </>
)

const pageParts = [
  { id: 'phases', name: 'Phases' },
  { id: 'answers', name: 'Mix, cushion, claims' },
  { id: 'income', name: 'What carries the house' },
  { id: 'people', name: 'Ages' },
  { id: 'split', name: 'Side income' },
]

const Answer = ({ figures }: { figures: SlowerFigures }) => {
  const first = figures.phases[0]
  if (!first) return null
  const change = first.net - first.netBefore
  return (
    <p class="answer">
      From {nameOfMonth(first.from)} the farm brings <strong>{formatDollars(first.net)} a year</strong>,{' '}
      {Math.abs(change) < 1
        ? 'as much as'
        : `${formatDollars(Math.abs(change))} ${change < 0 ? 'less' : 'more'} than`}{' '}
      before{hoursInWords(first)}.{soldInWords(first)}
    </p>
  )
}

const hoursInWords = ({ hours, hoursBefore }: PhaseBeside): string => {
  if (hours === null || hoursBefore === null) return ''
  const [then, before] = [knownHours(hours), knownHours(hoursBefore)]
  return then === before
    ? `, in as many hours a year, ${then}`
    : `, in ${then} hours a year instead of ${before}`
}

/** What is sold as it begins comes once, and is in no year that is told as its net. */
const soldInWords = ({ wound, from, year }: PhaseBeside): string => {
  const sold = wound.filter((one) => one.heads >= 0.5)
  if (sold.length === 0 || yearIn(from) === year) return ''
  const brings = sold.reduce((sum, one) => sum + one.brings, 0)
  return ` That is ${year}; the stock sold as the phase begins brings ${formatDollars(brings)} once, before it.`
}

const Top = ({ figures }: { figures: SlowerFigures }) => {
  const first = figures.phases[0]
  if (!first) return null
  return (
    <Figures>
      <Figure
        label="First slower year"
        word="slower year"
        value={nameOfMonth(first.from)}
        note={first.name}
      />
      <Figure
        label="Net farm cash, before and in it"
        value={`${formatDollars(first.netBefore)} → ${formatDollars(first.net)}`}
        note={netForHours(first)}
        madeOf={{
          says: 'The last whole year before it, and its first whole one after what it sells of the stock. Lease income is counted. Hours are those that are worked: what nobody can do is not done, and not sold.',
          rows: [
            { label: `Net of ${first.yearBefore}`, value: formatDollars(first.netBefore) },
            { label: `Net of ${first.year}`, value: formatDollars(first.net) },
            { label: `Hours of ${first.yearBefore}`, value: knownHours(first.hoursBefore) },
            { label: `Hours of ${first.year}`, value: knownHours(first.hours) },
          ],
        }}
      />
      <Figure
        label="Savings when the plan ends"
        value={formatDollars(figures.savingsAtEnd)}
        note="Retirement accounts counted, as planned"
        madeOf={{
          says: 'How sure that is, and what bad luck does, is asked on Runway.',
          more: { text: 'How sure is it?', href: '/runway/chance' },
        }}
      />
    </Figures>
  )
}

const Income = ({ figures }: { figures: SlowerFigures }) => {
  const first = figures.firstSlower ? yearIn(figures.firstSlower) : figures.years[0]?.year
  const from = Math.max((first ?? 0) - 3, figures.years[0]?.year ?? 0)
  const shown = figures.years.filter((one) => one.year >= from)
  if (shown.length === 0)
    return (
      <section id="income" aria-labelledby="income-title">
        <h2 id="income-title">What carries the house</h2>
        <p>The plan ends before a whole year is over: there is no year to show.</p>
      </section>
    )
  return (
    <section id="income" aria-labelledby="income-title">
      <h2 id="income-title">What carries the house</h2>
      <StackChart
        id="income-chart"
        title="Where the household’s money comes from"
        summary={incomeInWords(figures)}
        years={shown.map((one) => one.year)}
        y={{ format: formatDollars, formatShort: dollarsShort }}
        series={[
          { name: 'draws', tone: 1, values: shown.map((one) => one.draws) },
          { name: 'Social Security', tone: 4, values: shown.map((one) => one.socialSecurity) },
          {
            name: 'side income, pay and other',
            tone: 3,
            values: shown.map((one) => one.side + one.pay + one.otherIn),
          },
          { name: 'from savings', tone: 2, values: shown.map((one) => one.fromSavings) },
        ]}
      />
      <details>
        <summary>Year by year</summary>
        <YearByYear figures={figures} shown={shown} />
      </details>
      {figures.inherited.map((one) => (
        <p>{payoutWords(one)}</p>
      ))}
      <p>
        Draws are set on <a href="/runway">Runway</a>; living costs too. Premiums turn into Medicare at 65,
        and traditional accounts must pay out from the ages below.
      </p>
    </section>
  )
}

const payoutWords = (payout: SlowerFigures['inherited'][number]): string => {
  const { account, by, takenEvenly, isIncome, dueNow } = payout
  const now = dueNow
    ? ` Of ${dueNow.year} the projection, which begins after January, takes nothing: see that about ${formatDollars(dueNow.dollars)} of it is out by December 31.`
    : ''
  const counted = `It stands under From savings, needed or not${isIncome ? ', and is income of its year' : ''}.${now}`
  if (by === null) return `${account} is inherited: the law makes it pay out a part each year. ${counted}`
  const how = takenEvenly
    ? 'an even part is taken each January'
    : 'what is left then is paid out at once, in January'
  return `${account} is inherited: by law all of it is out by the end of ${by.year}; ${how}. ${counted}`
}

/** A claim alone brings nothing (42 USC 414(a)). */
const quartersWords = (name: string, { claims, quarters, needed, from }: LacksQuarters): string => {
  const has = from === null ? 'never has them all' : `has them all only from ${from} on`
  return `${name} claims in ${claims} with ${quarters} of the ${needed} quarters of coverage that a retirement benefit needs, and ${has}.`
}

/** The first of years that come near the highest: amounts of one plan differ by hairs. */
export const sideInWords = (
  years: readonly Pick<SlowerFigures['years'][number], 'year' | 'side'>[],
): string => {
  const most = Math.max(0, ...years.map(({ side }) => side))
  if (most <= 0) return ''
  const isNear = ({ side }: { side: number }) => side > 0.98 * most
  const peak = years.find(isNear)!
  const gone = years.find((one) => one.year > peak.year && one.side < most * 0.1)
  const says = years.slice(1).every(isNear)
    ? `Side income is ${formatDollars(most)} a year`
    : `Side income is highest in ${peak.year} at ${formatDollars(peak.side)}`
  return `${says}${gone ? ` and has faded to a tenth by ${gone.year}` : ''}.`
}

const incomeInWords = (figures: SlowerFigures): string => {
  const withBenefits = figures.years.find((one) => one.socialSecurity > 0)
  const short = figures.years.find((one) => one.unmetNeed > 1)
  return [
    withBenefits ? `Social Security begins in ${withBenefits.year}.` : 'No Social Security in this plan.',
    ...figures.people.flatMap(({ name, lacksQuarters }) =>
      lacksQuarters === null ? [] : [quartersWords(name, lacksQuarters)],
    ),
    sideInWords(figures.years),
    short ? `From ${short.year} the plan goes short.` : 'No year goes short as planned.',
  ]
    .filter(Boolean)
    .join(' ')
}

/** No hours in a year of a farm that says none are not known. */
const weeklyHours = (year: SlowerFigures['years'][number], phases: readonly PhaseBeside[]): string =>
  year.weeklyHours === 0 && phases.some((one) => one.hours === null || one.hoursBefore === null)
    ? 'not known'
    : tenth(year.weeklyHours)

const YearByYear = ({ figures, shown }: { figures: SlowerFigures; shown: SlowerFigures['years'] }) => (
  <DataTable
    caption="Year by year"
    ofPlan
    csv="/slower-years.csv?table=years"
    rows={shown.filter(
      (one, k) => k % 5 === 0 || figures.phases.some((phase) => phase.from.startsWith(String(one.year))),
    )}
    columns={[
      { title: 'Year', isHeader: true, cell: (one) => String(one.year) },
      { title: 'Farm hours a week', isNumber: true, cell: (one) => weeklyHours(one, figures.phases) },
      { title: 'Net farm cash', isNumber: true, cell: (one) => formatDollars(one.farmNet) },
      { title: 'Draws', isNumber: true, cell: (one) => formatDollars(one.draws) },
      { title: 'Social Security', isNumber: true, cell: (one) => formatDollars(one.socialSecurity) },
      { title: 'Side income', isNumber: true, cell: (one) => formatDollars(one.side) },
      { title: 'Living', isNumber: true, cell: (one) => formatDollars(one.living) },
      { title: 'Premiums and care', isNumber: true, cell: (one) => formatDollars(one.premiumsAndCare) },
      { title: 'Taxes', isNumber: true, cell: (one) => formatDollars(one.taxes) },
      { title: 'From savings', isNumber: true, cell: (one) => formatDollars(one.fromSavings) },
      {
        title: 'Out of traditional accounts',
        isNumber: true,
        cell: (one) => formatDollars(one.fromTraditional),
      },
      { title: 'Savings', isNumber: true, cell: (one) => formatDollars(one.savings) },
    ]}
  />
)
