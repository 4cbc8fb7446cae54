// Tax paid for a year: the sums by line of the return, and each payment with what it counts as.
import { dayName } from '#calendar/day.ts'
import type { TaxMove, TaxReading } from '#ledger/tax/tax-payment.ts'
import { incomeTaxOffices, paymentUses } from '#ledger/tax/tax-use.ts'
import { formatCents, formatDollarsAndCents } from '#money/format.ts'
import type { TaxPayments } from '#today/tax/tax-payments.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, FormId, fieldOf, Hidden, Select } from '../parts/field.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import type { InputForm } from '../year-pack/inputs-shape.ts'

export interface PaymentRow {
  move: TaxMove
  readings: readonly [TaxReading, ...TaxReading[]]
}

interface TaxPaymentsProps {
  year: number
  rows: readonly PaymentRow[]
  sums: Record<'federal' | 'state' | 'local', TaxPayments>
  form: InputForm
  formId: string
}

export const TaxPaymentsPage = ({ year, rows, sums, form, formId }: TaxPaymentsProps) => {
  const fromPay = rows.filter(({ move }) => move.isKeptFromPay)
  const others = rows.filter(({ move }) => !move.isKeptFromPay)
  return (
    <>
      <PageTitle purpose="The books say when tax was paid; the return asks for which year. Look at what is proposed, and say what only you know.">
        Tax paid for {year}
      </PageTitle>
      <ErrorSummary errors={form.errors} />
      <p>
        <a href={`/year-pack?year=${year}`}>Back to the year pack</a>
      </p>
      {rows.length === 0 ? (
        <EmptyState href="/books/entry?side=household" action="Record an entry">
          No payment of tax is in the household’s books for {year}. Sort payments to an account for income
          taxes, and they stand here.
        </EmptyState>
      ) : (
        <>
          <Sums sums={sums} />
          <Caution askWhom="a licensed tax preparer">
            What the tax office has on its account of you is what counts.
          </Caution>
          <form method="post" class="pack-form" action={`/year-pack/payments?year=${year}`}>
            <FormId value={form.typed.value('formId') || formId} />
            <Hidden name="basedOn" value={form.typed.value('basedOn')} />
            {others.map((row) => (
              <Payment row={row} form={form} />
            ))}
            {fromPay.length === 0 ? null : (
              <details>
                <summary>Withheld before it was paid: {fromPay.length}</summary>
                {fromPay.map((row) => (
                  <Payment row={row} form={form} />
                ))}
              </details>
            )}
            <OverClosed typed={form.typed} errors={form.errors} />
            <ButtonRow>
              <Button>Save</Button>
            </ButtonRow>
          </form>
        </>
      )}
    </>
  )
}

const Sums = ({ sums: { federal, state, local } }: Pick<TaxPaymentsProps, 'sums'>) => (
  <table class="pack-table">
    <caption class="hidden-text">Tax paid, by what it counts as</caption>
    <thead>
      <tr>
        <th scope="col">Counts as</th>
        <th scope="col" class="number">
          Federal
        </th>
        <th scope="col" class="number">
          State
        </th>
        <th scope="col" class="number">
          Local
        </th>
      </tr>
    </thead>
    <tbody>
      {sumRows.map(([name, part]) => (
        <tr>
          <th scope="row">{name}</th>
          <td class="number">{formatDollarsAndCents(federal[part])}</td>
          <td class="number">{formatDollarsAndCents(state[part])}</td>
          <td class="number">{formatDollarsAndCents(local[part])}</td>
        </tr>
      ))}
    </tbody>
  </table>
)

const sumRows = [
  ['Withheld, line 25a', 'withheld'],
  ['Estimated payments, line 26', 'estimates'],
  ['Paid with the return or after it', 'withReturn'],
  ['Came back', 'refunded'],
] as const

const Payment = ({ row: { move, readings }, form }: { row: PaymentRow; form: InputForm }) => {
  const name = (part: string) => `p.m${move.postingId}.${part}`
  return (
    <fieldset>
      <legend>
        {dayName(move.day)}: {formatCents(move.amountCents)}
        {move.payee ? `, ${move.payee}` : ''}{' '}
        <span class="pack-note">
          {move.account}
          {move.memo ? `; ${move.memo}` : ''}
        </span>
      </legend>
      {readings.length > 1 ? (
        <p class="notice">
          {readings.map((one) => `${useWords[one.use]} for ${one.taxYear}`).join(', or ')}: both fit. Say
          which it was.
        </p>
      ) : null}
      <div class="field-row">
        <Select
          {...fieldOf(form, name('use'))}
          label="Counts as"
          options={paymentUses.map((value) => ({ value, label: useWords[value] }))}
        />
        <Field {...fieldOf(form, name('year'))} label="For the year" inputmode="numeric" maxlength={4} />
        <Select
          {...fieldOf(form, name('office'))}
          label="Whose tax"
          options={incomeTaxOffices.map((value) => ({ value, label: officeWords[value] }))}
        />
        <Field
          {...fieldOf(form, name('state'))}
          label="Another state"
          hint="Two letters, if not your own"
          maxlength={2}
        />
      </div>
    </fieldset>
  )
}

const useWords = {
  withheld: 'withheld',
  estimate: 'estimated payment',
  balance: 'paid with the return or after it',
  refund: 'came back',
} as const satisfies Record<TaxReading['use'], string>

const officeWords = {
  federal: 'federal income tax',
  state: 'state income tax',
  local: 'local income tax',
  payroll: 'social security and Medicare',
} as const
