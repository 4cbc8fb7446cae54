// What the papers that came for a year say, by account of the books, so that both can be held against each other.
import { z } from 'zod'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import { type Cents, cents } from '#money/cents.ts'

export const papersSetting = 'papers-received'

const amount = z
  .number()
  .int()
  .transform((value): Cents => cents(value))

const shape = z.object({
  years: z.record(z.string().regex(/^\d{4}$/), z.record(z.string().regex(/^a\d{1,12}$/), amount)).default({}),
})

export const papersReceived = (
  books: Books,
  year: number,
): { amounts: Readonly<Record<string, Cents>>; revision: number } => {
  const { value, revision } = readSettingAs(books, papersSetting, shape)
  return { amounts: value?.years[String(year)] ?? {}, revision }
}

/** Saves a year's papers over the revision the form was opened with; what is saved already is saved. */
export const savePapers = (
  books: Books,
  act: { at: string; actor: string },
  year: number,
  amounts: Readonly<Record<string, Cents>>,
  basedOn: number,
): ReturnType<typeof writeSetting> => {
  const { value, revision } = readSettingAs(books, papersSetting, shape)
  const years = value?.years ?? {}
  const key = String(year)
  if (revision !== basedOn && sameAmounts(years[key] ?? {}, amounts)) return { ok: true, revision }
  return writeSetting(books, act, papersSetting, { years: { ...years, [key]: amounts } }, basedOn)
}

const sameAmounts = (a: Readonly<Record<string, Cents>>, b: Readonly<Record<string, Cents>>): boolean =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])].every((key) => a[key] === b[key])
