// How much of the farm's money the household takes, month by month: four policies, each limited by the farm's cash above its reserve.
import { z } from 'zod'
import { signedSeasonalSchema } from '#farm/seasonal.ts'
import { dollars, monthField, rate, share } from './fields.ts'

const drawStepSchema = z.object({
  from: monthField().meta({ title: 'From' }),
  perMonth: dollars().meta({
    title: 'Draw a month',
    unit: 'dollars a month',
    description: 'The same dollars from year to year, unless draws are raised',
  }),
})

export const drawSchema = z
  .discriminatedUnion('policy', [
    z.object({
      policy: z.literal('steps'),
      steps: z.array(drawStepSchema).max(60).default([]).meta({ title: 'Steps' }),
      growth: rate(-0.2, 0.2).default(0).meta({
        title: 'Raised each January by',
        unit: 'rate a year',
        description: 'From the January after the step began',
      }),
      withPrices: z.boolean().default(false).meta({
        title: 'Raised as prices rise',
        description:
          'Off: a draw stays the same number of dollars while prices rise, and buys less each year',
      }),
    }),
    z.object({
      policy: z.literal('ramp'),
      from: monthField().meta({ title: 'Ramp begins' }),
      fromShare: share().default(0).meta({ title: 'Share of household costs at first', unit: 'share' }),
      to: monthField().meta({ title: 'Ramp ends' }),
      toShare: share().default(1).meta({ title: 'Share of household costs from then on', unit: 'share' }),
    }),
    z.object({
      policy: z.literal('share'),
      from: monthField().meta({ title: 'From' }),
      share: share().meta({ title: 'Share of net farm cash, trailing twelve months', unit: 'share' }),
      netBefore: signedSeasonalSchema.optional().meta({
        title: 'Net farm cash of the twelve months before the plan',
        months: 'year’s total',
        unit: 'dollars',
        description: 'Empty: what the plan’s farm would have brought in those months',
      }),
    }),
    z.object({ policy: z.literal('sweep'), from: monthField().meta({ title: 'From' }) }),
  ])
  .meta({ title: 'Draws' })

export type Draw = z.infer<typeof drawSchema>
