// Who is covered by what at which household income, with the premium that is left to the marketplace there.
import { formatDollars } from '#money/format.ts'
import type { CoverageBand, YearInSight } from '#today/cover/figures.ts'
import { DataTable } from '../parts/table.tsx'
import { coverageWords } from './years.tsx'

export const CoverageByIncome = ({ sight }: { sight: YearInSight }) => (
  <section aria-labelledby="bands-title">
    <h2 id="bands-title">Coverage by income</h2>
    <DataTable
      caption={`Who is covered by what in ${sight.year}, by household income`}
      stack
      dollars={{ of: 'one year', year: sight.year }}
      csv={`/cover.csv?table=bands&${sight.query}`}
      rows={sight.bands}
      columns={[
        {
          title: 'Household income',
          isHeader: true,
          cell: (band) =>
            `${incomeWords(band, sight)}${sight.bands[sight.standsOn] === band ? (sight.isTried ? ', the income tried' : ', as it stands') : ''}`,
        },
        { title: 'Covered by', cell: peopleWords },
        {
          title: 'Marketplace premium a month, before the credit',
          isNumber: true,
          cell: (band) => formatDollars(band.premiumMonthly),
        },
      ]}
    />
    <p class="figure-note">
      By the limits of the state’s programs on January 1, in percent of the federal poverty level (FPL):{' '}
      {sight.sources.medicaid}. A program may ask a small premium of its own. A navigator or the agency
      decides.
    </p>
  </section>
)

const incomeWords = (band: CoverageBand, { bands }: YearInSight): string => {
  if (band.toIncome !== null)
    return `up to ${formatDollars(band.toIncome)}, ${Math.round(band.toPercent ?? 0)}% of FPL`
  const before = bands.at(-2)?.toIncome
  return before == null ? 'any' : `above ${formatDollars(before)}`
}

/** Those covered alike stand together. */
const peopleWords = ({ people }: CoverageBand): string =>
  [...new Set(people.map(({ kind }) => kind))]
    .map((kind) => {
      const names = people.filter((one) => one.kind === kind).map(({ name }) => name)
      return `${names.join(', ')}: ${coverageWords[kind]}`
    })
    .join('; ')
