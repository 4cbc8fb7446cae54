// What habits are told from is read once a line: after whatever was done, it must be what a whole reading finds, and in its order.
import { expect, test } from 'vitest'
import { changePurpose } from '#db/acts/entry-purpose.ts'
import { atomically } from '#db/once.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { earlierLines, sortingHistory } from '#db/statements/sorting-history.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { listActs, undoChange } from '#db/undo.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on } from './fresh-books.ts'
import { statementFile } from './statement-file.ts'

test('lines read before and lines read anew say what a whole reading says, by booking, correction, undo and what came to nothing', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  const to = (name: string): Sorting => ({
    lineId: sortingDesk(books).lines[0]!.line.id,
    kind: 'target',
    target: { kind: 'account', accountId: books.account('farm', name).id, enterpriseId: null },
  })
  const payees = ['MILL', 'VET', 'MILL', 'FERRY', 'MILL']
  const lines = payees.map((payee, at) => ({
    bankNumber: `n${at}`,
    day: on(`2026-01-0${at + 1}`),
    amount: cents(-100 - at),
    payee,
  }))
  done(importStatement(books, act(), checking, statementFile(lines), on('2026-02-01')))
  const whole = () =>
    sortingHistory(books).flatMap(({ id: _, payee: __, went, ...line }) =>
      went === null ? [] : [{ ...line, went }],
    )
  const agrees = () => {
    const read = earlierLines(books)
    expect(read).toEqual(whole())
    return read
  }
  expect(agrees()).toEqual([])
  const sort = (sorting: Sorting) => sortLines(books, act(), [sorting])
  done(sort(to('Feed')))
  const [first] = agrees()
  done(sort(to('Supplies')))
  const second = agrees()
  // The one that stands as it stood is the same object again.
  expect(second).toHaveLength(2)
  expect(second[1]).toBe(first)

  // Booked, read and rolled back: its posting's number goes to another one.
  atomically(books, () => {
    done(sort(to('Fuel and oil')))
    expect(agrees()).toHaveLength(3)
    return { ok: false as const }
  })
  expect(agrees()).toHaveLength(2)
  done(sort(to('Seeds and plants')))
  expect(agrees()[0]!.went).toMatchObject({ accountId: books.account('farm', 'Seeds and plants').id })

  const entryNo = books.sqlite
    .prepare(
      'SELECT p.entry_no FROM statement_lines AS l JOIN postings AS p ON p.id = l.posting_id WHERE l.amount_cents = -100',
    )
    .pluck()
    .get() as number
  const parts = [{ accountId: books.account('farm', 'Veterinary, breeding, medicine').id, size: cents(100) }]
  done(changePurpose(books, act(), entryNo, parts, on('2026-02-01')))
  expect(agrees().at(-1)!.went).toMatchObject({ accountId: parts[0]!.accountId })

  const sorted = listActs(books).find(({ kind }) => kind === 'lines.sorted')!
  done(undoChange(books, act(), sorted.id, on('2026-02-01')))
  expect(agrees()).toHaveLength(2)
})
