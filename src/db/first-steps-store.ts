// First steps that a person has said are done, or are not for them: what the books themselves cannot tell.
import { z } from 'zod'
import type { Outcome } from '#ledger/problem.ts'
import { type Act, once } from './once.ts'
import type { Books } from './open.ts'
import { readSettingAs, writeSetting } from './settings-store.ts'

const key = 'first-steps'
const stored = z.array(z.string().max(40)).max(100)

export const stepsSaid = (books: Books): ReadonlySet<string> => new Set(read(books).steps)

export const saySteps = (books: Books, act: Act, steps: readonly string[]): Outcome<null> =>
  once(books, act, 'first-steps.say', steps, () => {
    const { steps: before, revision } = read(books)
    const saved = writeSetting(books, act, key, [...new Set([...before, ...steps])], revision)
    return saved.ok ? { ok: true, result: null } : saved
  })

const read = (books: Books): { steps: string[]; revision: number } => {
  const { value, revision } = readSettingAs(books, key, stored)
  return { steps: value ?? [], revision }
}
