// The year as it stands, the credit over the range of household income, and what is kept of more income.
import { monthNames } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { YearInSight } from '#today/cover/figures.ts'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { DollarsSaid } from '../parts/dollars.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { incomeInPart, yearOrPart } from '../parts/year-part.ts'

export const Standing = ({ sight }: { sight: YearInSight }) => (
  <section aria-labelledby="standing-title">
    <h2 id="standing-title">
      {sight.isTried
        ? `${sight.year} with an income of ${formatDollars(sight.lookedAtIncome)} tried`
        : `${sight.year} as it stands`}
    </h2>
    <DollarsSaid of={{ of: 'one year', year: sight.year }} />
    <Figures>
      <IncomeFigure sight={sight} />
      <CreditFigure sight={sight} />
      <PaysFigure sight={sight} />
      <SilverFigure sight={sight} />
    </Figures>
    {sight.isProjectedLaw ? (
      <p class="figure-note">
        The law of {sight.year} is not fully published: {sight.projectedRules} of its figures are carried
        forward with the plan’s growth of prices.
      </p>
    ) : null}
  </section>
)

/** The credit at the income looked at, and where it ends. */
export const CreditAnswer = ({ sight }: { sight: YearInSight }) => {
  return (
    <p class="answer">
      At a household income of {formatDollars(sight.lookedAtIncome)} the credit for{' '}
      {yearOrPart(sight.year, sight.costPart)} is <strong>{formatDollars(sight.room.now.credit)}</strong>
      {sight.creditEndsAt === null ? '' : `, and it ends at ${formatDollars(sight.creditEndsAt)}`}.
    </p>
  )
}

const IncomeFigure = ({ sight }: { sight: YearInSight }) => (
  <Figure
    label="Household income"
    value={formatDollars(sight.lookedAtIncome)}
    note={`${sight.room.now.povertyPercent}% of the federal poverty level (FPL) of ${sight.year - 1} for ${sight.householdSize}, by which the credit goes${(sight.part || sight.goesOnFrom) && !sight.isTried ? `. ${incomeInPart('Income', sight.part, sight.goesOnFrom)}` : ''}`}
    madeOf={{
      says: `Adjusted gross income with tax-exempt interest and the untaxed part of Social Security. The percent is cut to a whole number, as the form does.${sight.goesOnFrom === null ? '' : ` Months from ${sight.goesOnFrom} on are in it; the tax worksheet and what to set aside for tax hold the books alone.`}`,
      rows: [
        {
          label: incomeInPart(
            sight.goesOnFrom === null ? 'By the plan' : 'Of the year',
            sight.part,
            sight.goesOnFrom,
          ),
          value: formatDollars(sight.plannedIncome),
        },
        { label: `Poverty level, guidelines of ${sight.year - 1}`, value: formatDollars(sight.povertyLine) },
      ],
      source: { text: sight.sources.poverty },
    }}
  />
)

const CreditFigure = ({ sight }: { sight: YearInSight }) => {
  const { now } = sight.room
  return (
    <Figure
      label={sight.part === null ? 'Premium tax credit of the year' : 'Premium tax credit'}
      value={formatDollars(now.credit)}
      note={creditNote(sight)}
      madeOf={{
        says: `The lesser of the premium and what the benchmark plan costs above your own share. Deduction and credit together: ${sight.method}.`,
        rows: [
          {
            label: `Benchmark plan, a month${onAverage(sight)}`,
            value: formatDollars(sight.benchmarkMonthly),
          },
          { label: `Your plan, a month${onAverage(sight)}`, value: formatDollars(sight.premiumMonthly) },
          { label: 'Months', value: String(sight.months) },
          { label: 'Your own share of income', value: `${sight.applicablePercent}%` },
        ],
        source: { text: sight.sources.percentage },
      }}
    />
  )
}

/** Months that are over keep their credit where programs of the state cover everyone from now on. */
const creditNote = ({ room: { now }, months, part }: YearInSight): string | undefined => {
  if (now.onMedicaid && months === 0) return 'At this income programs of the state cover everyone: no credit'
  if (now.onMedicaid)
    return `For ${monthsWords(months)} on the marketplace that are over; from now on programs of the state cover everyone`
  if (part === null || months === part.months) return part?.says
  return `for ${monthsWords(months)} on the marketplace`
}

const onAverage = ({ charges }: YearInSight): string => (charges.length < 2 ? '' : ', on average')

const PaysFigure = ({ sight }: { sight: YearInSight }) => {
  const { now } = sight.room
  const monthly = sight.months > 0 ? now.netPremium / sight.months : 0
  return (
    <Figure
      label="Premium a month, after the credit"
      value={formatDollars(monthly)}
      note={
        now.onMedicaid && sight.months > 0
          ? `On the marketplace, ${monthsWords(sight.months)} that are over, of a premium of ${chargesWords(sight)}; nothing from now on`
          : `Of a premium of ${chargesWords(sight)}`
      }
      madeOf={{
        says: 'The premium less the credit, whether the credit is taken in advance or comes with the return.',
        rows: [
          {
            label: `Premiums of ${sight.part === null ? 'the year' : monthsWords(sight.months)}`,
            value: formatDollars(now.premium),
          },
          { label: 'Credit for them', value: formatDollars(-now.credit) },
          { label: 'Left to pay', value: formatDollars(now.netPremium), isTotal: true },
        ],
      }}
    />
  )
}

/** Where the months differ each span of them is told by its name: a mean of them was charged in none. */
const chargesWords = ({ charges, premiumMonthly }: YearInSight): string =>
  charges.length < 2
    ? formatDollars(premiumMonthly)
    : allOf(
        charges.map(
          ({ from, to, monthly }) =>
            `${formatDollars(monthly)} ${from === to ? `in ${monthNames[from - 1]}` : `from ${monthNames[from - 1]} to ${monthNames[to - 1]}`}`,
        ),
      )

const SilverFigure = ({ sight }: { sight: YearInSight }) => (
  <Figure
    label="A silver plan covers"
    value={formatPercent(sight.room.now.silverValue, 0)}
    note={
      sight.room.now.onMedicaid
        ? 'Programs of the state have next to no cost sharing'
        : sight.room.now.silverValue > 0.7
          ? 'More than the usual 70%, on silver plans only'
          : 'The usual share of costs'
    }
    madeOf={{
      says: 'The share of the costs of care that a silver plan pays on average at this income.',
      source: { text: sight.sources.costSharing },
    }}
  />
)

export const CreditChart = ({ sight }: { sight: YearInSight }) => {
  const atIncome = sight.lookedAtIncome
  const best = sight.credit.reduce((most, point) => Math.max(most, point.credit), 0)
  return (
    <LineChart
      id="credit-by-income"
      dollars={{ of: 'one year', year: sight.year }}
      title={`Premium credit by household income, ${yearOrPart(sight.year, sight.costPart)}`}
      summary={`The credit is at most ${formatDollars(best)} and ends at ${sight.creditEndsAt === null ? 'no income' : formatDollars(sight.creditEndsAt)}. At ${formatDollars(atIncome)} it is ${formatDollars(sight.room.now.credit)}.`}
      series={[
        { name: 'Credit', tone: 1, points: sight.credit.map((p) => ({ x: p.householdIncome, y: p.credit })) },
        {
          name: 'You pay',
          tone: 2,
          points: sight.credit.map((p) => ({ x: p.householdIncome, y: p.netPremium })),
        },
      ]}
      x={{ title: 'Household income', format: formatDollars, formatShort: dollarsShort }}
      y={{ format: formatDollars, formatShort: dollarsShort }}
      marks={[
        { atX: atIncome, says: atIncome === sight.plannedIncome ? 'this year’s income' : 'income looked at' },
      ]}
      tableEvery={25}
    />
  )
}

export const KeptChart = ({ sight }: { sight: YearInSight }) => (
  <section aria-labelledby="kept-title">
    <h2 id="kept-title">Where the next dollar costs more than a dollar</h2>
    {sight.costly.length === 0 ? (
      <p>Nowhere near: within the range of this chart more {sight.extraIs} always leaves more in hand.</p>
    ) : (
      <ul>
        {sight.costly.map((span) => (
          <li>
            As {sight.extraIs} rises from {extraWords(sight, span.from)} to {extraWords(sight, span.to)}
            {span.because ? `, ${span.because} and` : ','} {formatDollars(span.loses)} less is left
            {span.madeUpAt === null ? '.' : `. That is made up again at ${extraWords(sight, span.madeUpAt)}.`}
          </li>
        ))}
      </ul>
    )}
    <LineChart
      id="kept-of-income"
      dollars={{ of: 'one year', year: sight.year }}
      title={`What you keep of extra ${sight.extraIs}, ${yearOrPart(sight.year, sight.costPart)}`}
      summary={`Of the next $100 of ${sight.extraIs}, ${formatDollars(sight.room.keptOfNextHundred)} stay after tax and premiums.`}
      series={[
        {
          name: 'Stays after tax and premiums',
          tone: 1,
          points: sight.kept.map((point) => ({ x: point.extra, y: point.kept })),
        },
      ]}
      x={{ title: `More ${sight.extraIs}`, format: formatDollars, formatShort: dollarsShort }}
      y={{ format: formatDollars, formatShort: dollarsShort }}
      marks={[{ atX: 0, says: sight.isTried ? 'the income tried' : 'as it stands' }]}
      tableEvery={20}
    />
    <p class="no-print">
      <a href={`/cover.csv?table=kept&${sight.query}`}>These numbers as CSV</a>
    </p>
  </section>
)

const extraWords = ({ extraNow }: YearInSight, extra: number): string => formatDollars(extraNow + extra)
