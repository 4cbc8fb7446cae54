// Who is covered by what at which household income, with the premium that is left to the marketplace there.
import { monthNames } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'
import type { MedicaidByWork, WorkInSight } from '#today/cover/cover-work.ts'
import type { CoverageBand, YearInSight } from '#today/cover/figures.ts'
import { Fold } from '../parts/fold.tsx'
import { DataTable } from '../parts/table.tsx'
import { coverageHad, coverageWords, limitOf, povertyOf } from './coverage-words.ts'
import { whoHas } from './spans.ts'

/** From income, place and ages alone: premiums need not be known. */
export const CoveredNow = ({ sight }: { sight: YearInSight }) => {
  const band = sight.bands[sight.standsOn]
  if (sight.bands.length < 2 || band === undefined) return null
  return (
    <>
      At a household income of {formatDollars(sight.lookedAtIncome)} in {sight.year} {hadInWords(band)}.
      {expectedWords(sight)}{' '}
    </>
  )
}

/** Cover goes by what is expected in January; the limits of the page then stand at the year's own incomes. */
const expectedWords = ({ expectedIncome, plannedIncome, year, part }: YearInSight): string => {
  if (expectedIncome === null) return ''
  const off = plannedIncome - expectedIncome
  const when = part === null ? `January ${year}` : 'The plan’s first month'
  return ` ${when} expected ${formatDollars(expectedIncome)}, and that decides: the programs’ limits stand ${formatDollars(Math.abs(off))} ${off > 0 ? 'higher' : 'lower'} here.`
}

export const CoverageByIncome = ({ sight }: { sight: YearInSight }) => (
  <section aria-labelledby="bands-title">
    <h2 id="bands-title">Coverage by income</h2>
    <Fold
      name={`Who is covered by what in ${sight.year}, by household income`}
      holds={`${sight.bands.length} ${sight.bands.length === 1 ? 'range' : 'ranges'} of income`}
    >
      <DataTable
        caption={`Who is covered by what in ${sight.year}, by household income`}
        hideCaption
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
            title: `Marketplace premium a month${aheadWords(sight)}, before the credit`,
            isNumber: true,
            cell: (band) => formatDollars(band.premiumMonthly),
          },
        ]}
      />
    </Fold>
    <p class="figure-note">
      A program may ask a small premium of its own. A navigator or the agency decides.
      {sight.part ? partNote : ''}
      {isExpecting(sight) ? expectingNote : ''}
    </p>
    <details>
      <summary>Where these limits come from</summary>
      <p class="figure-note">
        Limits are those of the state’s programs on January 1. They are percents of the federal poverty level
        (FPL): of the year itself for Medicaid, which a state takes up in a month between January and July; of
        the year before for the credit. <cite>Source: {sight.sources.medicaid}.</cite>
      </p>
    </details>
    {sight.work ? <WorkRequired work={sight.work} year={sight.year} /> : null}
    {sight.medicaidByWork ? <ByWork of={sight.medicaidByWork} year={sight.year} /> : null}
  </section>
)

/** Months that are over stay as they were at any income. */
const aheadWords = ({ charges, paidInMonths }: YearInSight): string =>
  charges.length > 1 && paidInMonths?.ahead ? ` from ${monthNames[paidInMonths.ahead.from - 1]} on` : ''

const isExpecting = ({ bands, householdSize }: YearInSight): boolean =>
  bands.some(({ limit }) => limit !== null && limit.people > householdSize)

const expectingNote =
  ' The one who is pregnant is counted with the children she expects. For the others of the household a state may count them or not: the plan says which, and counts one person until it does.'

const partNote =
  ' In a year that has begun, Medicaid and the children’s program look at the months ahead, or at a year under the poverty level: pay that has ended counts no more.'

const WorkRequired = ({ work, year }: { work: WorkInSight; year: number }) => {
  const { hoursMonthly, incomeMonthly } = work.people[0]!.asks
  return (
    <>
      <h3>Medicaid’s work requirement in {year}</h3>
      <p>
        Medicaid asks adults for {hoursMonthly} hours a month of work, work on the farm counted, or a
        household income of {formatDollars(incomeMonthly)} a month. At this income:
      </p>
      <ul>
        {work.people.map((person) => (
          <li>{workWords(person, work)}</li>
        ))}
      </ul>
      <p class="figure-note">
        Hours are those of the plan’s crew, pay and side ventures. Illness, pregnancy and other grounds leave
        a person out too, and states begin at different times: ask the agency. Whoever loses Medicaid over it
        has no premium tax credit either.
      </p>
    </>
  )
}

/** Open to those who ask, and in no figure of the page. */
const ByWork = ({ of, year }: { of: MedicaidByWork; year: number }) => (
  <>
    <h3>Medicaid for adults who work, {year}</h3>
    <p>
      This state covers adults up to {of.percent}% of the federal poverty level who show {of.hours} hours a
      month of work, training, study or service. The figures here do not count it: ask the agency before you
      pay for other coverage, or go without. By the plan’s hours:
    </p>
    <ul>
      {of.people.map(({ name, hoursMonthly }) => (
        <li>
          {name}: {String(Math.round(hoursMonthly))} hours a month
        </li>
      ))}
    </ul>
    <p class="figure-note">
      {of.note} <cite>Source: {of.source}.</cite>
    </p>
  </>
)

const workWords = (
  { name, stands, hoursMonthly }: WorkInSight['people'][number],
  { incomeMonthly }: WorkInSight,
): string => {
  const hours = `${Math.round(hoursMonthly)} hours a month`
  const income = `a household income of ${formatDollars(incomeMonthly)} a month`
  if (stands === 'met by hours') return `${name}: met, by ${hours}`
  if (stands === 'met by income') return `${name}: met, by ${income}`
  if (stands !== 'not met') return `${name}: ${stands}`
  return hoursMonthly > 0
    ? `${name}: not met, by ${hours} and ${income}`
    : `${name}: not met, as the plan names no hours and the household income is ${formatDollars(incomeMonthly)} a month`
}

const limitWords = (
  { limit }: CoverageBand,
  { year, householdSize, expectedIncome, runFrom }: YearInSight,
): string =>
  limit === null
    ? ''
    : `${limit.ofMonths ? ' ' : ', '}${limitOf(`${limit.percent}%`, povertyOf(year, limit.byCreditLine), { ofMonths: limit.ofMonths, runFrom })}${limit.people === householdSize ? '' : ` for ${limit.people}`}${expectedIncome === null ? '' : ' by what was expected'}`

const incomeWords = (band: CoverageBand, sight: YearInSight): string => {
  if (band.toIncome !== null) return `up to ${formatDollars(band.toIncome)}${limitWords(band, sight)}`
  const before = sight.bands.at(-2)?.toIncome
  return before == null ? 'any' : `above ${formatDollars(before)}`
}

/** Those covered alike stand together. */
const peopleWords = ({ people }: CoverageBand): string => {
  const covered = people.map((one) => ({ name: one.name, by: coveredWords(one) }))
  return [...new Set(covered.map(({ by }) => by))]
    .map((by) => {
      const names = covered.filter((one) => one.by === by).map(({ name }) => name)
      return `${names.join(', ')}: ${by}`
    })
    .join('; ')
}

/** The same as a sentence goes on: `Teo and Mara have Medicaid`. */
const hadInWords = ({ people }: CoverageBand): string => {
  const had = people.map((one) => ({ name: one.name, what: coveredWords(one, coverageHad) }))
  return [...new Set(had.map(({ what }) => what))]
    .map((what) =>
      whoHas(
        had.filter((one) => one.what === what).map(({ name }) => name),
        what,
      ),
    )
    .join(', and ')
}

const coveredWords = (
  { kind, later }: CoverageBand['people'][number],
  words: Record<CoverageKind, string> = coverageWords,
): string =>
  [words[kind], ...later.map((change) => `${words[change.kind]} from ${monthNames[change.month - 1]}`)].join(
    ', then ',
  )
