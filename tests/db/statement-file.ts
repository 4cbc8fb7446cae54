// A bank's file as the reader hands it on, for tests of what happens after. What a test does not tell is as plain as can be.
import { randomUUID } from 'node:crypto'
import type { StatementFile } from '#db/statements/statement-store.ts'
import type { Statement, StatementLine } from '#ledger/statements/statement.ts'

export type ToldLine = Pick<StatementLine, 'day' | 'amount' | 'payee'> & Partial<StatementLine>

/** Each file is another one: its hash is drawn. */
export const statementFile = (
  lines: readonly ToldLine[],
  { closing = null, bankAccount = '', ...file }: ToldFile = {},
): StatementFile => ({
  format: 'csv',
  fileName: 'a.csv',
  contentHash: randomUUID(),
  mappingId: null,
  ...file,
  statement: {
    bankAccount,
    kind: 'bank',
    currency: 'USD',
    closing,
    lines: lines.map((line, at) => ({
      fileLine: at + 1,
      bankNumber: '',
      memo: '',
      checkNumber: '',
      ...line,
    })),
    remarks: [],
  },
})

type ToldFile = Partial<Omit<StatementFile, 'statement'>> &
  Partial<Pick<Statement, 'closing' | 'bankAccount'>>
