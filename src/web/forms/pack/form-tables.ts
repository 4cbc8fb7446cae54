// Schedule F and Schedule C as CSV: each line with its amount, and the accounts it is made of.
import type { ReportLine } from '#ledger/reports/book-year.ts'
import type { FormBridge } from '#ledger/reports/form-bridge.ts'
import { type FormRow, scheduleFRows } from '#ledger/reports/form-rows.ts'
import { centsToDecimalText } from '#money/format.ts'
import type { YearPackFigures } from '#today/year-pack/figures.ts'
import { bridgeRows } from '#views/year-pack/bridge-part.tsx'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'

export const scheduleFTable = ({ scheduleF, farmForm }: YearPackFigures, farmName: string): CsvTable => {
  const each = farmForm?.each ?? null
  const owners = each ? farmForm!.owners : []
  const rows = scheduleFRows(scheduleF!, each)
  const { header, rows: cells } = formTable(rows, scheduleF!.beside)
  return {
    header: [...header, ...owners, 'note'],
    rows: cells.map((row, i) => {
      const at = rows[i]
      const own = owners.map((_, k) => (at?.owners ? centsToDecimalText(at.owners[k]!) : ''))
      const named = at?.line === '34' ? [...row.slice(0, 3), farmName] : row
      return [...named, ...own, at?.note ?? '']
    }),
  }
}

export const formTable = (rows: readonly FormRow[], beside: readonly ReportLine[]): CsvTable => ({
  header: ['line', 'what', 'amount', 'accounts'],
  rows: [
    ...rows.map(({ line, label, amountCents, accounts }) => [
      line,
      label,
      centsToDecimalText(amountCents),
      accounts.map((one) => `${one.name} ${centsToDecimalText(one.amountCents)}`).join('; '),
    ]),
    ...beside.map(({ label, amountCents }) => ['beside', label, centsToDecimalText(amountCents), '']),
  ],
})

/** From the net income of the books to the profit of a form. */
export const bridgeTable = (bridge: FormBridge, line: string): CsvTable =>
  tableOf(bridgeRows(bridge, line), {
    part: (row) => row.part,
    what: (row) => row.label,
    amount: (row) => centsToDecimalText(row.amountCents),
    note: (row) => row.note,
  })

/** What a form asks and people said, a question a row. */
export const answersTable = (
  rows: readonly (readonly [line: string, asked: string, answer: string | null])[],
): CsvTable => ({
  header: ['line', 'asked', 'answer'],
  rows: rows.map(([line, asked, answer]) => [line, asked, answer ?? '']),
})
