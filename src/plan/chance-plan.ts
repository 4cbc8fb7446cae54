// What the plan says of chance: where drawn years of markets come from, how far seasons, premiums and care stray, and how sure to be.
import { z } from 'zod'
import { rate, share, wholeNumber } from './fields.ts'

const spread = (most = 1) => rate(0, most)

const markets = 'Investments and prices'
const ownReturns = { group: 'Returns and prices that you enter', seldom: true } as const
const seasons = 'Farm seasons'
const health = 'Premiums and care'
const lives = 'Life and work'

export const chanceSchema = z.object({
  confidence: share().min(0.5, { error: 'Enter a confidence from 50% to 99%' }).max(0.99).default(0.9).meta({
    title: 'How sure to be',
    unit: 'share',
    description: 'Share of simulations in which an answer must hold',
  }),
  markets: z
    .enum(['calendar', 'january', 'stated'])
    .default('calendar')
    .meta({
      title: 'Simulated years of investments and prices',
      group: markets,
      labels: {
        calendar: 'Calendar years, 1928 to 2024',
        january: 'January to January, 1871 to 2022',
        stated: 'Returns and prices that you enter',
      },
      description: 'Whole years of published history, or returns and prices that you enter below',
    }),
  blockYears: wholeNumber(1, 30).default(5).meta({
    title: 'Years of history that stay together, on average',
    unit: 'years',
    group: markets,
    description: 'So that good and bad times last as long as they did',
  }),
  centre: z
    .enum(['plan', 'source'])
    .default('plan')
    .meta({
      title: 'Average growth of simulated years',
      group: markets,
      labels: { plan: 'As the plan expects', source: 'As history had it, or as you enter' },
      description: 'As the plan expects: only the ups and downs are simulated',
    }),
  stocksMean: rate(-0.5, 0.5)
    .default(0.1)
    .meta({ title: 'Stocks, on average', unit: 'rate a year', ...ownReturns }),
  stocksSpread: spread()
    .default(0.18)
    .meta({ title: 'Stocks vary by', unit: 'rate a year', ...ownReturns }),
  bondsMean: rate(-0.5, 0.5)
    .default(0.048)
    .meta({ title: 'Bonds, on average', unit: 'rate a year', ...ownReturns }),
  bondsSpread: spread()
    .default(0.065)
    .meta({ title: 'Bonds vary by', unit: 'rate a year', ...ownReturns }),
  billsMean: rate(-0.5, 0.5)
    .default(0.034)
    .meta({ title: 'Bills, on average', unit: 'rate a year', ...ownReturns }),
  billsSpread: spread()
    .default(0.015)
    .meta({ title: 'Bills vary by', unit: 'rate a year', ...ownReturns }),
  inflationMean: rate(-0.1, 0.3)
    .default(0.03)
    .meta({ title: 'Prices rise, on average', unit: 'rate a year', ...ownReturns }),
  inflationSpread: spread(0.3)
    .default(0.02)
    .meta({ title: 'Prices vary by', unit: 'rate a year', ...ownReturns }),
  inflationPersistence: share()
    .max(0.98, { error: 'Enter 98% or less' })
    .default(0.6)
    .meta({ title: 'Prices and bills keep of last year’s distance', unit: 'share', ...ownReturns }),
  stocksWithBonds: rate(-0.99, 0.99)
    .default(0.1)
    .meta({ title: 'Correlation of stocks and bonds', told: 'correlation, −1 to 1', ...ownReturns }),
  seasons: z.boolean().default(true).meta({
    title: 'Seasons vary',
    group: seasons,
    description: 'Each enterprise’s yield by its own spread',
  }),
  seasonsTogether: share().default(0.5).meta({
    title: 'Seasons go together',
    group: seasons,
    unit: 'share',
    description: 'Correlation between the yields of two enterprises (common practice; no source)',
  }),
  premiums: z
    .enum(['stated', 'county'])
    .default('stated')
    .meta({
      title: 'How premiums vary',
      group: health,
      description:
        'How far a year’s growth is from what the plan expects. The county’s years are those of its benchmark premium; with fewer than four known changes the spread below is used. Medicare’s always vary by the spread',
      labels: { stated: 'The spread below', county: 'As the county’s own years' },
    }),
  premiumSpread: spread(0.3).default(0.03).meta({
    title: 'Premium growth varies by',
    group: health,
    unit: 'rate a year',
    description: 'Standard deviation of a year’s growth about the expected (common practice; no source)',
  }),
  careSpread: spread(3).default(0.6).meta({
    title: 'Cost of care varies by',
    group: health,
    unit: 'share',
    description: 'Standard deviation of a year’s cost over its mean (common practice; no source)',
  }),
  lives: z.boolean().default(true).meta({
    title: 'Lengths of life vary',
    group: lives,
    description: 'From the period life table; otherwise everyone reaches the age planned to',
  }),
  workLossChance: share().default(0).meta({
    title: 'Chance in a year that one person cannot work',
    group: lives,
    unit: 'share',
    description:
      'For each adult up to age 67; pay and side ventures of that person stop, farm hours are hired where the plan hires, and work can be lost again',
  }),
  workLossMonths: wholeNumber(1, 120)
    .default(12)
    .meta({ title: 'A spell without work lasts', unit: 'months', group: lives }),
})

export type Chance = z.infer<typeof chanceSchema>
