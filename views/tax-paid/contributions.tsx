// What went into retirement and health savings for a year: the sums by line of the return, and each amount with the year it is for.
import { dayName } from '#calendar/day.ts'
import type { SavingMove, SavingReading } from '#ledger/tax/saving-move.ts'
import { savingUses } from '#ledger/tax/tax-use.ts'
import { formatCents, formatDollarsAndCents } from '#money/format.ts'
import type { SavedFor } from '#today/tax/saved-for.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, FormId, fieldOf, Hidden, Select } from '../parts/field.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import type { InputForm } from '../year-pack/inputs-shape.ts'

export interface SavingRow {
  move: SavingMove
  readings: readonly [SavingReading, ...SavingReading[]]
}

interface ContributionsProps {
  year: number
  rows: readonly SavingRow[]
  sums: SavedFor
  form: InputForm
  formId: string
}

export const ContributionsPage = ({ year, rows, sums, form, formId }: ContributionsProps) => (
  <>
    <PageTitle purpose="The books say when money went in; up to the day of the return it may be for the year before. Say which.">
      Contributions for {year}
    </PageTitle>
    <ErrorSummary errors={form.errors} />
    <p>
      <a href={`/year-pack?year=${year}`}>Back to the year pack</a>
    </p>
    {rows.length === 0 ? (
      <EmptyState href="/settings/accounts" action="Look at the accounts">
        Nothing went into retirement or health savings in {year}. Accounts that say which kind of savings they
        are tell it by themselves.
      </EmptyState>
    ) : (
      <>
        <Sums sums={sums} />
        <Caution askWhom="who keeps the account, or a licensed tax preparer">
          What they report for the year is what counts.
        </Caution>
        <form method="post" class="pack-form" action={`/year-pack/contributions?year=${year}`}>
          <FormId value={form.typed.value('formId') || formId} />
          <Hidden name="basedOn" value={form.typed.value('basedOn')} />
          {rows.map((row) => (
            <Contribution row={row} form={form} />
          ))}
          <OverClosed typed={form.typed} errors={form.errors} />
          <ButtonRow>
            <Button>Save</Button>
          </ButtonRow>
        </form>
      </>
    )}
  </>
)

const Sums = ({ sums }: Pick<ContributionsProps, 'sums'>) => (
  <table class="pack-table">
    <caption class="hidden-text">Put in for the year, by where it goes on the return</caption>
    <tbody>
      {sumRows.map(([name, of]) => (
        <tr>
          <th scope="row">{name}</th>
          <td class="number">{formatDollarsAndCents(of(sums))}</td>
        </tr>
      ))}
    </tbody>
  </table>
)

const sumRows: readonly (readonly [string, (sums: SavedFor) => number])[] = [
  ['Traditional IRAs, Schedule 1 line 20', ({ traditionalIra }) => traditionalIra],
  ['SEP, SIMPLE and solo 401(k), Schedule 1 line 16', ({ own }) => own.sep + own.simple + own.solo401k],
  ['Health savings accounts, Schedule 1 line 13', ({ hsa }) => hsa],
  ['Roth IRAs, not deducted', ({ rothIra }) => rothIra],
]

const Contribution = ({ row: { move, readings }, form }: { row: SavingRow; form: InputForm }) => {
  const name = (part: string) => `s.m${move.postingId}.${part}`
  return (
    <fieldset>
      <legend>
        {dayName(move.day)}: {formatCents(move.amountCents)} into {move.account}
        {move.memo ? <span class="pack-note"> {move.memo}</span> : null}
      </legend>
      {readings.length > 1 ? (
        <p class="notice">
          For {readings.map(({ taxYear }) => taxYear).join(' or ')}: both fit. Say which it was.
        </p>
      ) : null}
      <div class="field-row">
        <Select
          {...fieldOf(form, name('use'))}
          label="Counts as"
          options={savingUses.map((value) => ({ value, label: useWords[value] }))}
        />
        <Field {...fieldOf(form, name('year'))} label="For the year" inputmode="numeric" maxlength={4} />
      </div>
    </fieldset>
  )
}

const useWords = {
  contribution: 'contribution',
  rollover: 'from another such account (rollover)',
} as const satisfies Record<SavingReading['use'], string>
