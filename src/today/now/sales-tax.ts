// When the state wants its sales tax: as said once, since each seller has a period and a day of their own.
import { z } from 'zod'
import { listAccounts } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import { type SalesTaxDue, salesTaxPeriods } from '#rules/due/business-dates.ts'

export const salesTaxSetting = 'sales-tax'

const shape = z
  .object({ every: z.enum(salesTaxPeriods), dayOfMonth: z.number().int().min(1).max(31) })
  .nullable()

export const salesTaxSaid = (books: Books): { due: SalesTaxDue | null; revision: number } => {
  const { value, revision } = readSettingAs(books, salesTaxSetting, z.object({ due: shape }))
  return { due: value?.due ?? null, revision }
}

/** Over the revision the form was opened with; what is saved already is saved. */
export const saySalesTax = (
  books: Books,
  act: { at: string; actor: string },
  due: SalesTaxDue | null,
  basedOn: number,
): ReturnType<typeof writeSetting> => {
  const now = salesTaxSaid(books)
  const isSame = now.due?.every === due?.every && now.due?.dayOfMonth === due?.dayOfMonth
  if (now.revision !== basedOn && isSame) return { ok: true, revision: now.revision }
  return writeSetting(books, act, salesTaxSetting, { due }, basedOn)
}

/** Whether an account of farm or ventures collects it. */
export const collectsSalesTax = (books: Books): boolean =>
  listAccounts(books).some(
    ({ kind, taxKind, archivedAt }) => kind === 'liability' && taxKind === 'sales' && archivedAt === null,
  )
