// What the bank of a card was said to owe back: without such a word a card's credit never counts as savings.
import { z } from 'zod'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import type { CardCredits } from '#ledger/money-held.ts'
import type { Outcome } from '#ledger/problem.ts'
import { type Cents, cents } from '#money/cents.ts'

const key = 'card-credits'

/** By account id, in cents. */
const stored = z.record(z.string().regex(/^\d+$/), z.number().int().min(0))

export const cardCredits = (books: Books): CardCredits => new Map(entriesOf(books).credits)

/** Up to `owed` the credit of this card counts from now on; 0 takes the word back. */
export const sayCardCredit = (books: Books, act: Act, accountId: number, owed: Cents): Outcome<null> =>
  once(books, act, 'card-credit.say', { accountId, owed }, () => {
    const { credits, revision } = entriesOf(books)
    const said = new Map(credits).set(accountId, owed)
    const saved = writeSetting(books, act, key, Object.fromEntries(said), revision)
    return saved.ok ? { ok: true, result: null } : saved
  })

const entriesOf = (books: Books): { credits: [number, Cents][]; revision: number } => {
  const { value, revision } = readSettingAs(books, key, stored)
  return {
    credits: Object.entries(value ?? {}).map(([id, owed]) => [Number.parseInt(id, 10), cents(owed)]),
    revision,
  }
}
