// What the plan assumes of the world, and the bad years it must survive. Rates are yearly fractions, expected values.
import { z } from 'zod'
import { careGrowth } from '#rules/data/growth-projections.ts'
import { inForce } from '#rules/in-force.ts'
import { dollars, factor, hours, idField, monthField, nameField, rate, share, wholeNumber } from './fields.ts'

const prices = 'Prices and wages'
const health = 'Premiums and care'
const returns = 'What savings earn'
const timing = { group: 'When prices rise and money moves', seldom: true } as const

/** After it the thing follows prices in general. */
const lastYear = (title: string) =>
  wholeNumber(2024, 2250).optional().meta({
    title,
    told: 'calendar year',
    group: health,
    description: 'Then they follow prices in general. Empty: for the whole plan',
  })

export const assumptionsSchema = z.object({
  inflation: rate(-0.1, 0.3)
    .default(0.025)
    .meta({ title: 'Prices rise', unit: 'rate a year', group: prices }),
  farmPriceGrowth: rate(-0.2, 0.2).default(0).meta({
    title: 'Farm prices beyond other prices',
    unit: 'rate a year',
    group: prices,
    description: 'How much faster (or slower) what the farm sells rises than prices in general',
  }),
  farmCostGrowth: rate(-0.2, 0.2)
    .default(0)
    .meta({ title: 'Farm costs beyond that', unit: 'rate a year', group: prices }),
  premiumGrowth: rate(-0.2, 0.5).default(0.05).meta({
    title: 'Marketplace and other health premiums rise',
    unit: 'rate a year',
    group: health,
  }),
  premiumGrowthUntil: lastYear('Marketplace and other health premiums: the last year of that'),
  medicareGrowth: rate(-0.2, 0.5).optional().meta({
    title: 'Medicare premiums rise',
    unit: 'rate a year',
    group: health,
    description: 'Part B, Part D and supplements. Empty: as marketplace premiums',
  }),
  medicareGrowthUntil: lastYear('Medicare premiums: the last year of that'),
  careGrowth: rate(-0.2, 0.5)
    .default(inForce(careGrowth, Number.POSITIVE_INFINITY).rate)
    .meta({ title: 'The cost of care rises', unit: 'rate a year', group: health }),
  careGrowthUntil: lastYear('The cost of care: the last year of that'),
  wageGrowth: rate(-0.1, 0.3).default(0.035).meta({
    title: 'Wages in general rise',
    unit: 'rate a year',
    group: prices,
    description: 'Indexes Social Security past the last published year',
  }),
  stocks: rate(-0.5, 0.5)
    .default(0.065)
    .meta({ title: 'Stocks return', unit: 'rate a year', group: returns }),
  bonds: rate(-0.5, 0.5).default(0.04).meta({ title: 'Bonds return', unit: 'rate a year', group: returns }),
  bills: rate(-0.5, 0.5)
    .default(0.03)
    .meta({ title: 'Bills and savings accounts pay', unit: 'rate a year', group: returns }),
  stockYield: rate(0, 0.1)
    .default(0.015)
    .meta({ title: 'Dividends within what stocks return', unit: 'rate a year', group: returns }),
  priceSteps: z
    .enum(['yearly', 'monthly'])
    .default('yearly')
    .meta({
      title: 'Prices step up',
      ...timing,
      labels: { yearly: 'Each January', monthly: 'A little every month' },
    }),
  timing: z
    .enum(['start', 'end'])
    .default('start')
    .meta({
      title: 'Money moves at the',
      ...timing,
      labels: { start: 'Start of the month', end: 'End of the month' },
      description: 'At the start: balances earn after the month’s flows. At the end: they earn first',
    }),
})

const onFarm = 'On the farm'
const elsewhere = 'In the house and the markets'

/** A bad year of the couple's own. Each part left out does nothing; several together make one bad year. */
export const stormSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Name' }),
  from: monthField().meta({ title: 'Begins' }),
  months: wholeNumber(1, 720).default(12).meta({ title: 'Lasts', unit: 'months' }),
  salesShare: factor(2).default(1).meta({ title: 'Sales, of the expected', unit: 'share', group: onFarm }),
  lostMarket: z.string().optional().meta({
    title: 'Market lost',
    names: 'market',
    description: 'It stays lost for the months of the bad year',
    group: onFarm,
  }),
  hoursLostPerWeek: hours().default(0).meta({
    title: 'Hours a week lost',
    told: 'hours a week',
    unit: 'hours',
    description: 'Hired where the plan hires; else the farm does so much less',
    group: onFarm,
  }),
  person: idField().optional().meta({
    title: 'Whose work is lost',
    names: 'adult',
    description: 'Off-farm pay and side ventures of this person stop too',
    group: onFarm,
  }),
  payStops: idField().optional().meta({
    title: 'Whose off-farm pay stops',
    names: 'adult',
    description:
      'A job lost: farm work and side ventures go on, pensions too. Unemployment benefits are not counted',
    group: elsewhere,
  }),
  dies: idField().optional().meta({
    title: 'Who dies as it begins',
    names: 'adult',
    description: 'Benefits, costs and the farm go on as the plan says for one alone',
    group: elsewhere,
  }),
  drawsLateMonths: wholeNumber(0, 240)
    .default(0)
    .meta({ title: 'Draws come later by', unit: 'months', group: onFarm }),
  premiumJump: rate(-0.5, 3)
    .default(0)
    .meta({ title: 'Premiums jump by', unit: 'share', description: 'They stay up', group: elsewhere }),
  livingShare: factor(5)
    .default(1)
    .meta({ title: 'Living costs, of the expected', unit: 'share', group: elsewhere }),
  oneOffCost: dollars()
    .default(0)
    .meta({ title: 'And costs once', told: 'dollars once', unit: 'dollars', group: elsewhere }),
  stockFall: share()
    .default(0)
    .meta({ title: 'Stocks fall in its first month by', unit: 'share', group: elsewhere }),
  bondFall: share()
    .default(0)
    .meta({ title: 'Bonds fall in its first month by', unit: 'share', group: elsewhere }),
})

export type Storm = z.infer<typeof stormSchema>
