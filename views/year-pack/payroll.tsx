// Workers of a year: what was booked of their pay, what the law's rates give, and what Form 943 asks.
import { farmSide } from '#ledger/account.ts'
import type { WorkerPay } from '#ledger/tax/wages.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { PeopleFigures } from '#today/year-pack/people-figures.ts'
import { Button, ButtonRow } from '../parts/button.tsx'
import { FormId } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { AmountRow, TotalRow } from './parts.tsx'

interface PayrollProps {
  figures: PeopleFigures
  formId: string
  csv: string
}

export const PayrollPart = ({ figures, formId, csv }: PayrollProps) => (
  <section id="payroll" aria-labelledby="payroll-title">
    <h2 id="payroll-title">Workers</h2>
    <Caution askWhom="a payroll service or a licensed tax preparer">
      States ask for unemployment insurance, workers’ compensation and withholding of their own; one’s own
      children, a husband or wife, and pay in kind have rules of their own.
    </Caution>
    {figures.workers.length === 0 ? (
      <p>
        Nobody is said to be a worker. Book pay in one entry: wages as the cost, what was kept back and the
        employer’s part as owed, the rest from the bank, with the worker as payee.
      </p>
    ) : (
      <>
        <Workers workers={figures.workers} csv={csv} />
        <Form943 figures={figures} />
      </>
    )}
    <Owed owed={figures.payrollOwed} year={figures.year} />
    {figures.hasPayrollAccounts ? null : (
      <form method="post" action={`/year-pack/people/accounts?year=${figures.year}`}>
        <FormId value={formId} />
        <p>The farm’s books lack accounts for what is kept back from pay and for the employer’s part.</p>
        <ButtonRow>
          <Button quiet>Make them</Button>
        </ButtonRow>
      </form>
    )}
  </section>
)

const Workers = ({ workers, csv }: { workers: readonly WorkerPay[]; csv: string }) => (
  <DataTable
    caption="For Form W-2, by worker"
    rows={workers}
    stack
    csv={csv}
    columns={[
      { title: 'Worker', isHeader: true, cell: (row) => row.name },
      { title: 'Wages, box 1', isNumber: true, cell: (row) => formatCents(row.grossCents) },
      { title: 'Federal tax, box 2', isNumber: true, cell: (row) => formatCents(row.federalCents) },
      {
        title: 'Social security, box 4',
        isNumber: true,
        cell: (row) => formatCents(row.due.socialSecurityCents),
      },
      { title: 'Medicare, box 6', isNumber: true, cell: (row) => formatCents(row.due.medicareCents) },
      { title: 'State and local', isNumber: true, cell: (row) => formatCents(row.stateCents) },
      { title: 'Kept back and employer’s part as booked', cell: booked },
    ]}
  />
)

/** The two that are booked, held against the law's. */
const booked = ({ due, payrollCents, employerCents, sideId }: WorkerPay): string => {
  const byLaw = cents(due.socialSecurityCents + due.medicareCents)
  if (!due.isDue && sideId === farmSide && payrollCents === 0)
    return 'Below both tests of farm wages: none is due.'
  return payrollCents === byLaw && employerCents === byLaw
    ? 'As the rates give.'
    : `${formatCents(payrollCents)} and ${formatCents(employerCents)}; the rates give ${formatCents(byLaw)} each.`
}

const Form943 = ({ figures: { farmPayroll, year } }: { figures: PeopleFigures }) =>
  farmPayroll.workers === 0 ? null : (
    <table class="pack-table">
      <caption>For Form 943, {year}, the farm’s workers</caption>
      <tbody>
        <AmountRow label="Wages" note={`${farmPayroll.workers} workers`} amounts={[farmPayroll.wagesCents]} />
        <AmountRow label="Social security, worker and employer" amounts={[farmPayroll.socialSecurityCents]} />
        <AmountRow label="Medicare, worker and employer" amounts={[farmPayroll.medicareCents]} />
        <AmountRow label="Federal income tax withheld" amounts={[farmPayroll.withheldCents]} />
      </tbody>
      <tfoot>
        <TotalRow label="Total tax of the year" amounts={[farmPayroll.totalCents]} />
      </tfoot>
    </table>
  )

const Owed = ({ owed, year }: { owed: PeopleFigures['payrollOwed']; year: number }) =>
  owed.length === 0 ? null : (
    <table class="pack-table">
      <caption>Kept back or owed and not paid yet at the end of {year}</caption>
      <tbody>
        {owed.map((row) => (
          <AmountRow
            label={row.name}
            href={`/books/accounts/${row.id}`}
            note={row.side}
            amounts={[row.owedCents]}
          />
        ))}
      </tbody>
    </table>
  )
