// The farm's cash, land and hands, what hiring costs and brings, overheads and loans.
import { formatDollars, formatPercent } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { LinkButton } from '../parts/button.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

export const BasicsSection = ({ figures }: { figures: FarmFigures }) => {
  const { basics, overheads, loans } = figures
  return (
    <section id="basics" aria-labelledby="basics-title">
      <h2 id="basics-title">Cash, land, hands</h2>
      <dl class="basics">
        <dt>Farm cash at the plan’s start</dt>
        <dd>
          {formatDollars(basics.cash)}, of which {formatDollars(basics.reserve)} is the reserve
        </dd>
        <dt>Land</dt>
        <dd>
          {Math.round(basics.landUsed * 10) / 10}
          {basics.land > 0 ? ` of ${basics.land}` : ''} acres used in {figures.year}
          {basics.land > 0 ? '' : '; none entered, so that land is no limit'}
        </dd>
        <dt>Hours a week</dt>
        <dd>
          {basics.crew.map((one) => `${one.who} ${one.weeklyHours}`).join('; ') || 'nobody named yet'}; hired
          help at {formatDollars(basics.hiredHourlyCost)} an hour
        </dd>
      </dl>
      <HiredWords hired={figures.hired} year={figures.year} />
      <p class="no-print">
        <LinkButton href="/farm/basics" quiet small>
          Change these
        </LinkButton>
      </p>
      <Overheads overheads={overheads} />
      <Loans loans={loans} year={figures.year} />
    </section>
  )
}

/** What hired work costs in the year, and what an employer has to do for it. */
const HiredWords = ({ hired, year }: { hired: FarmFigures['hired']; year: number }) => {
  if (hired.hours < 0.5) return null
  const { oneWorker, allWorkers, aQuarter } = hired.tests
  return (
    <>
      <p>
        In {String(year)} the plan hires {Math.round(hired.hours).toLocaleString('en-US')} hours for{' '}
        {formatDollars(hired.cost)}
        {hired.wages === null
          ? ', payroll tax and workers’ compensation counted in your own figure.'
          : `: wages ${formatDollars(hired.wages)}, the employer’s social security and Medicare tax ${formatDollars(hired.payrollTax!)}, workers’ compensation ${formatDollars(hired.compensation!)}.`}
      </p>
      <details>
        <summary>What hiring brings</summary>
        <ul>
          <li>Of each who is hired: Form W-4, Form I-9, and an entry with your state as its rules ask.</li>
          <li>
            Social Security and Medicare tax once one worker gets {formatDollars(oneWorker)} in a year or all
            together {formatDollars(allWorkers)}
            {hired.passesWageTest === null
              ? ''
              : hired.passesWageTest
                ? ', which these wages pass'
                : ': these wages may stay below, and the tax counted here would not be due'}
            . Form 943 for the year by January 31, Forms W-2 and W-3 by the same day.
          </li>
          <li>
            Federal unemployment tax, Form 940, from {formatDollars(aQuarter)} in one quarter or ten workers
            in twenty weeks
            {hired.passesUnemploymentTest ? ', which these wages pass; it is not counted here' : ''}.
          </li>
          <li>
            Workers’ compensation, unemployment and minimum wage are your state’s; some ask it of the smallest
            farm, some of none.
          </li>
        </ul>
        <Caution askWhom="a licensed tax preparer, your insurer and your state’s department of labor">
          The thresholds are second hand or from memory, as Sources says of each.
        </Caution>
      </details>
    </>
  )
}

const Overheads = ({ overheads }: Pick<FarmFigures, 'overheads'>) => (
  <div id="overheads">
    {overheads.length === 0 ? <p>The plan has no overhead yet: insurance, repairs, accounts.</p> : null}
    {overheads.length === 0 ? null : (
      <DataTable
        caption="Overheads a year"
        ofPlan
        rows={overheads}
        columns={[
          {
            title: 'Overhead',
            isHeader: true,
            cell: (one) => <a href={`/farm/overheads/${one.id}`}>{one.name}</a>,
          },
          { title: 'Costs', isNumber: true, cell: (one) => formatDollars(one.costs) },
          { title: 'Hours', isNumber: true, cell: (one) => String(Math.round(one.hours)) },
        ]}
      />
    )}
    <p class="no-print">
      <LinkButton href="/farm/overheads/new" small quiet>
        Add an overhead
      </LinkButton>
    </p>
  </div>
)

const Loans = ({ loans, year }: Pick<FarmFigures, 'loans' | 'year'>) => (
  <div id="loans">
    {loans.length > 0 ? (
      <DataTable
        caption="Loans"
        rows={loans}
        columns={[
          {
            title: 'Loan',
            isHeader: true,
            cell: (one) => <a href={`/farm/loans/${one.id}`}>{one.name}</a>,
          },
          { title: 'Principal', isNumber: true, cell: (one) => formatDollars(one.principal) },
          { title: 'Rate', isNumber: true, cell: (one) => formatPercent(one.yearlyRate) },
          {
            title: `Owed at the end of ${year}`,
            isNumber: true,
            cell: (one) => formatDollars(one.owedAtYearEnd),
          },
        ]}
      />
    ) : (
      <p>The plan has no loan, and nothing is bought by borrowing.</p>
    )}
    <p class="no-print">
      <LinkButton href="/farm/loans/new" small quiet>
        Add a loan
      </LinkButton>
    </p>
  </div>
)
