// Who works on the farm, and the phases of the slower years, as the plan writes them.
import { z } from 'zod'
import { amount, dollars, id, name } from './document-fields.ts'
import { levelSchema, monthTextSchema } from './seasonal.ts'

const thenIs = 'What the farm then is'

export const crewMemberSchema = z.object({
  who: id.meta({ title: 'Who', names: 'adult' }),
  weeklyHours: levelSchema
    .default(50)
    .meta({ title: 'Most farm hours a week, by month', told: 'hours a week' }),
})

/** A phase of the slower years: what each can still do from a month on, and what the farm then is. */
export const phaseSchema = z.object({
  from: monthTextSchema.meta({ title: 'From', group: 'The phase' }),
  name: z.string().default('Slower').meta({
    title: 'Called',
    description: 'One market day; fewer shares; without the flock',
    group: 'The phase',
  }),
  weeklyHours: z
    .array(
      z.object({
        who: id.meta({ title: 'Who', names: 'adult' }),
        hours: amount.meta({ title: 'Hours a week', told: 'hours a week' }),
      }),
    )
    .default([])
    .meta({
      title: 'Most farm hours a week',
      told: 'hours a week',
      description: 'Empty: as before',
      group: 'The phase',
    }),
  /** Scales and trips chosen for the phase; what is not named stays as it was. */
  scales: z
    .array(
      z.object({
        enterprise: z.string().meta({ title: 'Enterprise', names: 'enterprise' }),
        value: amount.meta({ title: 'Units', told: 'units' }),
      }),
    )
    .default([])
    .meta({ title: 'Units of each enterprise', description: 'Empty: as before', group: thenIs }),
  trips: z
    .array(
      z.object({
        market: z.string().meta({ title: 'Market', names: 'market' }),
        value: levelSchema.meta({ title: 'Trips a month', told: 'trips a month' }),
      }),
    )
    .default([])
    .meta({
      title: 'Trips a month to each market',
      description: 'Empty: as before; 0 drops it',
      group: thenIs,
    }),
  herdLimits: z
    .array(
      z.object({
        herd: z.string().meta({ title: 'Herd or flock', names: 'herd' }),
        value: amount.meta({ title: 'Breeding females at most', told: 'animals' }),
      }),
    )
    .default([])
    .meta({
      title: 'Breeding females of each herd at most',
      description: 'Empty: as before; 0 sells it up',
      group: thenIs,
    }),
  sales: z
    .array(
      z.object({
        name: name.meta({ title: 'What' }),
        price: dollars.meta({ title: 'Price', told: 'dollars once' }),
        basis: dollars.default(0).meta({ title: 'Remaining tax basis', told: 'dollars on that day' }),
      }),
    )
    .default([])
    .meta({ title: 'Stock and equipment sold as it begins', group: 'Winding down' }),
  landLeasedOut: amount.default(0).meta({ title: 'Acres leased out', told: 'acres', group: 'Winding down' }),
  leasePerAcreAndYear: dollars
    .default(0)
    .meta({ title: 'Rent per acre a year', told: 'dollars an acre and year', group: 'Winding down' }),
})
