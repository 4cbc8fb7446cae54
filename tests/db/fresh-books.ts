// New books for a test: an invented farm and household with their start accounts, and short ways to act on them.
import { type Day, day } from '#calendar/day.ts'
import { addSide, type KeptAccount, listAccounts } from '#db/ledger/account-store.ts'
import { type Act, atomically } from '#db/once.ts'
import { type Books, openBooksOrThrow } from '#db/open.ts'
import type { Outcome } from '#ledger/problem.ts'

export interface TestBooks extends Books {
  account(side: string, name: string): KeptAccount
}

/** Tests seal often; only one pays the full cost. */
export const sealCost = { log2N: 10, r: 8, p: 1 }

let forms = 0

export const act = (formId = `form-${++forms}`): Act => ({
  formId,
  at: '2026-01-15T12:00:00.000Z',
  actor: 'test',
})

export const freshBooks = (path = ':memory:'): TestBooks => {
  const books = openBooksOrThrow(path, { now: new Date('2026-01-15T12:00:00Z') })
  done(addSide(books, act(), { kind: 'farm', name: 'Lantern Hollow' }))
  done(addSide(books, act(), { kind: 'household', name: 'The house' }))
  return withAccounts(books)
}

export const withAccounts = (books: Books): TestBooks => ({
  ...books,
  account(side, name) {
    const found = listAccounts(books, { withArchived: true }).find(
      (account) => account.sideId === side && account.name === name,
    )
    if (!found) throw new Error(`No account ${side}/${name}`)
    return found
  },
})

/** Rows written by hand as the program would write them: in one transaction, with its link of the chain. */
export const writeRows = (books: Books, sql: string): void => {
  atomically(books, () => {
    books.sqlite.exec(sql)
    return { ok: true }
  })
}

/** The result of an outcome that must have gone well. */
export const done = <Result>(outcome: Outcome<Result>): Result => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems))
  return outcome.result
}

export const on = (text: string): Day => day(text)
