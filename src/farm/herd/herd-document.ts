// A herd or flock as the plan writes it: heads by class at the start, rates, prices and limits. Rates left out come from the kind.
import { z } from 'zod'
import { largestAmount, levelSchema, monthTextSchema, seasonalSchema, tooLarge } from '#farm/seasonal.ts'

export const herdKinds = ['sheep', 'goats', 'cattle', 'pigs', 'layers'] as const
export type HerdKind = (typeof herdKinds)[number]

const share = z.number().min(0, 'Enter a share from 0 to 1').max(1, 'Enter a share from 0 to 1')
const amount = z.number().min(0, 'Enter an amount of zero or more').max(largestAmount, tooLarge)
const monthsOfAge = z.number().int().min(1).max(240)
const monthOfYearNumber = z.number().int().min(1).max(12)

/** Rates of one herd. Each is optional in the plan: `ratesOf` fills the gaps with the kind's defaults (common practice). */
export const herdRatesSchema = z.object({
  /** Share of breeding females exposed that give birth in a birth month. */
  conception: share,
  /** Young born alive per female that gives birth. */
  birthsPerFemale: amount.max(20),
  /** Months of the year in which births fall, 1 to 12. */
  birthMonths: z.array(monthOfYearNumber).max(12),
  /** Losses as yearly shares: grown stock, and young up to weaning (as a share of those born). */
  adultLossPerYear: share,
  youngLossToWeaning: share,
  weaningAgeMonths: monthsOfAge,
  /** Age at which young not kept are sold, and at which kept females join the breeding herd. */
  saleAgeMonths: monthsOfAge,
  breedingAgeMonths: monthsOfAge,
  /** Share of breeding females culled each year, in the cull month. */
  cullPerYear: share,
  cullMonth: monthOfYearNumber,
  /** Share of female young kept while the herd is below its limit. */
  keepOfFemaleYoung: share,
  /** Breeding females one male serves; 0 when none is kept. */
  femalesPerMale: amount,
  maleLifeYears: z.number().min(1).max(20),
})

export const herdSchema = z.object({
  id: z.string().min(1),
  name: z.string().min(1, { error: 'Give the herd or flock a name' }),
  kind: z.enum(herdKinds),
  /** Month the first heads stand on the farm. Heads bought then are paid for then; `ownedAlready` heads are not. */
  start: monthTextSchema,
  end: monthTextSchema.optional(),
  breedingFemales: amount,
  replacements: amount.default(0),
  males: amount.default(0),
  ownedAlready: z.boolean().default(false),
  /** Breeding females the land and the winter feed can carry. */
  carryingLimit: amount,
  /** Buys females to fill the herd each year (flocks that do not breed their own, such as layers). */
  buysReplacements: z.boolean().default(false),
  rates: herdRatesSchema.partial().default({}),
  prices: z
    .object({
      breedingFemale: amount.default(0),
      male: amount.default(0),
      /** Each young animal sold, net of kill and cut when sold as meat. */
      youngSold: amount.default(0),
      cullFemale: amount.default(0),
    })
    .prefault({}),
  /** Wool, milk or eggs: dollars a breeding female gives by month, before its own costs. */
  productPerFemale: seasonalSchema.default(0),
  /** Feed, bedding and vet: dollars per head and month, by class. */
  costPerFemale: levelSchema.default(0),
  costPerYoung: levelSchema.default(0),
  hoursPerFemale: levelSchema.default(0),
  /** Hours a month whatever the number of heads. */
  hoursFixed: levelSchema.default(0),
  landPerFemale: amount.default(0),
  winterFeedPerFemale: amount.default(0),
  markets: z.array(z.string()).default([]),
  seasonSpread: z.number().min(0).max(1).default(0.1),
  scheduleFCostLines: z.record(z.string(), amount).default({ '16': 0.8, '31': 0.2 }),
  tag: z.string().optional(),
})

export type Herd = z.infer<typeof herdSchema>
export type HerdRates = z.infer<typeof herdRatesSchema>
