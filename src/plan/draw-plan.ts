// How much of the farm's money the household takes, month by month: four policies, each limited by the farm's cash above its reserve.
import { z } from 'zod'
import { addMonths, type Month, monthText, parseMonth } from '#calendar/month.ts'
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
    z
      .object({
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
      })
      .meta({ title: 'So much a month, by steps' }),
    z
      .object({
        policy: z.literal('ramp'),
        from: monthField().meta({ title: 'Ramp begins' }),
        fromShare: share().default(0).meta({ title: 'Share of household costs at first', unit: 'share' }),
        to: monthField().meta({ title: 'Ramp ends' }),
        toShare: share().default(1).meta({ title: 'Share of household costs from then on', unit: 'share' }),
      })
      .meta({ title: 'A growing share of household costs' }),
    z
      .object({
        policy: z.literal('share'),
        from: monthField().meta({ title: 'From' }),
        share: share().meta({ title: 'Share of net farm cash, trailing twelve months', unit: 'share' }),
        netBefore: signedSeasonalSchema.optional().meta({
          title: 'Net farm cash of the twelve months before the plan',
          told: 'dollars a year',
          months: 'year’s total',
          unit: 'dollars',
          description: 'Empty: what the plan’s farm would have brought in those months',
        }),
      })
      .meta({ title: 'A share of net farm cash' }),
    z
      .object({ policy: z.literal('sweep'), from: monthField().meta({ title: 'From' }) })
      .meta({ title: 'All that the farm can spare' }),
  ])
  .meta({ title: 'Draws' })

export type Draw = z.infer<typeof drawSchema>

/**
 * What has begun by `begun` goes on, steps that are to come come so many months later, and a ramp under way reaches its end so much
 * later.
 */
export const drawsLater = (draw: Draw, months: number, begun: Month): Draw => {
  const later = (text: string) => monthText(addMonths(parseMonth(text)!, months))
  const isToCome = (text: string) => parseMonth(text)! > begun
  if (draw.policy === 'steps')
    return {
      ...draw,
      steps: draw.steps.map((step) => (isToCome(step.from) ? { ...step, from: later(step.from) } : step)),
    }
  if (!drawsAreToCome(draw, begun)) return draw
  if (draw.policy !== 'ramp') return { ...draw, from: later(draw.from) }
  return { ...draw, from: isToCome(draw.from) ? later(draw.from) : draw.from, to: later(draw.to) }
}

/** Whether anything of the draws is left that could come later. */
export const drawsAreToCome = (draw: Draw, begun: Month): boolean => {
  if (draw.policy === 'steps') return draw.steps.some(({ from }) => parseMonth(from)! > begun)
  return parseMonth(draw.policy === 'ramp' ? draw.to : draw.from)! > begun
}
