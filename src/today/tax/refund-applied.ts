// What of a year's refund was applied to the estimated tax of the next year: no money moves, so the books cannot tell it, and people say it.
import { z } from 'zod'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { keptUntilChange } from '#today/kept.ts'
import { type ReturnKind, returnKinds } from './return-kinds.ts'

export const appliedSetting = 'refund-applied'

export type RefundApplied = Readonly<Record<ReturnKind, Cents>>

export const nothingApplied: RefundApplied = { federal: zeroCents, state: zeroCents, local: zeroCents }

const amount = z
  .number()
  .int()
  .min(0)
  .transform((value): Cents => cents(value))
  .default(zeroCents)

const shape = z.object({
  /** By the year of the return that would have given it back. */
  years: z
    .record(z.string().regex(/^\d{4}$/), z.object({ federal: amount, state: amount, local: amount }))
    .default({}),
})

/** Of the return of `year`: line 36 of it, and part of line 26 of the next one. */
export const refundApplied = (books: Books, year: number): { applied: RefundApplied; revision: number } => {
  const { years, revision } = keptUntilChange(books, 'refunds applied', () => {
    const { value, revision } = readSettingAs(books, appliedSetting, shape)
    return { years: value?.years ?? {}, revision }
  })
  return { applied: years[String(year)] ?? nothingApplied, revision }
}

/** Saves a year over the revision the form was opened with; what is saved already is saved. */
export const saveRefundApplied = (
  books: Books,
  act: { at: string; actor: string },
  year: number,
  applied: RefundApplied,
  basedOn: number,
): ReturnType<typeof writeSetting> => {
  const { value, revision } = readSettingAs(books, appliedSetting, shape)
  const years = value?.years ?? {}
  const known = years[String(year)] ?? nothingApplied
  if (revision !== basedOn && returnKinds.every((to) => known[to] === applied[to]))
    return { ok: true, revision }
  return writeSetting(books, act, appliedSetting, { years: { ...years, [String(year)]: applied } }, basedOn)
}
