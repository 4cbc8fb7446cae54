// The farm as the plan writes it: one zod schema whose defaults make a farm of one line per enterprise a whole one.
import { z } from 'zod'
import { herdSchema } from '#farm/herd/herd-document.ts'
import type { FarmAssetClass } from '#rules/data/depreciation.ts'
import { takesSection179 } from '#rules/depreciation/recovery.ts'
import { loanSchema } from './loan-document.ts'
import { largestAmount, levelSchema, monthTextSchema, seasonalSchema, tooLarge } from './seasonal.ts'

const amount = z
  .number({ error: 'Enter a number, like 12 or 1.5' })
  .min(0, 'Enter zero or more')
  .max(largestAmount, tooLarge)
const share = z.number().min(0, 'Enter a share from 0 to 1').max(1, 'Enter a share from 0 to 1')
const id = z.string().min(1, { error: 'Give it a short name for reference' })
const name = z.string().min(1, { error: 'Give it a name' })
/** Weights by Schedule F line, like `{ "26": 2, "28": 1 }`; any scale, they are shares of their sum. */
const scheduleFLines = z.record(z.string(), amount)
/** Weights by who does the work: ids of people of the plan, or `hired`. Empty: whoever has hours, by their caps. */
const workers = z.record(z.string(), amount).default({})
const scaleSteps = z.array(z.object({ from: monthTextSchema, value: amount })).default([])

/** One enterprise: a budget per unit (bed, hive, share, bird) and how many units. Dollars are at the plan's first prices. */
export const enterpriseSchema = z.object({
  id,
  name,
  unit: z.string().default('unit'),
  scale: amount.default(1),
  scaleSteps,
  /** First and last month of work; left out: it runs already, and goes on. */
  start: monthTextSchema.optional(),
  end: monthTextSchema.optional(),
  /** Months of costs and hours from the start before the first sale. */
  startUpMonths: z.number().int().min(0).max(240).default(0),
  /** Share of full sales in each year after the first sale, like [0.5, 0.8]; full from then on. */
  buildUp: z.array(share).max(20).default([]),
  salesPerUnit: seasonalSchema.default(0),
  costsPerUnit: seasonalSchema.default(0),
  hoursPerUnit: seasonalSchema.default(0),
  /** Yield of a unit in its own measure (pounds, bunches, jars) a year: only break-even prices need it. */
  yieldPerUnit: amount.optional(),
  yieldMeasure: z.string().optional(),
  landPerUnit: amount.default(0),
  /** Ids of markets that may sell it; empty: it is sold without one, and no capacity limits it. */
  markets: z.array(z.string()).default([]),
  hoursBy: workers,
  scheduleFSalesLine: z.string().default('2'),
  scheduleFCostLines: scheduleFLines.default({ '28': 1 }),
  /** Tag under which the books keep its entries; left out: its id. */
  tag: z.string().optional(),
  /** Standard deviation of the logarithm of one season's yield (common practice; used only with drawn chance). */
  seasonSpread: z.number().min(0).max(1).default(0.15),
  /** Limits for the mix: `pinned` keeps today's scale. */
  minimumScale: amount.default(0),
  maximumScale: amount.optional(),
  wholeUnits: z.boolean().default(false),
  pinned: z.boolean().default(false),
})

export const marketSchema = z.object({
  id,
  name,
  /** Trips, or days kept open, in each month. A subscription or stand that needs no trip has 1. */
  trips: levelSchema.default(1),
  tripsSteps: z.array(z.object({ from: monthTextSchema, value: levelSchema })).default([]),
  start: monthTextSchema.optional(),
  end: monthTextSchema.optional(),
  /** Most that one trip sells, in dollars at the plan's first prices, by month. */
  salesPerTrip: levelSchema.default(1_000_000),
  feePerTrip: levelSchema.default(0),
  feePerMonth: levelSchema.default(0),
  hoursPerTrip: amount.default(0),
  milesPerTrip: amount.default(0),
  costPerMile: amount.default(0),
  /** Share of what a dropped trip sold that its customers buy at the markets that stay. */
  followShare: share.default(0),
  hoursBy: workers,
  pinned: z.boolean().default(false),
  /** For the mix: a season is either dropped or run with at least this share of its trips. */
  leastShareWhenRun: share.default(0),
})

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
  'heavy-truck-or-trailer',
  'road-tractor',
  'computer',
  'tenant-house',
  'land',
  'supplies',
] as const satisfies readonly (FarmAssetClass | 'land' | 'supplies')[]

/** A purchase out of the farm's own cash. Listed order is the order in which 'when cash allows' ones are bought. */
export const purchaseSchema = z
  .object({
    id,
    name,
    cost: amount,
    timing: z.enum(['dated', 'when cash allows']).default('dated'),
    /** The month of a dated purchase (before the plan's first month: made already); the earliest month of one that waits for cash. */
    month: monthTextSchema,
    assetClass: z.enum(assetClasses).default('machinery-new'),
    /** Share of the cost written off at once under section 179; the rest follows the class. */
    section179Share: share.default(0),
    /** Farm cash it adds (or work it saves, in hours) by month once it works; at the plan's first prices. */
    addsCash: seasonalSchema.default(0),
    savesHours: seasonalSchema.default(0),
    worksAfterMonths: z.number().int().min(0).max(240).default(0),
    /** Capacity it adds to a facility from the month it works. */
    addsCapacity: z.object({ facility: z.string(), amount }).optional(),
    /** Enterprise or herd whose payback counts it. */
    for: z.string().optional(),
    usefulYears: z.number().min(1).max(60).default(10),
    valueAtEnd: amount.default(0),
  })
  .refine((one) => one.section179Share === 0 || takesSection179(one.assetClass), {
    error: 'Land, supplies and buildings are not written off under section 179: leave 0',
    path: ['section179Share'],
  })

export const overheadSchema = z.object({
  id,
  name,
  costs: seasonalSchema.default(0),
  hours: seasonalSchema.default(0),
  start: monthTextSchema.optional(),
  end: monthTextSchema.optional(),
  scheduleFLine: z.string().default('32'),
})

/** Something that holds only so much: propagation benches, cooler shelves, hive stands. */
export const facilitySchema = z.object({
  id,
  name,
  unit: z.string().default('places'),
  capacity: levelSchema,
  /** How much a unit of an enterprise (or a breeding female of a herd) takes up, by month. */
  uses: z.array(z.object({ by: z.string(), perUnit: levelSchema })).default([]),
})

export const crewMemberSchema = z.object({
  /** Id of a person of the plan. */
  who: id,
  /** Most farm hours a week, by month. */
  weeklyHours: levelSchema.default(50),
})

/** A phase of the slower years: what each can still do from a month on, and what the farm then is. */
export const phaseSchema = z.object({
  from: monthTextSchema,
  name: z.string().default('Slower'),
  weeklyHours: z.array(z.object({ who: id, hours: amount })).default([]),
  /** Scales and trips chosen for the phase; what is not named stays as it was. */
  scales: z.array(z.object({ enterprise: z.string(), value: amount })).default([]),
  trips: z.array(z.object({ market: z.string(), value: levelSchema })).default([]),
  herdLimits: z.array(z.object({ herd: z.string(), value: amount })).default([]),
  /** Stock and equipment sold when the phase begins: price, and what tax still has to write off. */
  sales: z.array(z.object({ name, price: amount, basis: amount.default(0) })).default([]),
  landLeasedOut: amount.default(0),
  leasePerAcreAndYear: amount.default(0),
})

export const farmSchema = z.object({
  enterprises: z.array(enterpriseSchema).default([]),
  markets: z.array(marketSchema).default([]),
  herds: z.array(herdSchema).default([]),
  purchases: z.array(purchaseSchema).default([]),
  overheads: z.array(overheadSchema).default([]),
  loans: z.array(loanSchema).default([]),
  /** Farm cash at the plan's start, and the reserve below which nothing is bought or drawn. */
  cash: z.number().min(-largestAmount, tooLarge).max(largestAmount, tooLarge).default(0),
  reserve: amount.default(0),
  crew: z.array(crewMemberSchema).default([]),
  hired: z.object({ hourlyCost: amount.default(20), weeklyHours: levelSchema.default(0) }).prefault({}),
  land: amount.default(0),
  /** Winter feed the farm can store or grow, in the measure the herds use. */
  winterFeed: amount.optional(),
  facilities: z.array(facilitySchema).default([]),
  phases: z.array(phaseSchema).default([]),
})

export type Farm = z.infer<typeof farmSchema>
export type FarmInput = z.input<typeof farmSchema>
export type Enterprise = z.infer<typeof enterpriseSchema>
export type Market = z.infer<typeof marketSchema>
export type Purchase = z.infer<typeof purchaseSchema>
export type Overhead = z.infer<typeof overheadSchema>
export type Phase = z.infer<typeof phaseSchema>
export type AssetClass = (typeof assetClasses)[number]
