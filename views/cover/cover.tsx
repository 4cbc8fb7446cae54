// Cover: who is covered by what, the credit against income, the room left before a line, the move to Medicare, tax so far.

import type { CoverFigures, YearInSight } from '#today/cover/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button, LinkButton } from '../parts/button.tsx'
import { fieldOf, MoneyField, Select } from '../parts/field.tsx'
import { Caution, EmptyState, Part } from '../parts/message.tsx'
import { OnThisPage } from '../parts/on-this-page.tsx'
import { CoverageByIncome } from './bands.tsx'
import { CreditChart, KeptChart, Standing } from './credit.tsx'
import { PlaceOfCover } from './place.tsx'
import { RoomTable } from './room.tsx'
import { TaxSoFar } from './tax-so-far.tsx'
import { MedicareMove, PremiumByAge, WhoIsCovered } from './years.tsx'

export interface CoverPageProps {
  figures: CoverFigures
  typed: { value(name: string): string }
  errors: Readonly<Record<string, string>>
}

export const CoverPage = (props: CoverPageProps) => (
  <>
    <PageTitle
      help="cover"
      purpose="Who is covered by what, what it costs after the credit, and how much income has room before it costs more."
    >
      Health coverage
    </PageTitle>
    <CoverCaution />
    <CoverBody {...props} />
  </>
)

const CoverCaution = () => (
  <Caution askWhom="a marketplace navigator, a licensed tax preparer or the agency itself">
    These are estimates: a navigator or the agency decides. A wrong income estimate can mean a premium tax
    credit to be paid back, or no coverage. Medicaid looks at the present month, the credit at the whole year;
    states differ.
  </Caution>
)

const CoverBody = (props: CoverPageProps) => {
  const { figures } = props
  if (figures.status === 'none') {
    return (
      <EmptyState href="/start/who" action="Enter who you are">
        Cover depends on ages, place and income. Enter who you are and what a month costs first.
      </EmptyState>
    )
  }
  if (figures.status === 'unreadable') {
    return (
      <EmptyState href="/runway" action="Look at the plan">
        The plan cannot be read, so cover cannot be worked out. {figures.says}
      </EmptyState>
    )
  }
  if (figures.status === 'no-years') {
    return (
      <>
        <EmptyState href="/runway" action="Look at the plan">
          The plan ends before a whole tax year of it is known.
        </EmptyState>
        {figures.tax ? <TaxSoFar tax={figures.tax} /> : null}
      </>
    )
  }
  return (
    <>
      <Part of={() => <OnThisPage parts={contentsOf(figures)} />} />
      <Lever {...props} figures={figures} />
      <Part
        of={() =>
          figures.inSight ? <InSight sight={figures.inSight} /> : <NobodyCovered year={figures.year} />
        }
      />
      <Part of={() => (figures.tax ? <TaxSoFar tax={figures.tax} /> : null)} />
      <Part of={() => <WhoIsCovered rows={figures.rows} />} />
      <Part
        of={() => (
          <PremiumByAge
            ages={figures.premiumByAge}
            rows={figures.rows}
            year={figures.year}
            ageRating={figures.ageRating}
          />
        )}
      />
      <Part of={() => <PlaceOfCover place={figures.place} />} />
      <Part of={() => <MedicareMove starts={figures.medicare} />} />
    </>
  )
}

const contentsOf = (figures: Read) => [
  ...(figures.inSight
    ? [
        { id: 'bands-title', name: 'Coverage by income' },
        { id: 'room-title', name: 'Income room' },
        { id: 'kept-title', name: 'Where a dollar costs more than a dollar' },
      ]
    : []),
  ...(figures.tax ? [{ id: 'tax-title', name: 'Tax so far' }] : []),
  { id: 'who-title', name: 'Who is covered by what' },
  ...(figures.premiumByAge.length > 0 ? [{ id: 'age-title', name: 'Premium by age' }] : []),
  { id: 'place-title', name: 'Where you live' },
  ...(figures.medicare.length > 0 ? [{ id: 'medicare-title', name: 'The move to Medicare' }] : []),
]

type Read = Extract<CoverFigures, { status: 'read' }>

/** Which year, and which household income, to look at. Sent by GET: nothing is kept. */
const Lever = ({ figures, typed, errors }: CoverPageProps & { figures: Read }) => (
  <form method="get" action="/cover" class="lever no-print">
    <div class="field-row">
      <Select
        name="year"
        label="Year"
        value={typed.value('year') || String(figures.year)}
        error={errors.year}
        options={figures.rows.map((row) => ({ value: String(row.year), label: String(row.year) }))}
      />
      <MoneyField
        {...fieldOf({ typed, errors }, 'income')}
        label="Household income"
        hint="Empty: the plan’s"
      />
    </div>
    <Button>Look</Button>{' '}
    <LinkButton quiet href="/cover/marketplace">
      Change who is covered and premiums
    </LinkButton>
  </form>
)

const InSight = ({ sight }: { sight: YearInSight }) => (
  <>
    <Standing sight={sight} />
    <CoverageByIncome sight={sight} />
    <RoomTable sight={sight} />
    <CreditChart sight={sight} />
    <KeptChart sight={sight} />
  </>
)

const NobodyCovered = ({ year }: { year: number }) => (
  <EmptyState href="/cover/marketplace" action="Enter who is covered and premiums">
    Nobody is on marketplace cover in {year} by the plan. With the premium of your plan and of the benchmark
    plan, this page tells the credit and the room your income has.
  </EmptyState>
)
