// What the plan says of chance: where drawn years of markets come from, how far seasons, premiums and care stray, and how sure to be.
import { z } from 'zod'
import { rate, share, wholeNumber } from './fields.ts'

const spread = (most = 1) => rate(0, most)

export const chanceSchema = z.object({
  confidence: share().min(0.5, { error: 'Enter a confidence from 50% to 99%' }).max(0.99).default(0.9).meta({
    title: 'How sure to be',
    unit: 'share',
    description: 'Share of simulations in which an answer must hold',
  }),
  markets: z.enum(['calendar', 'january', 'stated']).default('calendar').meta({
    title: 'Simulated years of investments and prices',
    description:
      'Whole years of published history, 1928 to 2024 (calendar years) or 1871 to 2022 (January to January), or the spreads below',
  }),
  blockYears: wholeNumber(1, 30)
    .default(5)
    .meta({ title: 'Years of history that stay together, on average', unit: 'years' }),
  centre: z.enum(['plan', 'source']).default('plan').meta({
    title: 'Average growth of simulated years',
    description:
      'The plan’s own expected returns and inflation, with only the ups and downs simulated; or what history (or the means below) had',
  }),
  stocksMean: rate(-0.5, 0.5).default(0.1).meta({ title: 'Stated: stocks, mean', unit: 'rate a year' }),
  stocksSpread: spread().default(0.18).meta({ title: 'Stated: stocks, spread', unit: 'rate a year' }),
  bondsMean: rate(-0.5, 0.5).default(0.048).meta({ title: 'Stated: bonds, mean', unit: 'rate a year' }),
  bondsSpread: spread().default(0.065).meta({ title: 'Stated: bonds, spread', unit: 'rate a year' }),
  billsMean: rate(-0.5, 0.5).default(0.034).meta({ title: 'Stated: bills, mean', unit: 'rate a year' }),
  billsSpread: spread().default(0.015).meta({ title: 'Stated: bills, spread', unit: 'rate a year' }),
  inflationMean: rate(-0.1, 0.3).default(0.03).meta({ title: 'Stated: prices, mean', unit: 'rate a year' }),
  inflationSpread: spread(0.3).default(0.02).meta({ title: 'Stated: prices, spread', unit: 'rate a year' }),
  inflationPersistence: share()
    .max(0.98, { error: 'Enter a share below 98%' })
    .default(0.6)
    .meta({ title: 'Stated: share of last year’s distance that prices and bills keep', unit: 'share' }),
  stocksWithBonds: rate(-0.99, 0.99).default(0.1).meta({ title: 'Stated: correlation of stocks and bonds' }),
  seasons: z.boolean().default(true).meta({
    title: 'Seasons vary',
    description: 'Each enterprise’s yield by its own spread, good and bad together as far as stated below',
  }),
  seasonsTogether: share().default(0.5).meta({
    title: 'Seasons go together',
    unit: 'share',
    description: 'Correlation between the yields of two enterprises (common practice; no source)',
  }),
  premiums: z
    .enum(['stated', 'county'])
    .default('stated')
    .meta({
      title: 'How premiums vary',
      description:
        'How far a year’s growth is from what the plan expects. The county’s years are those of its benchmark premium; with fewer than four known changes the spread below is used. Medicare’s always vary by the spread',
      labels: { stated: 'The spread below', county: 'As the county’s own years' },
    }),
  premiumSpread: spread(0.3).default(0.03).meta({
    title: 'Premium growth varies by',
    unit: 'rate a year',
    description: 'Standard deviation of a year’s growth about the expected (common practice; no source)',
  }),
  careSpread: spread(3).default(0.6).meta({
    title: 'Cost of care varies by',
    unit: 'share',
    description: 'Standard deviation of a year’s cost over its mean (common practice; no source)',
  }),
  lives: z.boolean().default(true).meta({
    title: 'Lengths of life vary',
    description: 'From the period life table; otherwise everyone reaches the age planned to',
  }),
  workLossChance: share().default(0).meta({
    title: 'Chance in a year that one person cannot work',
    unit: 'share',
    description:
      'For each adult up to age 67; pay and side ventures of that person stop, farm hours are hired where the plan hires, and work can be lost again',
  }),
  workLossMonths: wholeNumber(1, 120)
    .default(12)
    .meta({ title: 'A spell without work lasts', unit: 'months' }),
})

export type Chance = z.infer<typeof chanceSchema>
