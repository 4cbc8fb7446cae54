// A herd or flock as the plan writes it: heads by class at the start, rates, prices and limits. Rates left out come from the kind.
import { z } from 'zod'
import {
  amount,
  begunWith,
  bookTag,
  dollars,
  markets,
  scheduleFLines,
  seasonSpread,
  share,
} from '#farm/document-fields.ts'
import { levelSchema, monthTextSchema, seasonalSchema } from '#farm/seasonal.ts'
import { meatSchema } from './meat.ts'

/** Birds: goods to tax, and all by the rates of hens where nothing is entered. */
const birdKinds = ['layers', 'ducks', 'geese', 'turkeys'] as const
export const herdKinds = ['sheep', 'goats', 'cattle', 'pigs', ...birdKinds] as const
export type HerdKind = (typeof herdKinds)[number]
export type BirdKind = (typeof birdKinds)[number]
export const isBird = (kind: HerdKind): kind is BirdKind => birdKinds.some((bird) => bird === kind)
const kindLabels: Readonly<Record<HerdKind, string>> = {
  sheep: 'Sheep',
  goats: 'Goats',
  cattle: 'Cattle',
  pigs: 'Pigs',
  layers: 'Laying hens',
  ducks: 'Ducks',
  geese: 'Geese',
  turkeys: 'Turkeys',
}

const heads = 'Head'
const upkeep = 'Feed, hours, land'
const books = { group: 'Waiting stock, books and tax', seldom: true } as const
const monthsOfAge = z.number().int().min(1).max(240).meta({ unit: 'months' })
const monthOfYearNumber = z
  .number()
  .int({ error: 'Enter months by their numbers, 1 to 12' })
  .min(1)
  .max(12)
  .meta({ told: 'month of the year, 1 to 12' })

/** Rates of one herd. Each is optional in the plan: `ratesOf` fills the gaps with the kind's defaults (common practice). */
const herdRatesSchema = z.object({
  conception: share.meta({ title: 'Females that conceive for a birth month' }),
  birthsPerFemale: amount
    .max(20)
    .meta({ title: 'Young born alive per female that gives birth', told: 'animals per female' }),
  birthMonths: z
    .array(monthOfYearNumber)
    .max(12)
    .meta({ title: 'Months of birth', description: 'Like 3, 4' }),
  adultLossPerYear: share.meta({ title: 'Grown stock lost in a year' }),
  youngLossToWeaning: share.meta({ title: 'Young lost before weaning', description: 'Of those born' }),
  weaningAgeMonths: monthsOfAge.meta({ title: 'Weaned at an age of' }),
  /** Age at which young not kept are sold, and at which kept females join the breeding herd. */
  saleAgeMonths: monthsOfAge.meta({ title: 'Sold at an age of' }),
  saleMonths: z.array(monthOfYearNumber).max(12).optional().meta({
    title: 'Months of sale',
    description: 'Like 10, 11, 12, the same part in each. Empty: as they reach their age',
  }),
  youngLossToSale: share.optional().meta({
    title: 'Young lost from weaning to sale',
    description: 'Of those weaned. Empty: as grown stock',
  }),
  breedingAgeMonths: monthsOfAge.meta({ title: 'Joins the breeding herd at an age of' }),
  cullPerYear: share.meta({ title: 'Breeding females culled in a year' }),
  cullMonth: monthOfYearNumber.meta({ title: 'Month of culling', description: '1 to 12' }),
  keepOfFemaleYoung: share.meta({
    title: 'Female young kept to breed',
    description: 'While the herd is below its limit',
  }),
  femalesPerMale: amount.meta({
    title: 'Females to a male',
    told: 'animals a male',
    description: '0: no male is kept',
  }),
  maleLifeYears: z.number().min(1).max(20).meta({ title: 'A male is kept for', unit: 'years' }),
})

export const herdSchema = z.object({
  id: z.string().min(1),
  kind: z
    .enum(herdKinds, { error: 'Choose the kind' })
    .meta({ title: 'Kind', labels: kindLabels, group: heads }),
  name: z
    .string({ error: 'Give the herd or flock a name' })
    .min(1, { error: 'Give the herd or flock a name' })
    .meta({ title: 'Name', group: heads }),
  start: monthTextSchema.meta({
    title: 'First animals arrive in',
    description: 'Animals bought then are paid for then',
    group: heads,
  }),
  end: monthTextSchema.optional().meta({ title: 'All sold after', group: heads }),
  breedingFemales: amount.meta({ title: 'Breeding females then', told: 'animals', group: heads }),
  replacements: amount.default(0).meta({
    title: 'Young females kept to breed then',
    told: 'animals',
    description: 'Taken as of the latest birth that is weaned',
    group: heads,
  }),
  males: amount.default(0).meta({ title: 'Males then', told: 'animals', group: heads }),
  ownedAlready: z
    .boolean()
    .default(false)
    .meta({ title: 'They were ours already: no money is paid', group: heads }),
  carryingLimit: amount.meta({
    title: 'Breeding females the land and the winter feed carry',
    told: 'animals',
    group: heads,
  }),
  counts: z
    .array(
      z.object({
        month: monthTextSchema.meta({ title: 'Counted as this month began' }),
        breedingFemales: amount.meta({ title: 'Breeding females', told: 'animals' }),
        replacements: amount.optional().meta({ title: 'Young females kept to breed', told: 'animals' }),
        young: amount.optional().meta({ title: 'Young for sale', told: 'animals' }),
        males: amount.optional().meta({ title: 'Males', told: 'animals' }),
      }),
    )
    .max(240)
    .default([])
    .meta({
      title: 'Counts of the herd',
      description: 'From then on the herd goes on from these. Empty: as it was expected to be',
      group: heads,
      seldom: true,
    }),
  buysReplacements: z.boolean().default(false).meta({
    title: 'Bought again each year instead of bred',
    description: 'Such as layers. A flock kept for two years culls 50 percent a year',
    group: heads,
  }),
  rates: herdRatesSchema
    .partial()
    .default({})
    .meta({ title: 'Rates', description: 'Empty: common practice for the kind', seldom: true }),
  prices: z
    .object({
      breedingFemale: dollars.default(0).meta({ title: 'A breeding female costs', told: 'dollars a head' }),
      male: dollars.default(0).meta({ title: 'A male costs', told: 'dollars a head' }),
      youngSold: dollars.default(0).meta({
        title: 'A young one sells for',
        told: 'dollars a head',
        description: 'As it is. Meat has its prices below',
      }),
      cullFemale: dollars.default(0).meta({ title: 'A cull sells for', told: 'dollars a head' }),
      atAuction: dollars.optional().meta({
        title: 'A young one that found no market sells for, at auction',
        told: 'dollars a head',
        description: 'Empty: half as much, our own assumption',
      }),
    })
    .prefault({})
    .meta({ title: 'Prices' }),
  meat: meatSchema.optional().meta({
    title: 'Sold as meat',
    description: 'Leave it empty for young that are sold as they are',
    seldom: true,
  }),
  /** Before its own costs. */
  productPerFemale: seasonalSchema.default(0).meta({
    title: 'Wool, milk or eggs per female per year, dollars',
    told: 'dollars per female and year',
    group: upkeep,
  }),
  yieldPerFemale: amount.optional().meta({
    title: 'Yield of it per female per year',
    told: 'of its measure, per female and year',
    description: 'Only break-even prices need it',
    ...books,
  }),
  yieldMeasure: z
    .string()
    .optional()
    .meta({
      title: 'Yield is counted in',
      description: 'Pounds, gallons, dozens',
      ...books,
    }),
  costPerFemale: levelSchema.default(0).meta({
    title: 'Feed, bedding and vet per grown head per month, dollars',
    told: 'dollars a grown head and month',
    group: upkeep,
  }),
  costPerYoung: levelSchema.default(0).meta({
    title: 'Feed, bedding and vet per young one per month, dollars',
    told: 'dollars a young one and month',
    group: upkeep,
  }),
  hoursPerFemale: levelSchema
    .default(0)
    .meta({ title: 'Hours per female per month', told: 'hours per female and month', group: upkeep }),
  hoursFixed: levelSchema.default(0).meta({
    title: 'Hours a month, however many animals',
    told: 'hours a month',
    group: upkeep,
  }),
  landPerFemale: amount
    .default(0)
    .meta({ title: 'Acres per female', told: 'acres per female', group: upkeep }),
  winterFeedPerFemale: amount.default(0).meta({
    title: 'Winter feed per female per year',
    told: 'of its measure, per female and year',
    description: 'In the measure of the farm’s winter feed',
    group: upkeep,
  }),
  stockWriteOff: z
    .enum(['bonus', 'section179', 'overYears'])
    .default('bonus')
    .meta({
      title: 'Bought breeding stock is written off',
      labels: {
        bonus: 'At once, even where it makes a loss (bonus)',
        section179: 'At once as far as income goes (section 179)',
        overYears: 'Over its years',
      },
      description: 'Poultry is goods and always deducted when bought',
      ...books,
    }),
  markets: markets.meta({
    title: 'Sold at',
    description: 'None checked: sold without a market',
    group: 'Where it sells',
  }),
  waitMonths: z
    .number()
    .int()
    .min(0)
    .max(60)
    .default(6)
    .meta({
      title: 'Longest a young one waits for a market',
      description: 'At its cost; then it goes to auction',
      unit: 'months',
      ...books,
    }),
  seasonSpread: seasonSpread.default(0.1).meta(books),
  scheduleFCostLines: scheduleFLines.default({ '16': 0.8, '31': 0.2 }).meta(books),
  tag: bookTag.meta(books),
  usual: begunWith,
})

export type Herd = z.infer<typeof herdSchema>
export type HerdRates = z.infer<typeof herdRatesSchema>
