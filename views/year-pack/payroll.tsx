// Workers of a year: what was booked of their pay, what the law's rates give, and what Form 943 asks.
import { farmSide } from '#ledger/account.ts'
import { payrollFormsSource } from '#ledger/tax/payroll-forms.ts'
import type { WorkerPay } from '#ledger/tax/wages.ts'
import { type Cents, cents, centsToDollars, sumCents } from '#money/cents.ts'
import { formatCents, formatCentsPlain, formatDollars } from '#money/format.ts'
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
      <p>No payee is marked as a worker.</p>
    ) : (
      <>
        <Workers workers={figures.workers} csv={csv} />
        <Form943Lines figures={figures} />
        <Form940Lines figures={figures} />
      </>
    )}
    <p class="no-print">
      <a href="/year-pack/pay">Pay a worker</a>: wages, what is kept back and the employer’s part in one
      entry.
    </p>
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
    foot={[
      'All',
      ...[
        (row: WorkerPay) => row.grossCents,
        (row: WorkerPay) => row.federalCents,
        (row: WorkerPay) => row.due.socialSecurityCents,
        (row: WorkerPay) => row.due.medicareCents,
        (row: WorkerPay) => row.stateCents,
      ].map((of) => formatCents(sumCents(workers.map(of)))),
      '',
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

export const Form943Lines = ({ figures: { farmPayroll, year } }: { figures: PeopleFigures }) =>
  farmPayroll.workers === 0 ? null : (
    <>
      <table class="pack-table">
        <caption>For Form 943, {year}, the farm’s workers</caption>
        <tbody>
          {form943Rows(farmPayroll).map(({ label, note, amountCents }) => (
            <AmountRow label={label} note={note} amounts={[amountCents]} />
          ))}
        </tbody>
        <tfoot>
          <TotalRow label="Line 9, total tax of the year" amounts={[farmPayroll.totalCents]} />
        </tfoot>
      </table>
      <table class="pack-table">
        <caption>Line 17 of it: tax by the month of the pay</caption>
        <thead>
          <tr>
            <th scope="col">Quarter</th>
            {['First month', 'Second', 'Third', 'Quarter'].map((title) => (
              <th scope="col" class="number">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {quarters(farmPayroll.monthsCents).map((months, i) => (
            <tr>
              <th scope="row">{quarterNames[i]}</th>
              {[...months, sumCents(months)].map((amount) => (
                <td class="number">{formatCentsPlain(amount)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p class="source">
        What is deposited when hangs on the year before
        {farmPayroll.withFormBelowCents === null
          ? ''
          : `; below ${formatDollars(centsToDollars(farmPayroll.withFormBelowCents))} it may go with the form`}
        . Source: {payrollFormsSource}. Check each line against this year’s form.
      </p>
    </>
  )

export const quarterNames = ['January to March', 'April to June', 'July to September', 'October to December']

const quarters = (months: readonly Cents[]): Cents[][] =>
  [0, 3, 6, 9].map((from) => months.slice(from, from + 3))

export interface PayrollRow {
  label: string
  note: string
  amountCents: Cents
}

export const form943Rows = (form: PeopleFigures['farmPayroll']): PayrollRow[] => [
  {
    label: 'Line 2, wages under social security',
    note: `${form.workers} ${form.workers === 1 ? 'worker' : 'workers'}, paid ${formatCents(form.wagesCents)}`,
    amountCents: form.socialSecurityWagesCents,
  },
  { label: 'Line 3, social security', note: 'worker and employer', amountCents: form.socialSecurityCents },
  { label: 'Line 4, wages under Medicare', note: '', amountCents: form.medicareWagesCents },
  { label: 'Line 5, Medicare', note: 'worker and employer', amountCents: form.medicareCents },
  { label: 'Line 8, federal income tax kept back', note: '', amountCents: form.withheldCents },
]

/** What of Form 940 there is, or the word that it is not due. */
export const Form940Lines = ({ figures: { unemployment, year } }: { figures: PeopleFigures }) =>
  unemployment.workers === 0 ? null : (
    <>
      <p>{unemploymentWords(unemployment, year)}</p>
      {unemployment.isDue === false ? null : (
        <table class="pack-table">
          <caption>For Form 940, {year}, the farm’s workers</caption>
          <tbody>
            {form940Rows(unemployment).map(({ label, note, amountCents }) => (
              <AmountRow label={label} note={note} amounts={[amountCents]} />
            ))}
          </tbody>
        </table>
      )}
    </>
  )

export const unemploymentWords = (form: PeopleFigures['unemployment'], year: number): string => {
  const most = cents(Math.max(...form.quartersCents, ...form.beforeCents))
  if (form.tests === null) return `No wages of farm workers are booked in ${year - 1} or ${year}.`
  const { workers, weeks, quarterCents } = form.tests
  const aQuarter = formatDollars(centsToDollars(quarterCents))
  const said = `The most paid in a quarter of ${year - 1} or ${year} is ${formatCents(most)}. Weeks with pay of ${workers} or more workers: ${form.weeks === 0 ? 'none' : form.weeks}.`
  if (form.isDue === null)
    return `${said} To see whether federal unemployment tax is due, count the weeks in which ${workers} or more worked; from ${weeks} weeks on it is. The books know days of pay, not of work.`
  return form.isDue
    ? `${said} Federal unemployment tax is due: ${aQuarter} in a quarter, or ${workers} workers in ${weeks} weeks.`
    : `${said} Form 940 is not due: below ${aQuarter} in every quarter, and below ${workers} workers in ${weeks} weeks.`
}

export const form940Rows = (form: PeopleFigures['unemployment']): PayrollRow[] => [
  { label: 'Line 3, paid to all workers', note: '', amountCents: form.paymentsCents },
  {
    label: 'Line 5, over what is taxed of each worker',
    note: form.tests === null ? '' : `${formatDollars(centsToDollars(form.tests.taxedOfEachCents))} a worker`,
    amountCents: form.overCents,
  },
  { label: 'Line 7, wages that are taxed', note: '', amountCents: form.taxableCents },
  {
    label: 'Line 8, federal unemployment tax',
    note: 'where the state’s own was paid in full and in time; some states owe more (Schedule A)',
    amountCents: form.taxCents,
  },
]

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
