// The fields of one thing of the inventory: as they are read, and as they show what is kept.
import { z } from 'zod'
import { lastDayOfYear } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { holdingValuesOf } from '#db/year/holding-values.ts'
import type { HoldingDraft } from '#db/year-store.ts'
import { valueOn } from '#ledger/reports/market-values.ts'
import { type Holding, holdingKinds } from '#ledger/reports/stock-inventory.ts'
import { cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { assetClasses, type FarmAssetClass } from '#rules/depreciation/recovery.ts'
import {
  bookedDay,
  bookedDayOrNull,
  checkbox,
  choice,
  formIdField,
  moneyOrNull,
  optionalText,
  percentOrNull,
  quantity,
  requiredText,
} from '#web/forms/fields.ts'

const classNames = Object.keys(assetClasses) as [FarmAssetClass, ...FarmAssetClass[]]

export const holdingForm = z.object({
  formId: formIdField(),
  side: optionalText(80),
  name: requiredText('Give it a name, like walking tractor', 120),
  kind: choice(holdingKinds, 'Choose a kind'),
  quantity: quantity(),
  unit: optionalText(30),
  raised: checkbox(),
  cost: moneyOrNull(),
  acquiredDay: bookedDay(),
  inServiceDay: bookedDayOrNull(),
  account: z.string().regex(/^\d{0,12}$/, { error: 'Choose an account from the list' }),
  assetClass: z.union([z.literal(''), z.enum(classNames)], { error: 'Choose a class from the list' }),
  section179: moneyOrNull(),
  bonus: checkbox(),
  takesPlaceOf: optionalText(80),
  returned: moneyOrNull(),
  returnedThrough: z
    .string()
    .regex(/^(\d{4})?$/, { error: 'Enter a year, like 2024' })
    .default(''),
  use: z
    .record(
      z.string().regex(/^y\d{4}$/),
      percentOrNull().refine((share) => share === null || (share >= 0 && share <= 1), {
        error: 'Enter a percentage from 0 to 100, like 60',
      }),
    )
    .default({}),
  marketValue: moneyOrNull(),
  valuedDay: bookedDayOrNull(),
  disposedDay: bookedDayOrNull(),
  disposedFor: moneyOrNull(),
})

export const draftOf = (read: z.output<typeof holdingForm>): HoldingDraft => ({
  name: read.name,
  kind: read.kind,
  quantity: read.quantity,
  unit: read.unit,
  raised: read.raised,
  costCents: read.cost ?? cents(0),
  acquiredDay: read.acquiredDay,
  inServiceDay: read.inServiceDay,
  accountId: read.account === '' ? null : Number.parseInt(read.account, 10),
  depreciation:
    read.assetClass === ''
      ? null
      : {
          assetClass: read.assetClass,
          section179Cents: read.section179 ?? cents(0),
          bonus: read.bonus,
          ...sharesOf(read.use),
          ...(read.takesPlaceOf === '' ? {} : { takesPlaceOf: read.takesPlaceOf }),
        },
  writtenOffBefore:
    read.returned === null || read.returnedThrough === ''
      ? null
      : { amountCents: read.returned, through: Number(read.returnedThrough) },
  marketValueCents: read.marketValue,
  valuedDay: read.valuedDay,
  disposedDay: read.disposedDay,
  disposedForCents: read.disposedFor,
})

/** Nothing where no year is named: all of the use is business. */
const sharesOf = (use: z.output<typeof holdingForm>['use']) => {
  const told = Object.entries(use).flatMap(([key, share]) => (share === null ? [] : [[key.slice(1), share]]))
  return told.length === 0 ? {} : { useShares: Object.fromEntries(told) as Record<string, number> }
}

export const textOf = (books: Books, holding: Holding): Record<string, string> => {
  const newest = valueOn(holdingValuesOf(books, null).get(holding.id) ?? [], lastOfDays)
  const amount = (value: Holding['marketValueCents']) => (value === null ? '' : centsToDecimalText(value))
  return {
    name: holding.name,
    kind: holding.kind,
    quantity: String(holding.quantity),
    unit: holding.unit,
    raised: holding.raised ? 'yes' : '',
    cost: centsToDecimalText(holding.costCents),
    acquiredDay: holding.acquiredDay,
    inServiceDay: holding.inServiceDay ?? '',
    account: holding.accountId === null ? '' : String(holding.accountId),
    assetClass: holding.depreciation?.assetClass ?? '',
    section179: amount(holding.depreciation?.section179Cents ?? null),
    bonus: holding.depreciation?.bonus ? 'yes' : '',
    takesPlaceOf: holding.depreciation?.takesPlaceOf ?? '',
    returned: amount(holding.writtenOffBefore?.amountCents ?? null),
    returnedThrough: String(holding.writtenOffBefore?.through ?? ''),
    ...Object.fromEntries(
      Object.entries(holding.depreciation?.useShares ?? {}).map(([year, share]) => [
        `use.y${year}`,
        String(Math.round(share * 10_000) / 100),
      ]),
    ),
    marketValue: amount(newest?.amountCents ?? holding.marketValueCents),
    valuedDay: newest?.day ?? '',
    disposedDay: holding.disposedDay ?? '',
    disposedFor: amount(holding.disposedForCents),
  }
}

const lastOfDays = lastDayOfYear(9999)
