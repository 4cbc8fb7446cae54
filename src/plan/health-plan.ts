// Health cover in the plan: plain premium lines, who is on the marketplace and when, what care costs, and Medicare's own choices.
import { z } from 'zod'
import { dollars, idField, monthField, nameField, rate, share, signedDollars } from './fields.ts'

export const premiumLineSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Premium' }),
  perMonth: dollars().meta({
    title: 'A month, net of any credit',
    unit: 'dollars a month',
    description: 'In today’s premiums; grows with premiums each January',
  }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({ title: 'Until, that month included' }),
  deductible: z.boolean().default(true).meta({
    title: 'Counts for the self-employed health deduction',
    description: 'Not for months in which an employer would have covered you',
  }),
})

export const marketplaceMemberSchema = z.object({
  person: idField().meta({ title: 'Who', description: 'A person or dependant of the plan' }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({
    title: 'Until, that month included',
    description: 'Empty: until Medicare at 65, or until a dependant leaves',
  }),
})

export const marketplaceSchema = z.object({
  members: z.array(marketplaceMemberSchema).max(14).default([]),
  benchmarkAt21: dollars().default(0).meta({
    title: 'Benchmark plan, age 21',
    unit: 'dollars a month',
    description: 'Second-lowest silver premium of the place for a person of 21, today',
  }),
  planAt21: dollars().default(0).meta({
    title: 'Your plan, age 21',
    unit: 'dollars a month',
    description: 'Premium of the plan you are on for a person of 21, today',
  }),
  advanceCredit: z.boolean().default(true).meta({ title: 'Take the credit in advance' }),
})

export const medicareChoiceSchema = z.object({
  partDPlan: dollars().optional().meta({
    title: 'Part D plan',
    unit: 'dollars a month',
    description: 'Empty: the national base premium',
  }),
  supplement: dollars().default(0).meta({
    title: 'Supplement or other plan',
    unit: 'dollars a month',
    description: 'Each person, today; grows with premiums',
  }),
})

export const healthSchema = z.object({
  premiums: z.array(premiumLineSchema).max(20).default([]),
  marketplace: marketplaceSchema.prefault({}),
  medicare: medicareChoiceSchema.prefault({}),
  medicareFrom65: z.boolean().default(true).meta({ title: 'On Medicare from 65' }),
  careBefore65: dollars().default(0).meta({
    title: 'Care you pay yourself, before 65',
    unit: 'dollars a month',
    description: 'Each adult, expected, today; grows with the cost of care',
  }),
  careFrom65: dollars().default(0).meta({
    title: 'Care you pay yourself, from 65',
    unit: 'dollars a month',
    description: 'Each adult, expected, today; grows with the cost of care',
  }),
  careEachDependant: dollars().default(0).meta({ title: 'Care for each dependant', unit: 'dollars a month' }),
})

export const taxSchema = z.object({
  method: z.enum(['law', 'share', 'none']).default('law').meta({
    title: 'Taxes',
    description: 'By the law of each year; as a plain share of net farm, side and pay income; or none',
  }),
  share: share().default(0.15).meta({ title: 'Plain share', unit: 'share' }),
  filing: z.enum(['joint', 'single', 'head']).optional().meta({
    title: 'Filing status',
    description: 'Empty: joint for two people, single for one; head of household when said so',
  }),
  state: z
    .string()
    .regex(/^[A-Z]{2}$/, { error: 'Enter the two letters of a state, like PA' })
    .optional()
    .meta({ title: 'State' }),
  stateRate: rate(0, 0.15).default(0).meta({
    title: 'State and local income tax',
    unit: 'rate a year',
    description: 'A flat rate on federal adjusted gross income; check it against your state’s own return',
  }),
  itemized: dollars().default(0).meta({
    title: 'Itemized deductions a year',
    unit: 'dollars a year',
    description: 'Used when larger than the standard deduction; today’s prices',
  }),
  optionalSelfEmployment: z.boolean().default(false).meta({
    title: 'Use the farm optional method',
    description:
      'Self-employment tax on two thirds of gross farm income, up to the year’s limit, in years when it is allowed',
  }),
  lastYear: z
    .object({
      tax: dollars().default(0).meta({ title: 'Tax of the year before the plan', unit: 'dollars' }),
      adjustedGrossIncome: signedDollars()
        .default(0)
        .meta({ title: 'Adjusted gross income of that year', unit: 'dollars' }),
      farmShare: share().default(1).meta({ title: 'Share of gross income from farming', unit: 'share' }),
      paidAhead: dollars()
        .default(0)
        .meta({ title: 'Estimated tax already paid for the plan’s first year', unit: 'dollars' }),
      incomeTwoYearsBack: signedDollars()
        .default(0)
        .meta({ title: 'Adjusted gross income two years before', unit: 'dollars' }),
    })
    .prefault({}),
})

export type Health = z.infer<typeof healthSchema>
export type TaxChoices = z.infer<typeof taxSchema>
