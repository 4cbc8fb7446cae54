// What went into retirement and health savings for a year: the sums by line of the return, and each amount with the year it is for.
import { dayName } from '#calendar/day.ts'
import type { SavingMove, SavingReading } from '#ledger/tax/saving-move.ts'
import { savingUses } from '#ledger/tax/tax-use.ts'
import { formatCents, formatDollarsAndCents } from '#money/format.ts'
import { anyOf } from '#money/lists.ts'
import type { SavedSums } from '#today/tax/saved-for.ts'
import { EmptyState } from '../parts/message.tsx'
import type { InputForm } from '../year-pack/inputs-shape.ts'
import { MoveFields, type MovesForm, MovesPage } from './moves-page.tsx'

export interface SavingRow {
  move: SavingMove
  readings: readonly [SavingReading, ...SavingReading[]]
}

interface ContributionsProps extends MovesForm {
  rows: readonly SavingRow[]
  sums: SavedSums
}

export const ContributionsPage = ({ rows, sums, ...moves }: ContributionsProps) => (
  <MovesPage
    {...moves}
    title={`Contributions for ${moves.year}`}
    purpose="The books say when money went in; up to the day of the return it may be for the year before. Say which."
    at="/year-pack/contributions"
    empty={
      rows.length > 0 ? null : (
        <EmptyState href="/settings/accounts" action="Look at the accounts">
          Nothing went into retirement or health savings in {moves.year}. Accounts whose kind of savings is
          chosen need nothing here.
        </EmptyState>
      )
    }
    sums={<Sums sums={sums} />}
    after={
      sums.atWork === 0 ? null : (
        <p>
          {formatDollarsAndCents(sums.atWork)} was taken off pay for plans at work. It is of the pay’s own
          year and on none of these lines: what went into traditional savings is in no wages.
        </p>
      )
    }
    askWhom="who keeps the account, or a licensed tax preparer"
    caution="What they report for the year is what counts."
  >
    {rows.map((row) => (
      <Contribution row={row} form={moves.form} />
    ))}
  </MovesPage>
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

const sumRows: readonly (readonly [string, (sums: SavedSums) => number])[] = [
  ['Traditional IRAs, Schedule 1 line 20', ({ traditionalIra }) => traditionalIra],
  ['SEP, SIMPLE and solo 401(k), Schedule 1 line 16', ({ own }) => own.sep + own.simple + own.solo401k],
  ['Health savings accounts, Schedule 1 line 13', ({ hsa }) => hsa],
  ['Roth IRAs, not deducted', ({ rothIra }) => rothIra],
]

const Contribution = ({ row: { move, readings }, form }: { row: SavingRow; form: InputForm }) => (
  <MoveFields
    form={form}
    row={`s.m${move.postingId}`}
    legend={
      <>
        {dayName(move.day)}: {formatCents(move.amountCents)} into {move.account}
        {move.memo ? <span class="pack-note"> {move.memo}</span> : null}
      </>
    }
    asked={
      readings.length > 1
        ? `For ${anyOf(readings.map(({ taxYear }) => String(taxYear)))}: both fit. Say which it was.`
        : ''
    }
    uses={savingUses}
    words={useWords}
  />
)

const useWords = {
  contribution: 'contribution',
  rollover: 'from another such account (rollover)',
} as const satisfies Record<SavingReading['use'], string>
