// The doorway of every write: carried out once per form id, whoever sends it and however often.
import { expect, test } from 'vitest'
import { once } from '#db/once.ts'
import { refuse } from '#ledger/problem.ts'
import { act, freshBooks } from './fresh-books.ts'

test('the same form again is the same success; under its id, other content or another kind of change is a conflict', () => {
  const books = freshBooks()
  let worked = 0
  const send = (kind: string, body: object) =>
    once(books, act('form-of-today'), kind, body, () => {
      worked += 1
      return { ok: true, result: { no: worked } }
    })
  expect(send('fence.mend', { posts: 3 })).toEqual({ ok: true, result: { no: 1 }, repeated: false })
  expect(send('fence.mend', { posts: 3 })).toEqual({ ok: true, result: { no: 1 }, repeated: true })
  expect(send('fence.mend', { posts: 4 })).toMatchObject({ ok: false, kind: 'conflict' })
  expect(send('fence.sell', { posts: 3 })).toMatchObject({ ok: false, kind: 'conflict' })
  expect(worked).toBe(1)
})

test('what was refused can be sent again under its id, put right or not', () => {
  const books = freshBooks()
  const send = (posts: number) =>
    once(books, act('form-of-noon'), 'fence.mend', { posts }, () =>
      posts > 0 ? { ok: true, result: posts } : refuse({ path: 'posts', message: 'Enter how many posts' }),
    )
  expect([send(0).ok, send(0).ok]).toEqual([false, false])
  expect(send(2)).toEqual({ ok: true, result: 2, repeated: false })
})
