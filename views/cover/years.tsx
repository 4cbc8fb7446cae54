// Who is covered by what in each year, premiums by age, and the move to Medicare.
import { type Month, monthName, monthNames } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import type { FilingStatus } from '#rules/filing-status.ts'
import type { YearPart } from '#today/cover/cover-year.ts'
import type { CoverYearRow, MedicareStart } from '#today/cover/figures.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { SpanChart } from '../charts/span-chart.tsx'
import { dollarsInWords } from '../parts/dollars.tsx'
import { LaterYears } from '../parts/later-years.tsx'
import { DataTable } from '../parts/table.tsx'
import { ageRatingNote } from './age-rating.ts'
import { coverageWords } from './coverage-words.ts'
import { PaidEachMonth } from './paid-in-months.tsx'
import { nextInWords, spansInWords, spansOf } from './spans.ts'

interface Covered {
  rows: readonly CoverYearRow[]
  thisMonth: Month
}

export const WhoIsCovered = ({ rows: all, thisMonth }: Covered) => {
  const rows = untilSettled(all)
  const later = rows.slice(nearYears)
  const names = [...new Set(rows.flatMap((row) => row.people.map((person) => person.name)))]
  return (
    <section aria-label="Who is covered by what">
      <p class="answer">{nextInWords(all, thisMonth) ?? 'Nobody’s coverage changes any more.'}</p>
      <SpanChart
        id="coverage-spans"
        title="Coverage of each person"
        summary={spansInWords(all)}
        rows={spansOf(all)}
        table={<YearRows caption="Coverage of each person by year" rows={rows} names={names} />}
      />
      {rows.some((row) => row.marketplaceMonths > 0) ? (
        <BarChart
          id="premiums-by-year"
          title="Marketplace premiums by year"
          summary={summaryOf(rows)}
          categories={rows.map((row) => String(row.year))}
          categoryTitle="Year"
          isStacked
          series={[
            {
              name: 'You pay',
              tone: 2,
              values: rows.map((row) => row.marketplacePaid),
            },
            { name: 'Credit', tone: 1, values: rows.map((row) => row.credit) },
          ]}
        />
      ) : null}
      <YearRows
        caption="By year: each person’s age and coverage"
        rows={rows.slice(0, nearYears)}
        names={names}
      />
      {rows[0] ? <PaidEachMonth paid={rows[0].paidInMonths} year={rows[0].year} withForm /> : null}
      <LaterYears years={later.map((row) => row.year)}>
        <YearRows caption="Later years: each person’s age and coverage" rows={later} names={names} />
      </LaterYears>
      <p class="figure-note">
        * The law of this year is not out yet. It is the last one published, grown with the plan’s prices and
        premiums.
      </p>
      <details>
        <summary>How these figures are counted</summary>
        <p class="figure-note">
          Coverage is set each January by the income expected for the year, with what is taken from savings.
          What is taken once counts over all its months here; Medicaid counts it in its own month alone (42
          CFR 435.603(e)(1)). Income and credit are those of the tax return. Premiums are all that you pay:
          the marketplace after the year’s credit, taken in advance or with the return, Medicare, other plans,
          and any premium among living costs.
        </p>
      </details>
    </section>
  )
}

/** Years that stand open; a long life’s others are a step away. */
const nearYears = 6

const YearRows = (props: { caption: string; rows: readonly CoverYearRow[]; names: readonly string[] }) => (
  <DataTable
    caption={props.caption}
    stack
    ofPlan
    csv="/cover.csv?table=years"
    rows={props.rows}
    columns={[
      {
        title: 'Year',
        isHeader: true,
        cell: (row) =>
          `${row.year}${row.isProjectedLaw ? '\u00a0*' : ''}${row.filing === 'married_joint' || row.filing === 'single' ? '' : `, ${statusWords[row.filing]}`}${row.part && row.marketplaceMonths > 0 ? `, credit ${creditMonths(row, row.part)}` : ''}`,
      },
      ...props.names.map((name) => ({ title: name, cell: (row: CoverYearRow) => personWords(row, name) })),
      {
        title: 'Household income',
        isNumber: true,
        cell: (row) => formatDollars(row.householdIncome),
      },
      {
        title: 'Of the poverty level of the year before',
        isNumber: true,
        cell: (row) => `${row.povertyPercent}%`,
      },
      { title: 'Credit', isNumber: true, cell: (row) => formatDollars(row.credit) },
      {
        title: 'Premiums a month, after the credit',
        isNumber: true,
        cell: (row) => formatDollars(row.paidMonthly),
      },
    ]}
  />
)

/** By name where somebody is on the marketplace in all months that the plan knows, and in none before them. */
const creditMonths = ({ people, marketplaceMonths }: CoverYearRow, { months, says }: YearPart): string =>
  marketplaceMonths === months &&
  people.some(({ cover }) => cover.some((one) => one.kind === 'marketplace' && one.months === months))
    ? says
    : `for ${monthsWords(marketplaceMonths)} on the marketplace`

const statusWords: Record<FilingStatus, string> = {
  single: 'single',
  married_joint: 'joint return',
  head_of_household: 'head of household',
  married_separate: 'separate returns',
  surviving_spouse: 'surviving spouse',
}

/** The page's years run to the first in which all are on Medicare the whole year; the file holds the rest. */
const untilSettled = (rows: readonly CoverYearRow[]): readonly CoverYearRow[] => {
  const changing = (row: CoverYearRow) =>
    row.people.some((person) => person.cover.some((one) => one.kind !== 'Medicare'))
  return rows.slice(0, rows.findLastIndex(changing) + 2)
}

const personWords = (row: CoverYearRow, name: string): string => {
  const person = row.people.find((one) => one.name === name)
  if (!person) return ''
  const covers = person.cover.map(({ kind, from }, place) =>
    place === 0 ? coverageWords[kind] : `${coverageWords[kind]} from ${monthNames[from - 1]}`,
  )
  return `turns ${person.turns} · ${covers.join(', then ')}${workWords(person.work)}`
}

const workWords = (work: CoverYearRow['people'][number]['work']): string => {
  if (work === null) return ''
  const hours = `${Math.round(work.hoursMonthly)} hours a month`
  if (work.stands === 'met by hours') return `; work requirement met: ${hours}`
  return work.stands === 'not met'
    ? `; work requirement not met: ${hours}, ${work.asks.hoursMonthly} are asked`
    : `; work requirement ${work.stands}`
}

/** A year in which nobody is on the marketplace has no credit, whatever it would be. */
const creditOf = (row: CoverYearRow): string =>
  row.marketplaceMonths === 0
    ? `In ${row.year} nobody is on the marketplace yet`
    : `In ${row.year} the credit pays ${formatDollars(row.credit)}${row.part === null ? '' : ` ${creditMonths(row, row.part)}`}`

const summaryOf = (rows: readonly CoverYearRow[]): string => {
  const last = [...rows].reverse().find((row) => row.marketplaceMonths > 0)
  const first = rows[0]
  if (!first || !last) return 'Nobody is on the marketplace in this plan.'
  return `Premiums go from ${formatDollars(first.premiumMonthly)} a month in ${first.year} to ${formatDollars(last.premiumMonthly)} in ${last.year}. That is the last year on the marketplace. ${creditOf(first)}.`
}

export const PremiumByAge = (props: {
  ages: readonly { age: number; plan: number; benchmark: number }[]
  rows: readonly CoverYearRow[]
  year: number
  ageRating: string
}) => {
  const people = props.rows.find((row) => row.year === props.year)?.people ?? []
  const rated = people.filter((person) => person.premiumMonthly > 0)
  if (props.ages.length === 0) return null
  return (
    <section aria-labelledby="age-title">
      <h2 id="age-title">Premium by age</h2>
      <LineChart
        id="premium-by-age"
        title={`Premium for one person by age, ${props.year}, a month`}
        summary={`${rated.map((one) => `${one.name}, ${one.age} on January 1: ${formatDollars(one.premiumMonthly)}`).join('. ')}${rated.length > 0 ? '. ' : ''}At 64 the plan costs ${formatDollars(props.ages.at(-1)?.plan ?? 0)}, before any credit.`}
        series={[
          { name: 'Your plan', tone: 1, points: props.ages.map((one) => ({ x: one.age, y: one.plan })) },
          {
            name: 'Benchmark plan',
            tone: 2,
            points: props.ages.map((one) => ({ x: one.age, y: one.benchmark })),
          },
        ]}
        x={{ title: 'Age', format: String }}
        y={{ format: formatDollars, formatShort: formatDollars }}
        tableEvery={1}
      />
      <p class="figure-note">
        {ageRatingNote(props.ageRating)} <a href="/cover/marketplace">Change it</a>
      </p>
      <p class="no-print">
        <a href={`/cover.csv?table=ages&year=${props.year}`}>These numbers as CSV</a>
      </p>
    </section>
  )
}

export const MedicareMove = ({ starts }: { starts: readonly MedicareStart[] }) =>
  starts.length === 0 ? null : (
    <section aria-labelledby="medicare-title">
      <h2 id="medicare-title">The move to Medicare</h2>
      <DataTable
        caption="When Medicare starts and when to sign up"
        stack
        rows={starts}
        columns={[
          { title: 'Who', isHeader: true, cell: (start) => start.name },
          { title: 'Medicare from', cell: (start) => monthName(start.month) },
          {
            title: 'Sign up between',
            cell: (start) => `${monthName(start.signUpFrom)} and ${monthName(start.signUpTo)}`,
          },
          {
            title: 'Part B then, a month',
            isNumber: true,
            cell: (start) =>
              `${formatDollars(start.partBMonthly)} in ${dollarsInWords({ of: 'one year', year: start.year })}`,
          },
        ]}
      />
      <p>
        From the first month of Medicare a person has no premium tax credit. The credit of those who stay is
        then worked out for them alone. Part B looks at income two years back: high income at 63 raises the
        premium at 65. Sign up late, and the premium stays higher for good.
      </p>
    </section>
  )
