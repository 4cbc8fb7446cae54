// The floor of savings: as many months of household costs, or an amount.
import { z } from 'zod'
import { dollars } from '../fields.ts'

export const floorSchema = z
  .discriminatedUnion('kind', [
    z
      .object({
        kind: z.literal('months'),
        months: z
          .number({ error: 'Enter months of costs, like 6' })
          .min(0)
          .max(120)
          .meta({ title: 'Months of household costs', unit: 'months' }),
      })
      .meta({ title: 'As many months of costs' }),
    z
      .object({
        kind: z.literal('dollars'),
        dollars: dollars().meta({ title: 'Dollars', told: 'dollars held at all times', unit: 'dollars' }),
      })
      .meta({ title: 'An amount in today’s prices' }),
  ])
  .meta({
    title: 'Floor',
    description: 'Below this, savings are no longer spendable in the sense of months left',
  })
