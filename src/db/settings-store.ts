// Settings as JSON values under a key, each with a revision so that two people do not overwrite each other.
import { eq, sql } from 'drizzle-orm'
import type { z } from 'zod'
import { type Refusal, savedMeanwhile } from '#ledger/problem.ts'
import { logChange } from './change-log.ts'
import { NotAsSaved } from './file-problem.ts'
import { type Act, atomically } from './once.ts'
import type { Books } from './open.ts'
import { prepared } from './prepared.ts'
import { settings } from './schema-records.ts'

export interface Setting {
  value: unknown
  revision: number
}

/** The stored value and its revision; revision 0 and `undefined` when it was never saved. The caller parses the value. */
export const readSetting = (books: Books, key: string): Setting => {
  const row = prepared(books, 'setting', (db) =>
    db
      .select()
      .from(settings)
      .where(eq(settings.key, sql.placeholder('key')))
      .prepare(),
  ).get({ key })
  return row ? { value: row.value, revision: row.revision } : { value: undefined, revision: 0 }
}

/** As `readSetting`, in the shape it was saved in. A value of another shape was not saved by the program: it throws, and nothing is guessed. */
export const readSettingAs = <Value>(
  books: Books,
  key: string,
  shape: z.ZodType<Value>,
): { value: Value | undefined; revision: number } => {
  const { value, revision } = readSetting(books, key)
  if (revision === 0) return { value: undefined, revision }
  const read = shape.safeParse(value)
  if (!read.success) throw new NotAsSaved(`The setting ${key}`)
  return { value: read.data, revision }
}

/** Saves over the revision the form was opened with; refuses when someone saved in between. */
export const writeSetting = (
  books: Books,
  act: Pick<Act, 'at' | 'actor'>,
  key: string,
  value: unknown,
  basedOn: number,
): { ok: true; revision: number } | Refusal =>
  atomically(books, () => {
    const present = readSetting(books, key)
    if (present.revision !== basedOn) return savedMeanwhile()
    const revision = basedOn + 1
    books.db
      .insert(settings)
      .values({ key, value, revision, updatedAt: act.at })
      .onConflictDoUpdate({ target: settings.key, set: { value, revision, updatedAt: act.at } })
      .run()
    logChange(books, act, {
      kind: 'setting.saved',
      subject: key,
      summary: 'Settings were changed',
      details: { revision },
    })
    return { ok: true, revision }
  })
