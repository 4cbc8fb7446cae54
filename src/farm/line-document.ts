// Enterprises and markets as the plan writes them: a budget by the unit, and what a trip sells and costs.
import { z } from 'zod'
import {
  amount,
  begunWith,
  bookTag,
  dollars,
  ends,
  id,
  markets,
  name,
  scheduleFLines,
  seasonSpread,
  share,
  starts,
} from './document-fields.ts'
import { levelSchema, monthTextSchema, seasonalSchema } from './seasonal.ts'

/** Heading of what one unit brings and takes. */
export const unitBudget = 'Budget by the unit, at today’s prices'
const booksAndTax = { group: 'Books and tax', seldom: true } as const
const mixLimits = { group: 'Limits for the mix and for chance', seldom: true } as const
const step = { title: 'From' }
const pinned = z
  .boolean()
  .default(false)
  .meta({
    title: 'Do not let the mix change it',
    ...mixLimits,
  })
/** Weights by who does the work: ids of people of the plan, or `hired`. Empty: whoever has hours, by their caps. */
const workers = z
  .record(z.string(), amount.meta({ title: 'Part of the work', told: 'parts of the whole' }))
  .default({})
  .meta({
    title: 'Who does the work',
    description: 'Parts of its hours, on any scale; nobody named: whoever has hours left',
    names: 'worker',
    seldom: true,
  })

/** One enterprise: a budget per unit (bed, hive, share, bird) and how many units. Dollars are at the plan's first prices. */
export const enterpriseSchema = z.object({
  id,
  name: name.meta({ title: 'Name', group: 'What it is' }),
  unit: z
    .string()
    .default('unit')
    .meta({ title: 'Unit', description: 'Bed, hive, share, bird', group: 'What it is' }),
  scale: amount.default(1).meta({ title: 'Units today', told: 'units', group: 'What it is' }),
  scaleSteps: z
    .array(
      z.object({
        from: monthTextSchema.meta(step),
        value: amount.meta({ title: 'Units from then on', told: 'units' }),
      }),
    )
    .default([])
    .meta({ title: 'Units later', group: 'What it is', seldom: true }),
  /** First and last month of work; left out: it runs already, and goes on. */
  start: starts.meta({ group: 'What it is' }),
  end: ends.meta({ group: 'What it is' }),
  startUpMonths: z.number().int().min(0).max(240).default(0).meta({
    title: 'Months of costs and work before the first sale',
    unit: 'months',
    group: 'What it is',
  }),
  buildUp: z.array(share).max(20).default([]).meta({
    title: 'Sales in each of its first years, of full sales',
    description:
      'Like 50, 80: half in the year after the first sale, four fifths in the next, full from then on',
    group: 'What it is',
  }),
  salesPerUnit: seasonalSchema.default(0).meta({
    title: 'Sales per unit per year, dollars',
    told: 'dollars per unit and year',
    group: unitBudget,
  }),
  costsPerUnit: seasonalSchema.default(0).meta({
    title: 'Direct costs per unit per year, dollars',
    told: 'dollars per unit and year',
    group: unitBudget,
  }),
  hoursPerUnit: seasonalSchema
    .default(0)
    .meta({ title: 'Hours per unit per year', told: 'hours per unit and year', group: unitBudget }),
  yieldPerUnit: amount.optional().meta({
    title: 'Yield per unit per year',
    told: 'of its measure, per unit and year',
    description: 'Only break-even prices need it',
    group: unitBudget,
  }),
  yieldMeasure: z.string().optional().meta({
    title: 'Yield is counted in',
    description: 'Pounds, bunches, jars',
    group: unitBudget,
  }),
  landPerUnit: amount.default(0).meta({ title: 'Acres per unit', told: 'acres per unit', group: unitBudget }),
  markets: markets.meta({
    title: 'Sold at',
    description: 'None checked: sold without a market, and no capacity limits it',
    group: 'Where it sells',
  }),
  hoursBy: workers,
  scheduleFSalesLine: z
    .string()
    .default('2')
    .meta({ title: 'Schedule F line of its sales', ...booksAndTax }),
  scheduleFCostLines: scheduleFLines.default({ '28': 1 }).meta(booksAndTax),
  tag: bookTag.meta(booksAndTax),
  seasonSpread: seasonSpread.default(0.15).meta(mixLimits),
  minimumScale: amount.default(0).meta({ title: 'Never fewer units than', told: 'units', ...mixLimits }),
  maximumScale: amount.optional().meta({ title: 'Never more units than', told: 'units', ...mixLimits }),
  wholeUnits: z
    .boolean()
    .default(false)
    .meta({ title: 'Only whole units', ...mixLimits }),
  /** `pinned` keeps today's scale. */
  pinned,
  usual: begunWith,
})

/** A trip sells so much more each year, for so many years. */
const marketGrowthSchema = z.object({
  perYear: z
    .number({ error: 'Enter a percent, like 10' })
    .min(-0.9, 'At least −90%')
    .max(2, 'At most 200%')
    .meta({
      title: 'A trip sells more each year by',
      description:
        'A little each month, each year on the one before: at 40 percent 1.4 times after one, 1.96 after two',
      unit: 'rate a year',
    }),
  from: monthTextSchema.meta({ title: 'Grows from' }),
  years: z
    .number()
    .min(0)
    .max(20)
    .optional()
    .meta({ title: 'For so long', description: 'Empty: three years', unit: 'years' }),
})

/** Counted by its chance: with 50 percent half of its sales, costs and hours stand in the plan. */
const seatSchema = z.object({
  from: monthTextSchema.meta({ title: 'Yours from, at the earliest' }),
  chance: share.meta({
    title: 'How likely you have it by then',
    description:
      'The plan counts that part of its sales, costs and hours from then on, and nothing before; 0 leaves it out',
  }),
})

export const marketSchema = z.object({
  id,
  name: name.meta({ title: 'Name', group: 'The market' }),
  trips: levelSchema.default(1).meta({
    title: 'Trips a month',
    told: 'trips a month',
    description: 'Or days kept open. A subscription or stand that needs no trip has 1. Empty: 1',
    group: 'The market',
  }),
  tripsSteps: z
    .array(
      z.object({
        from: monthTextSchema.meta(step),
        value: levelSchema.meta({ title: 'Trips a month from then on', told: 'trips a month' }),
      }),
    )
    .default([])
    .meta({ title: 'Trips later', description: '0 drops it', group: 'The market', seldom: true }),
  start: starts.meta({ group: 'The market' }),
  end: ends.meta({ group: 'The market' }),
  salesPerTrip: levelSchema.default(1_000_000).meta({
    title: 'Most that one trip sells in a month’s season, dollars',
    told: 'dollars a trip',
    description: 'At the plan’s first prices. Empty: a million, which is no limit',
    group: 'What it takes',
  }),
  growth: marketGrowthSchema.optional().meta({
    title: 'Growth of regular customers',
    description: 'On top of prices, and of what the plan lets all farm prices grow',
    seldom: true,
  }),
  seat: seatSchema.optional().meta({
    title: 'A seat on a waiting list',
    description:
      'Leave it empty for a market that is open to you already. Simulations draw whether you have it for the first four such seats; a fifth and later ones are counted by their chance in every simulation',
    seldom: true,
  }),
  feePerTrip: levelSchema
    .default(0)
    .meta({ title: 'Fee a trip, by month, dollars', told: 'dollars a trip', group: 'What it costs' }),
  feePerMonth: levelSchema
    .default(0)
    .meta({ title: 'Fee a month, dollars', told: 'dollars a month', group: 'What it costs' }),
  hoursPerTrip: amount.default(0).meta({
    title: 'Hours a trip',
    told: 'hours a trip',
    description: 'All who go, loading and driving counted',
    group: 'What it costs',
  }),
  milesPerTrip: amount
    .default(0)
    .meta({ title: 'Miles a trip', told: 'miles a trip', group: 'What it costs' }),
  costPerMile: dollars
    .default(0)
    .meta({ title: 'Cost a mile', told: 'dollars a mile', group: 'What it costs' }),
  followShare: share.default(0).meta({
    title: 'Customers who follow when a trip is dropped',
    description:
      'Share of what it sold that they buy at the markets that stay, by what each of those can take; one that runs fewer trips takes that much less of them',
    group: 'What it takes',
  }),
  hoursBy: workers,
  pinned,
  usual: begunWith,
  /** For the mix: a season is either dropped or run with at least this share of its trips. */
  leastShareWhenRun: share.default(0).meta({
    title: 'If run, at least this share of its trips',
    description: 'A stall is taken for the season',
    ...mixLimits,
  }),
})
