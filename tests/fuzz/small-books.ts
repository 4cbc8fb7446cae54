// Small books with rows in every table, for what must read or copy all of them.

import fc from 'fast-check'
import { month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { addAttachment } from '#db/ledger/attachment-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { savePlan } from '#db/plan-store.ts'
import { closeMonth, reopenMonth } from '#db/reconcile/closing-store.ts'
import { changeTicks, finishReconciliation, startReconciliation } from '#db/reconcile/reconcile-store.ts'
import { recordSaying } from '#db/runway-history-store.ts'
import { writeSetting } from '#db/settings-store.ts'
import { rememberMapping } from '#db/statements/mapping-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { saveRule } from '#db/statements/sorting-rule-store.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { addAccrual, saveHolding, saveMarketValues } from '#db/year-store.ts'
import { moneyIn } from '#ledger/simple-entry.ts'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'
import { cents } from '#money/cents.ts'
import { anyCommand, carryOut } from '../db/commands.ts'
import { act, done, freshBooks, on, type TestBooks } from '../db/fresh-books.ts'
import { statementFile } from '../db/statement-file.ts'

export const receipt = Buffer.from('%PDF-1.4 a receipt for row cover')

export const smallBooks = (path: string, attachments: string): TestBooks => {
  const books = freshBooks(path)
  reconcileOne(books)
  const commands = fc.sample(anyCommand, { seed: 11, numRuns: 16 }).filter((one) => one.do !== 'close')
  carryOut(books, listAccounts(books), commands)
  readStatement(books)
  const entryId = books.sqlite.prepare('SELECT id FROM entries ORDER BY no').pluck().get() as string
  done(addAttachment(books, act(), attachments, { entryId, fileName: 'cover.pdf', bytes: receipt }))
  fillYear(books)
  fillPlans(books)
  const closed = done(
    closeMonth(
      books,
      act(),
      {
        sideId: 'household',
        month: month(2023, 1),
        note: '',
        overBegun: [books.account('household', 'Savings').id],
      },
      on('2026-03-01'),
    ),
  )
  done(reopenMonth(books, act(), closed.closingId, 'forgot the stamps'))
  done(closeMonth(books, act(), { sideId: 'farm', month: month(2023, 1), note: '' }, on('2026-03-01')))
  return books
}

const reconcileOne = (books: TestBooks): void => {
  const savings = books.account('household', 'Savings').id
  const head = { id: '', sideId: 'household' as const, day: on('2023-01-05'), payee: 'Opening', memo: '' }
  const income = listAccounts(books).find((one) => one.sideId === 'household' && one.kind === 'income')!
  done(postEntry(books, act(), moneyIn(head, savings, [{ accountId: income.id, amountCents: cents(5000) }])))
  const draft = { accountId: savings, statementDay: on('2023-01-31'), statementBalanceCents: cents(5000) }
  const { reconciliationId } = done(startReconciliation(books, act(), draft))
  const posting = books.sqlite.prepare('SELECT id FROM postings WHERE account_id = ?').pluck().get(savings)
  done(changeTicks(books, reconciliationId, { tick: [posting as number], untick: [] }))
  done(finishReconciliation(books, act(), reconciliationId))
  done(startReconciliation(books, act(), { ...draft, statementDay: on('2023-02-28') }))
}

const readStatement = (books: TestBooks): void => {
  const checking = books.account('farm', 'Farm checking').id
  const opened = openBankFile(Buffer.from('Date,What,Amount\n01/25/2026,Feed,-12.50\n'))
  if (!opened.ok || opened.format !== 'csv') throw new Error('The statement was not read')
  const { header, guess } = opened.sketch
  const mappingId = rememberMapping(books, act(), checking, header, guess)
  const lines = ['Hollow Feed', 'Market', 'Draw', 'Bank'].map((payee, at) => ({
    fileLine: at + 2,
    bankNumber: `n${at}`,
    day: on(`2026-01-0${at + 2}`),
    amount: cents(at === 1 ? 9900 : -1200 - at),
    payee,
  }))
  const file = statementFile(lines, { fileName: 'january.csv', contentHash: 'c1', mappingId })
  done(importStatement(books, act(), checking, file, on('2026-12-31')))
  const [first, second] = sortingDesk(books).lines
  const target = { kind: 'account' as const, accountId: books.account('farm', 'Feed').id, enterpriseId: null }
  done(
    sortLines(books, act(), [
      { lineId: first!.line.id, kind: 'target', target },
      { lineId: second!.line.id, kind: 'ignore', note: 'seen' },
    ]),
  )
  done(
    saveRule(books, act(), null, {
      matchKind: 'contains',
      matchText: 'hollow',
      onAccountId: checking,
      sign: 'out',
      minimum: null,
      maximum: null,
      target,
      priority: 0,
    }),
  )
}

const fillYear = (books: TestBooks): void => {
  const checking = books.account('farm', 'Farm checking').id
  done(saveMarketValues(books, act(), on('2025-12-31'), [{ accountId: checking, amountCents: cents(777) }]))
  done(
    addAccrual(books, act(), 'farm', 2025, {
      kind: 'inventory',
      name: 'Garlic',
      amountCents: cents(90),
    } as never),
  )
  done(
    saveHolding(books, act(), 'farm', {
      kind: 'equipment',
      name: 'Walking tractor',
      quantity: 1,
      unit: '',
      accountId: null,
      acquiredDay: on('2024-04-01'),
      inServiceDay: on('2024-04-01'),
      raised: false,
      costCents: cents(420_000),
      depreciation: null,
      marketValueCents: cents(300_000),
    }),
  )
}

const fillPlans = (books: TestBooks): void => {
  const plan = { planId: 'plan', name: 'Ours', schemaVersion: 1, document: { startMonth: '2026-01' } }
  savePlan(books, act(), { ...plan, basedOn: 0 })
  savePlan(books, act(), { ...plan, basedOn: 1, document: { startMonth: '2026-02' } })
  writeSetting(books, act(), 'people', { names: ['Ash', 'Birch'] }, 0)
  recordSaying(books, act(), {
    month: month(2026, 1),
    monthsLeft: 40,
    monthsLeftWithoutDraws: 22,
    carryMonth: null,
    floorMonth: null,
    spendableCents: cents(9_000_000),
    planId: 'plan',
    planRevisionNo: 1,
    isOfClosing: false,
    expected: [],
  })
}
