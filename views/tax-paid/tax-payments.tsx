// Tax paid for a year: the sums by line of the return, and each payment with what it counts as.
import { dayName } from '#calendar/day.ts'
import type { ReadMove, TaxReading } from '#ledger/tax/tax-payment.ts'
import { incomeTaxOffices, paymentUses } from '#ledger/tax/tax-use.ts'
import { formatCents, formatDollarsAndCents } from '#money/format.ts'
import type { ReturnKind } from '#today/tax/return-kinds.ts'
import type { TaxPayments } from '#today/tax/tax-payments.ts'
import { Button, ButtonRow } from '../parts/button.tsx'
import { Field, fieldOf, Hidden, MoneyField, Select } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import type { InputForm } from '../year-pack/inputs-shape.ts'
import { MoveFields, type MovesForm, MovesPage } from './moves-page.tsx'

interface TaxPaymentsProps extends MovesForm {
  rows: readonly ReadMove[]
  sums: Record<ReturnKind, TaxPayments>
  /** What of the year's refund was left for the next year. */
  applied: InputForm
}

export const TaxPaymentsPage = ({ rows, sums, applied, ...moves }: TaxPaymentsProps) => {
  const fromPay = rows.filter(({ move }) => move.isKeptFromPay)
  const others = rows.filter(({ move }) => !move.isKeptFromPay)
  const payment = (row: ReadMove) => <Payment row={row} form={moves.form} />
  return (
    <MovesPage
      {...moves}
      title={`Tax paid for ${moves.year}`}
      purpose="The books say when tax was paid; the return asks for which year. Look at what is proposed, and say what only you know."
      at="/year-pack/payments"
      empty={
        rows.length > 0 ? null : (
          <EmptyState href="/books/entry?side=household" action="Record an entry">
            No payment of tax is in the household’s books for {moves.year}. Sort payments to an account for
            income taxes, and they show here.
          </EmptyState>
        )
      }
      sums={<Sums sums={sums} />}
      askWhom="a licensed tax preparer"
      caution="What the IRS and the state have on record for you is what counts."
      after={<Applied year={moves.year} form={applied} />}
    >
      {others.map(payment)}
      {fromPay.length === 0 ? null : (
        <details>
          <summary>Withheld before it was paid: {fromPay.length}</summary>
          {fromPay.map(payment)}
        </details>
      )}
    </MovesPage>
  )
}

/** A refund left with the office moves no money, so that the books know nothing of it. */
const Applied = ({ year, form }: { year: number; form: InputForm }) => (
  <section aria-labelledby="applied-title">
    <h2 id="applied-title">Left for {year + 1}</h2>
    <p>
      What the return of {year} would give back can be left there as a payment ahead for {year + 1}: line 36
      of this return, line 26 of the next one. The bank never shows it.
    </p>
    <form method="post" class="pack-form" action={`/year-pack/payments/applied?year=${year}`}>
      <Hidden name="basedOn" value={form.typed.value('basedOn')} />
      <div class="field-row">
        {appliedFields.map(([to, label]) => (
          <MoneyField {...fieldOf(form, to)} label={label} />
        ))}
      </div>
      <OverClosed typed={form.typed} errors={form.errors} />
      <ButtonRow>
        <Button quiet>Save what was left</Button>
      </ButtonRow>
    </form>
  </section>
)

const appliedFields: readonly (readonly [ReturnKind, string])[] = [
  ['federal', 'Of the federal refund'],
  ['state', 'Of the state’s'],
  ['local', 'Of the local one'],
]

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
  ['Left there from the refund of the year before, line 26', 'applied'],
  ['Paid with the return or after it', 'withReturn'],
  ['Came back', 'refunded'],
  ['Left for the next year, line 36', 'appliedToNext'],
] as const

const Payment = ({ row: { move, readings }, form }: { row: ReadMove; form: InputForm }) => {
  const row = `p.m${move.postingId}`
  return (
    <MoveFields
      form={form}
      row={row}
      legend={
        <>
          {dayName(move.day)}: {formatCents(move.amountCents)}
          {move.payee ? `, ${move.payee}` : ''}{' '}
          <span class="pack-note">
            {move.account}
            {move.memo ? `; ${move.memo}` : ''}
          </span>
        </>
      }
      asked={
        readings.length > 1
          ? `${readings.map((one) => `${useWords[one.use]} for ${one.taxYear}`).join(', or ')}: both fit. Say which it was.`
          : ''
      }
      uses={paymentUses}
      words={useWords}
    >
      <Select
        {...fieldOf(form, `${row}.office`)}
        label="Whose tax"
        options={incomeTaxOffices.map((value) => ({ value, label: officeWords[value] }))}
      />
      <Field
        {...fieldOf(form, `${row}.state`)}
        label="Another state"
        hint="Two letters, if not your own"
        maxlength={2}
      />
    </MoveFields>
  )
}

export const useWords = {
  withheld: 'withheld',
  estimate: 'estimated payment',
  balance: 'paid with the return or after it',
  refund: 'came back',
} as const satisfies Record<TaxReading['use'], string>

export const officeWords = {
  federal: 'federal income tax',
  state: 'state income tax',
  local: 'local income tax',
  payroll: 'social security and Medicare',
} as const
