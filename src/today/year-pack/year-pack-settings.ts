// What people say once a year for the pack: the tax rate on gains not taken, the worth of their own work, what falls due of each loan.
import { z } from 'zod'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import { type Cents, cents } from '#money/cents.ts'

export const packSetting = 'year-pack'

const centsNumber = z
  .number()
  .int()
  .transform((value): Cents => cents(value))

const yearSchema = z
  .object({
    /** Fraction; null leaves deferred tax out. */
    deferredTaxRate: z.number().min(0).max(0.9).nullable().default(null),
    /** Books of before hold it under this spelling. */
    unpaidLabourCents: centsNumber.nullable().default(null),
    /** Books of before hold 0 where nothing was said: see `replaceCents`. */
    replacementCents: centsNumber.optional(),
    /** Null while nobody said. */
    replaceCents: centsNumber.nullable().optional(),
    /** By account id. */
    dueWithinYear: z.record(z.string().regex(/^\d+$/), centsNumber).default({}),
  })
  .transform(({ replacementCents, replaceCents, ...said }) => ({
    ...said,
    replaceCents: replaceCents === undefined ? replacementCents || null : replaceCents,
  }))

const settingSchema = z.object({ years: z.record(z.string().regex(/^\d{4}$/), yearSchema).default({}) })

export type PackYear = z.output<typeof yearSchema>

/** What was said for a year; what is owed within twelve months is not carried over, rate and labor are, until said anew. */
export const packYear = (
  books: Books,
  year: number,
): { saved: PackYear; revision: number; isOwn: boolean } => {
  const setting = readSettingAs(books, packSetting, settingSchema)
  const years = setting.value?.years ?? {}
  const own = years[String(year)]
  if (own) return { saved: own, revision: setting.revision, isOwn: true }
  const earlier = Object.keys(years)
    .filter((key) => Number(key) < year)
    .sort()
    .at(-1)
  const base = earlier ? years[earlier]! : yearSchema.parse({})
  return { saved: { ...base, dueWithinYear: {} }, revision: setting.revision, isOwn: false }
}

/** Saves one year over the revision the form was opened with. */
export const savePackYear = (
  books: Books,
  act: { at: string; actor: string },
  year: number,
  said: PackYear,
  basedOn: number,
): ReturnType<typeof writeSetting> => {
  const years = readSettingAs(books, packSetting, settingSchema).value?.years ?? {}
  return writeSetting(books, act, packSetting, { years: { ...years, [String(year)]: said } }, basedOn)
}
