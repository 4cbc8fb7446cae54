// Who works at which browser, in their own words: asked once per browser, shown wherever it is said who did something.
import { z } from 'zod'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import type { Outcome } from '#ledger/problem.ts'

const key = 'browser.names'
const shape = z.record(z.string(), z.string())

const namesOf = (books: Books) => readSettingAs(books, key, shape)

/** The name given at this browser; empty when none was. */
export const nameAt = (books: Books, browser: string): string => namesOf(books).value?.[browser] ?? ''

/** For whoever did something: a name, or what is known. `own` is the browser that asks. */
export const whoDid = (books: Books, own: string): ((actor: string) => string) => {
  const names = namesOf(books).value ?? {}
  return (actor) =>
    names[actor] ||
    (actor === own ? 'This browser' : actor.startsWith('browser-') ? 'Another browser' : actor)
}

/** The name of the one at the browser that asks; an empty one takes it away. */
export const saveName = (books: Books, act: Act, name: string): Outcome<null> =>
  once(books, act, 'browser.name', { name }, () => {
    const { value, revision } = namesOf(books)
    const saved = writeSetting(books, act, key, { ...value, [act.actor]: name }, revision)
    return saved.ok ? { ok: true, result: null } : saved
  })
