// What a farm buys, pays whatever is grown, and has room for, as the plan writes it.
import { z } from 'zod'
import type { FarmAssetClass } from '#rules/data/depreciation.ts'
import { assetClasses as farmAssets, takesBonus, takesSection179 } from '#rules/depreciation/recovery.ts'
import { amount, dollars, ends, id, name, share, starts } from './document-fields.ts'
import { levelSchema, monthTextSchema, seasonalSchema } from './seasonal.ts'

/** Heading of what a purchase gives, beside which its totals stand. */
export const purchaseDoes = 'What it does'

/** Classes of the federal depreciation tables (`#rules/depreciation`), plus land (never) and supplies (deducted when bought). */
export const assetClasses = [
  'machinery-new',
  'machinery-used',
  'fence-or-grain-bin',
  'cotton-ginning',
  'single-purpose-structure',
  'orchard-or-vineyard',
  'farm-building',
  'land-improvement',
  'cattle',
  'hogs',
  'sheep-or-goats',
  'horses-to-12-years',
  'horses-over-12-years',
  'vehicle',
  'suv',
  'pickup',
  'heavy-truck-or-trailer',
  'road-tractor',
  'computer',
  'tenant-house',
  'land',
  'supplies',
] as const satisfies readonly (FarmAssetClass | 'land' | 'supplies')[]

const classLabels = {
  ...Object.fromEntries(Object.entries(farmAssets).map(([key, { label }]) => [key, label])),
  land: 'Land',
  supplies: 'Supplies',
}

/** A purchase out of the farm's own cash. Listed order is the order in which 'when cash allows' ones are bought. */
export const purchaseSchema = z
  .object({
    id,
    name: name.meta({ title: 'What', group: 'The purchase' }),
    cost: dollars.meta({ title: 'Cost', told: 'dollars once', group: 'The purchase' }),
    timing: z
      .enum(['dated', 'when cash allows'])
      .default('dated')
      .meta({
        title: 'When',
        labels: { dated: 'On its date', 'when cash allows': 'As soon as farm cash allows' },
        group: 'The purchase',
      }),
    month: monthTextSchema.meta({
      title: 'Date, or earliest month',
      description: 'Dated before the plan’s first month: bought already',
      group: 'The purchase',
    }),
    assetClass: z
      .enum(assetClasses)
      .default('machinery-new')
      .meta({ title: 'Depreciation class', labels: classLabels, group: 'Tax' }),
    section179Share: share.default(0).meta({
      title: 'Written off at once under section 179',
      description: 'Share of the cost; the rest follows the class',
      group: 'Tax',
    }),
    bonus: z.boolean().default(false).meta({
      title: 'Bonus depreciation',
      description: 'What section 179 leaves goes at once too, even where it makes a loss',
      group: 'Tax',
    }),
    /** At the plan's first prices. */
    addsCash: seasonalSchema
      .default(0)
      .meta({ title: 'Farm cash it adds in a year, dollars', told: 'dollars a year', group: purchaseDoes }),
    savesHours: seasonalSchema
      .default(0)
      .meta({ title: 'Hours it saves in a year', told: 'hours a year', group: purchaseDoes }),
    worksAfterMonths: z
      .number()
      .int()
      .min(0)
      .max(240)
      .default(0)
      .meta({ title: 'Works after', unit: 'months', group: purchaseDoes }),
    addsCapacity: z
      .object({
        facility: z.string({ error: 'Choose the facility' }).meta({ title: 'Of', names: 'facility' }),
        amount: amount.meta({ title: 'How much', told: 'of the facility’s units' }),
      })
      .optional()
      .meta({ title: 'Room it adds', description: 'From the month it works', group: purchaseDoes }),
    for: z.string().optional().meta({
      title: 'Bought for',
      description: 'Counts in the payback of this enterprise',
      names: 'enterprise or herd',
      group: purchaseDoes,
    }),
    usefulYears: z
      .number()
      .min(1)
      .max(60)
      .default(10)
      .meta({ title: 'Lasts', unit: 'years', group: purchaseDoes }),
    valueAtEnd: dollars
      .default(0)
      .meta({ title: 'Worth at the end', told: 'dollars once', group: purchaseDoes }),
  })
  .refine((one) => one.section179Share === 0 || takesSection179(one.assetClass), {
    error: 'Land, supplies and buildings are not written off under section 179: leave 0',
    path: ['section179Share'],
  })
  .refine((one) => !one.bonus || takesBonus(one.assetClass), {
    error: 'Land, supplies and tenant houses take no bonus depreciation: leave it out',
    path: ['bonus'],
  })

export const overheadSchema = z.object({
  id,
  name: name.meta({ title: 'Name' }),
  costs: seasonalSchema.default(0).meta({ title: 'Costs in a year, dollars', told: 'dollars a year' }),
  hours: seasonalSchema.default(0).meta({ title: 'Hours in a year', told: 'hours a year' }),
  start: starts,
  end: ends,
  scheduleFLine: z.string().default('32').meta({ title: 'Schedule F line' }),
})

/** Something that holds only so much: propagation benches, cooler shelves, hive stands. */
export const facilitySchema = z.object({
  id,
  name: name.meta({ title: 'Name', description: 'Propagation bench, cooler, hive stand' }),
  unit: z.string().default('places').meta({ title: 'Counted in', description: 'Trays, shelves, places' }),
  capacity: levelSchema.meta({ title: 'Holds in each month', told: 'of its units' }),
  uses: z
    .array(
      z.object({
        by: z.string().meta({ title: 'Enterprise', names: 'enterprise or herd' }),
        perUnit: levelSchema.meta({ title: 'Each takes up in a month', told: 'of its units' }),
      }),
    )
    .default([])
    .meta({
      title: 'What each unit takes up in a month',
      description: 'A unit of an enterprise, or a breeding female of a herd; empty: nothing',
    }),
})

export type AssetClass = (typeof assetClasses)[number]

type Used = Pick<z.infer<typeof purchaseSchema>, 'worksAfterMonths' | 'usefulYears'>

/** The month of its first use, counted from the one it is bought in: after the months it takes, in the month after at the soonest. */
export const worksFrom = ({ worksAfterMonths }: Pick<Used, 'worksAfterMonths'>): number =>
  Math.max(1, worksAfterMonths)

/** The month after its last use, in which what it is then worth comes back. */
export const worksUntil = (one: Used): number => worksFrom(one) + Math.round(one.usefulYears * 12)
