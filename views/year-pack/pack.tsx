// The Year pack: everything for the year's end on one page that prints sheet by sheet.
import { dayName } from '#calendar/day.ts'
import { monthNames } from '#calendar/month.ts'
import type { CrossingMonths } from '#ledger/reports/crossings-by-month.ts'
import { type Cents, sumCents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import type { SideStatements, YearPackFigures } from '#today/year-pack/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton, PrintButton } from '../parts/button.tsx'
import { Select } from '../parts/field.tsx'
import { Caution, EmptyState, Part } from '../parts/message.tsx'
import { FarmPapers } from './farm-papers.tsx'
import { IncomePlacesPart } from './income-places-part.tsx'
import { NotebookPart } from './notebook-part.tsx'
import { PackPart } from './parts.tsx'
import { VentureForms } from './schedule-c-part.tsx'
import { BalancePart, CashPart, EquityPart, IncomePart } from './statements.tsx'
import { TaxPart } from './tax-part.tsx'

interface PackProps {
  figures: YearPackFigures
  /** Address of a table as CSV, by its name. */
  csv: (table: string) => string
}

export const YearPackPage = (props: PackProps) => {
  const { figures } = props
  return (
    <>
      <PageTitle
        help="yearPack"
        purpose="The year’s papers: statements of each side and of all together, the farm’s form and measures, and a tax worksheet."
      >
        Year pack {figures.year}
      </PageTitle>
      {figures.through ? (
        <p class="purpose">The year still runs: everything here goes up to {dayName(figures.through)}.</p>
      ) : null}
      <Caution askWhom="a licensed tax preparer or your lender">
        These papers are only as good as the entries behind them.
      </Caution>
      <Choice figures={figures} />
      <Gaps figures={figures} />
      <Contents figures={figures} />
      <FarmPapers {...props} />
      <VentureForms {...props} />
      <Part of={() => figures.sides.map((side) => <SideParts side={side} csv={props.csv} />)} />
      <Part of={() => (figures.together ? <SideParts side={figures.together} csv={props.csv} /> : null)} />
      <CrossingsPart figures={figures} csv={props.csv} />
      <Part
        of={() => (
          <IncomePlacesPart
            id="income-places"
            csv={props.csv('income-places')}
            places={figures.places}
            between={figures.scheduleF?.between ?? []}
            year={figures.year}
          />
        )}
      />
      <Part
        of={() =>
          figures.notebook ? (
            <NotebookPart
              id="notebook"
              csv={props.csv('notebook')}
              notes={figures.notebook}
              year={figures.year}
            />
          ) : null
        }
      />
      <TaxSection {...props} />
      <ProvedBy end={figures.chainEnd} />
    </>
  )
}

const ProvedBy = ({ end }: { end: string | null }) =>
  end === null ? null : (
    <section aria-labelledby="proved-title">
      <h2 id="proved-title">What these papers rest on</h2>
      <p>
        Every change in the books is proved by the ones before it; when this was printed they ended at{' '}
        <code>{end}</code>. Later <code>npm run dooryard -- verify --end "{end}"</code> tells whether all of
        it is still there, unchanged.
      </p>
    </section>
  )

export const EmptyPack = () => (
  <>
    <PageTitle purpose="The year’s papers, printed from the books.">Year pack</PageTitle>
    <EmptyState href="/books/entry" action="Record an entry">
      There is nothing to print yet. Once the books hold entries, the year’s statements stand here.
    </EmptyState>
  </>
)

const Choice = ({ figures }: { figures: YearPackFigures }) => (
  <form method="get" action="/year-pack" class="no-print">
    <div class="field-row">
      <Select
        name="year"
        label="Year"
        value={String(figures.year)}
        options={figures.years.map((year) => ({ value: String(year), label: String(year) }))}
      />
      <Select
        name="basis"
        label="Basis"
        value={figures.basis}
        options={[
          { value: 'cash', label: 'Cash' },
          { value: 'accrual', label: 'Cash with accrual adjustments' },
        ]}
      />
    </div>
    <ButtonRow>
      <Button>Show</Button>
      <PrintButton />
      <LinkButton href={`/year-pack/inputs?year=${figures.year}`} quiet>
        Enter what the books do not know
      </LinkButton>
      <LinkButton href={`/year-pack/people?year=${figures.year}`} quiet>
        People and payees
      </LinkButton>
    </ButtonRow>
  </form>
)

const Gaps = ({ figures }: { figures: YearPackFigures }) =>
  figures.gaps.length === 0 ? null : (
    <section class="notice no-print" aria-labelledby="gaps-title">
      <h2 id="gaps-title">Before you print</h2>
      <ul>
        {figures.gaps.map((gap) => (
          <li>
            <a href={gap.href}>{gap.says}</a>
          </li>
        ))}
      </ul>
    </section>
  )

const partNames = [
  ['income', 'Income statement'],
  ['balance', 'Balance sheet'],
  ['equity', 'Owner’s equity'],
  ['cash', 'Cash flow'],
] as const

const Contents = ({ figures }: { figures: YearPackFigures }) => (
  <nav aria-label="Contents of the pack" class="pack-contents">
    <ul>
      {figures.scheduleF ? (
        <li>
          The farm’s papers: <a href="#schedule-f">Schedule F summary</a>,{' '}
          <a href="#measures">finance measures</a>, <a href="#inventory">stock and equipment</a>
        </li>
      ) : null}
      {figures.ventures.map(({ form }) => (
        <li>
          {form.name}: <a href={`#${form.sideId}-schedule-c`}>Schedule C summary</a>
        </li>
      ))}
      {[...figures.sides, ...(figures.together ? [figures.together] : [])].map((side) => (
        <li>
          {side.name}:{' '}
          {partNames.map(([part, name], i) => (
            <>
              {i > 0 ? ', ' : ''}
              <a href={`#${side.id}-${part}`}>{name.toLowerCase()}</a>
            </>
          ))}
        </li>
      ))}
      <li>
        <a href="#crossings">Crossings by month</a>, <a href="#income-places">where income goes</a>,{' '}
        {figures.notebook ? (
          <>
            <a href="#notebook">from the farm’s notebook</a>,{' '}
          </>
        ) : null}
        <a href="#tax">tax worksheet</a>
      </li>
    </ul>
  </nav>
)

const SideParts = ({ side, csv }: { side: SideStatements; csv: PackProps['csv'] }) => (
  <>
    <Part
      of={() => (
        <IncomePart
          id={`${side.id}-income`}
          csv={csv(`${side.id}-income`)}
          items={side.items}
          statement={side.income}
        />
      )}
    />
    <Part
      of={() => (
        <BalancePart
          id={`${side.id}-balance`}
          csv={csv(`${side.id}-balance`)}
          begin={side.begin}
          end={side.end}
        />
      )}
    />
    <Part
      of={() => <EquityPart id={`${side.id}-equity`} csv={csv(`${side.id}-equity`)} equity={side.equity} />}
    />
    <Part of={() => <CashPart id={`${side.id}-cash`} csv={csv(`${side.id}-cash`)} cash={side.cash} />} />
  </>
)

const crossingColumns = [
  ['draws', 'Draws'],
  ['contributions', 'Contributions'],
  ['reimbursements', 'Reimbursed'],
  ['goods', 'Goods used at home'],
  ['borrowed', 'Borrowed, net'],
] as const

const CrossingsPart = ({ figures, csv }: Pick<PackProps, 'figures' | 'csv'>) => (
  <PackPart
    id="crossings"
    csv={csv('crossings')}
    title="Crossings by month"
    beginsSheet
    of={String(figures.year)}
    says="What moved between the sides, month by month."
  >
    {figures.crossings.length === 0 ? <p>Nothing crossed.</p> : null}
    {figures.crossings.map((pair) => (
      <PairTable pair={pair} />
    ))}
  </PackPart>
)

const PairTable = ({ pair }: { pair: CrossingMonths }) => (
  <table class="pack-table">
    <caption>
      {pair.side} and {pair.other}
    </caption>
    <thead>
      <tr>
        <th scope="col">Month</th>
        {crossingColumns.map(([, title]) => (
          <th scope="col" class="number">
            {title}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {monthNames.map((name, i) => (
        <tr>
          <th scope="row">{name}</th>
          {crossingColumns.map(([key]) => (
            <td class="number">{amountOrBlank(pair[key][i]!)}</td>
          ))}
        </tr>
      ))}
    </tbody>
    <tfoot>
      <tr class="pack-total">
        <th scope="row">Year</th>
        {crossingColumns.map(([key]) => (
          <td class="number">{formatCentsPlain(sumCents(pair[key]))}</td>
        ))}
      </tr>
    </tfoot>
  </table>
)

const amountOrBlank = (amount: Cents): string => (amount === 0 ? '' : formatCentsPlain(amount))

const TaxSection = ({ figures, csv }: PackProps) =>
  figures.tax.status === 'worked' ? (
    <TaxPart id="tax" csv={csv('tax')} worksheet={figures.tax.worksheet} year={figures.year} />
  ) : (
    <PackPart id="tax" title="Tax worksheet" of={String(figures.year)} says="Not worked out.">
      <EmptyState href="/settings" action="Open Settings">
        {figures.tax.says}
      </EmptyState>
    </PackPart>
  )
