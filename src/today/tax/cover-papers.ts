// Forms 1095-A as people entered them, by year: what they say goes before what the plan expects of premiums.
import { z } from 'zod'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import type { CoverPaper } from '#ledger/tax/cover-papers.ts'
import { type Cents, cents } from '#money/cents.ts'

export const coverPapersSetting = 'cover-papers'

const amount = z
  .number()
  .int()
  .min(0)
  .transform((value): Cents => cents(value))

const paper = z.object({
  who: z.string().default(''),
  months: z
    .array(z.object({ premiumCents: amount, benchmarkCents: amount, advanceCents: amount }))
    .length(12),
})

const shape = z.object({ years: z.record(z.string().regex(/^\d{4}$/), z.array(paper)).default({}) })

export const coverPapers = (
  books: Books,
  year: number,
): { papers: readonly CoverPaper[]; revision: number } => {
  const { value, revision } = readSettingAs(books, coverPapersSetting, shape)
  return { papers: value?.years[String(year)] ?? [], revision }
}

/** Saves a year's forms over the revision the page was opened with; what is saved already is saved. */
export const saveCoverPapers = (
  books: Books,
  act: { at: string; actor: string },
  year: number,
  papers: readonly CoverPaper[],
  basedOn: number,
): ReturnType<typeof writeSetting> => {
  const { value, revision } = readSettingAs(books, coverPapersSetting, shape)
  const years = value?.years ?? {}
  const key = String(year)
  const written = JSON.stringify(z.array(paper).parse(papers))
  if (revision !== basedOn && JSON.stringify(years[key] ?? []) === written) return { ok: true, revision }
  return writeSetting(books, act, coverPapersSetting, { years: { ...years, [key]: papers } }, basedOn)
}
