// The list of accounts is read once until the books change, since a page asks for it some thirty times.
import { expect, test } from 'vitest'
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { atomically } from '#db/once.ts'
import { farmSide } from '#ledger/account.ts'
import { refuse } from '#ledger/problem.ts'
import { act, freshBooks } from './fresh-books.ts'

const shed = (form: string) =>
  [act(form), { sideId: farmSide, name: 'Walk-in cooler', kind: 'asset' as const }] as const
const hasShed = (books: ReturnType<typeof freshBooks>) =>
  listAccounts(books).some(({ name }) => name === 'Walk-in cooler')

test('it is the same list until an account is added, and then another', () => {
  const books = freshBooks()
  const before = listAccounts(books)
  expect(listAccounts(books)).toBe(before)
  expect(listAccounts(books, { sideId: farmSide })).not.toBe(before)
  expect(addAccount(books, ...shed('form-of-a-shed')).ok).toBe(true)
  expect(listAccounts(books)).toHaveLength(before.length + 1)
  expect(hasShed(books)).toBe(true)
})

test('within a transaction it has what was written there, and nothing of it once that came to nothing', () => {
  const books = freshBooks()
  const seen: boolean[] = [hasShed(books)]
  atomically(books, () => {
    addAccount(books, ...shed('form-of-no-shed'))
    seen.push(hasShed(books))
    return refuse({ path: 'name', message: 'No shed after all' })
  })
  expect([...seen, hasShed(books)]).toEqual([false, true, false])
})
