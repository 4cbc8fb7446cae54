// The farm as the plan writes it: one zod schema whose defaults make a farm of one line per enterprise a whole one.
import { z } from 'zod'
import { herdSchema } from '#farm/herd/herd-document.ts'
import { amount, dollars, share } from './document-fields.ts'
import { enterpriseSchema, marketSchema } from './line-document.ts'
import { loanSchema } from './loan-document.ts'
import { crewMemberSchema, phaseSchema } from './phase-document.ts'
import { facilitySchema, overheadSchema, purchaseSchema } from './purchase-document.ts'
import { largestAmount, levelSchema, tooLarge } from './seasonal.ts'

export const farmSchema = z.object({
  enterprises: z.array(enterpriseSchema).default([]).meta({ title: 'Enterprises' }),
  markets: z.array(marketSchema).default([]).meta({ title: 'Markets' }),
  herds: z.array(herdSchema).default([]).meta({ title: 'Herds and flocks' }),
  purchases: z.array(purchaseSchema).default([]).meta({ title: 'Purchases' }),
  overheads: z.array(overheadSchema).default([]).meta({ title: 'Overheads' }),
  loans: z.array(loanSchema).default([]).meta({ title: 'Loans' }),
  cash: z
    .number({ error: 'Enter an amount, like 1200 or -300' })
    .min(-largestAmount, tooLarge)
    .max(largestAmount, tooLarge)
    .default(0)
    .meta({
      title: 'Farm cash at the plan’s start',
      told: 'dollars on that day',
      unit: 'dollars',
      group: 'Cash',
    }),
  reserve: dollars.default(0).meta({
    title: 'Reserve',
    told: 'dollars held at all times',
    description: 'Nothing is bought or drawn below it',
    group: 'Cash',
  }),
  crew: z.array(crewMemberSchema).default([]).meta({
    title: 'Most farm hours a week',
    told: 'hours a week',
    description: 'Of each person, by month; empty: not on the farm',
    group: 'Hands',
  }),
  hired: z
    .object({
      wage: dollars.optional().meta({
        title: 'Wage an hour',
        told: 'dollars an hour',
        description:
          'With it an hour costs the wage, the employer’s social security and Medicare tax on it, and workers’ compensation',
      }),
      compensationRate: share.default(0).meta({
        title: 'Workers’ compensation, of wages',
        description: 'As your insurer or state says; it differs by state and by the work',
      }),
      hourlyCost: dollars.default(20).meta({
        title: 'Costs an hour, where no wage is given',
        told: 'dollars an hour',
        description: 'Payroll tax and workers’ compensation with it',
      }),
      weeklyHours: levelSchema.default(0).meta({
        title: 'Hours a week, by month',
        told: 'hours a week',
        description:
          'Of help for the season, paid whether or not all of it is needed; with any, work beyond it is hired too; with none, work beyond the crew’s own hours is not done, and the farm earns that much less',
      }),
      paid: z
        .enum(['all hours', 'only when needed'])
        .default('all hours')
        .meta({
          title: 'These hours are paid',
          labels: { 'all hours': 'All of them', 'only when needed': 'Only when needed' },
          description: 'Only when needed: by the day or the job, with nothing promised',
        }),
    })
    .prefault({})
    .meta({ title: 'Hired help', group: 'Hands' }),
  land: amount
    .default(0)
    .meta({ title: 'Acres', told: 'acres', description: '0: land is no limit', group: 'Land and feed' }),
  winterFeed: amount.optional().meta({
    title: 'Winter feed the farm stores or grows in a year',
    told: 'of its measure, a year',
    description: 'In the measure the herds use; empty: no limit',
    group: 'Land and feed',
  }),
  facilities: z.array(facilitySchema).default([]).meta({ title: 'Facilities' }),
  phases: z.array(phaseSchema).default([]).meta({ title: 'Phases of the slower years' }),
})

export type Farm = z.infer<typeof farmSchema>
export type FarmInput = z.input<typeof farmSchema>
export type Enterprise = z.infer<typeof enterpriseSchema>
export type Market = z.infer<typeof marketSchema>
export type Purchase = z.infer<typeof purchaseSchema>
export type Overhead = z.infer<typeof overheadSchema>
export type Phase = z.infer<typeof phaseSchema>
