// Books of an invented farm and house with the first half of a mixed year sorted, and as many transactions waiting as are asked for.
import { day } from '#calendar/day.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { type Books, openBooksOrThrow } from '#db/open.ts'
import { findWaitingLines } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { type MadeLine, mixedYear } from '../ledger/statements/mixed-year.ts'

const at = '2026-12-31T12:00:00Z'
let forms = 0
const act = () => ({ formId: `desk-${++forms}`, at, actor: 'bench' })

export const deskBooks = (waiting: number, path = ':memory:'): Books => {
  const books = openBooksOrThrow(path, { now: new Date(at) })
  fillDesk(books, waiting)
  return books
}

/** The same in books that are empty. */
export const fillDesk = (books: Books, waiting: number): void => {
  for (const kind of ['farm', 'household'] as const) addSide(books, act(), { kind, name: kind })
  const year = mixedYear(1)
  readIn(books, year.slice(0, 6).flat())
  sortAll(books, year.slice(0, 6).flat())
  const more = [2, 3, 4, 5].flatMap((seed) => mixedYear(seed).flat())
  readIn(books, [...year.slice(6).flat(), ...more].slice(0, waiting))
}

const accountOf = (books: Books, name: string): number =>
  listAccounts(books).find((account) => account.name === name)!.id

const readIn = (books: Books, made: readonly MadeLine[]): void => {
  for (const account of ['Farm checking', 'Household checking'] as const) {
    const lines = made
      .filter((line) => line.account === account)
      .map((line, index) => ({
        fileLine: index + 1,
        bankNumber: `${forms}-${index}`,
        day: line.day,
        amount: cents(line.cents),
        payee: line.text,
        memo: '',
        checkNumber: '',
      }))
    const read = importStatement(
      books,
      act(),
      accountOf(books, account),
      {
        format: 'ofx',
        fileName: 'year.ofx',
        contentHash: `hash-${forms}`,
        statement: { bankAccount: '', kind: 'bank', currency: 'USD', closing: null, lines, remarks: [] },
        mappingId: null,
      },
      day('2026-12-31'),
    )
    if (!read.ok) throw new Error('The year cannot be read in')
  }
}

/** As each truly is. */
const sortAll = (books: Books, made: readonly MadeLine[]): void => {
  const ids = books.sqlite.prepare('SELECT id FROM statement_lines ORDER BY id').pluck().all() as number[]
  const truths = new Map(made.map((line) => [`${line.day}|${line.cents}|${line.text}`, line.truth]))
  const sortings = findWaitingLines(books, ids).map((line) => ({
    lineId: line.id,
    kind: 'target' as const,
    target: {
      kind: 'account' as const,
      accountId: accountOf(books, truths.get(`${line.day}|${line.amount}|${line.payee}`)!),
      enterpriseId: null,
    },
  }))
  const sorted = sortLines(books, act(), sortings)
  if (!sorted.ok) throw new Error(sorted.problems[0]!.message)
}
