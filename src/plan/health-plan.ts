// Health cover in the plan: plain premium lines, who is on the marketplace and when, what care costs, and Medicare's own choices.
import { z } from 'zod'
import { type LimitName, limitWords } from '#rules/coverage/coverage-limits.ts'
import { unbornCounts } from '#rules/coverage/unborn.ts'
import { placesOfTheirOwn } from '#rules/marketplace/premium-by-age.ts'
import { stateNames } from '#rules/places/state-names.ts'
import { dollars, idField, monthField, nameField, wholeNumber } from './fields.ts'

const premiumLineSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Premium' }),
  perMonth: dollars().meta({
    title: 'A month, net of any credit',
    unit: 'dollars a month',
    description: 'In today’s premiums; grows with premiums each January',
  }),
  person: idField().optional().meta({
    title: 'Whom it covers',
    description: 'Empty: everyone who has no other coverage',
    names: 'anyone',
  }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({ title: 'Until, that month included' }),
  deductible: z.boolean().default(true).meta({
    title: 'Counts for the self-employed health deduction',
    description: 'Not for months in which an employer would have covered you',
  }),
})

const marketplaceMemberSchema = z.object({
  person: idField().meta({
    title: 'Who',
    description: 'A person or dependent of the plan',
    names: 'anyone',
  }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({
    title: 'Until, that month included',
    description: 'Empty: until Medicare at 65, or until a dependent leaves',
  }),
})

const employerPlanSchema = z.object({
  person: idField().meta({
    title: 'Who',
    description: 'A person or dependent of the plan',
    names: 'anyone',
  }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({ title: 'Until, that month included' }),
})

/** The federal age curve, or a state’s own way by its two letters. */
export const ageRatings = ['federal', ...placesOfTheirOwn] as const

const marketplaceSchema = z.object({
  members: z.array(marketplaceMemberSchema).max(14).default([]).meta({ title: 'On the marketplace' }),
  ageRating: z
    .enum(ageRatings)
    .default('federal')
    .meta({
      title: 'How premiums rise with age',
      labels: { federal: 'Federal curve', ...stateNames },
      description: 'Some states have a curve of their own; New York and Vermont rate no age',
    }),
  benchmarkAt21: dollars().default(0).meta({
    title: 'Benchmark plan, age 21',
    unit: 'dollars a month',
    description: 'Second-lowest silver premium for a person of 21, today; 0: as published for your county',
  }),
  planAt21: dollars().default(0).meta({
    title: 'Your plan, age 21',
    unit: 'dollars a month',
    description: 'Premium of the plan you are on for a person of 21, today; 0: as published for your county',
  }),
  countyPlan: z
    .enum(['benchmark', 'bronze'])
    .default('benchmark')
    .meta({
      title: 'Your plan, where none is typed',
      labels: { benchmark: 'The benchmark plan', bronze: 'The lowest-cost bronze plan' },
    }),
  advanceCredit: z.boolean().default(true).meta({ title: 'Take the credit in advance' }),
})

const limit = (name: LimitName) =>
  wholeNumber(0, 500).optional().meta({ title: limitWords[name], told: 'percent of the poverty level' })

const limitsSchema = z.object({
  adult: limit('adult'),
  parent: limit('parent'),
  pregnant: limit('pregnant'),
  infant: limit('infant'),
  youngChild: limit('youngChild'),
  olderChild: limit('olderChild'),
  childrensProgram: limit('childrensProgram'),
  basic: limit('basic'),
})

const medicareChoiceSchema = z.object({
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

const care = 'Care you pay yourselves'
const statePrograms = { group: 'Programs of the state', seldom: true } as const
const healthSavings = { group: 'Health savings accounts', seldom: true } as const

export const healthSchema = z.object({
  premiums: z.array(premiumLineSchema).max(20).default([]).meta({ title: 'Premiums' }),
  marketplace: marketplaceSchema.prefault({}).meta({ title: 'Marketplace' }),
  employerPlans: z.array(employerPlanSchema).max(14).default([]).meta({
    title: 'On an employer’s plan',
    description:
      'In these months neither the marketplace nor a program of the state covers them. What is kept back from pay for it is no premium here',
  }),
  medicare: medicareChoiceSchema.prefault({}).meta({ title: 'Medicare' }),
  medicaidExpansion: z
    .boolean()
    .default(false)
    .meta({
      title: 'The state covers adults to the Medicaid limit',
      ...statePrograms,
      description: 'Counts only while no state is chosen: to 138% of the federal poverty level',
    }),
  limits: limitsSchema.prefault({}).meta({
    title: 'Covered up to, in percent of the federal poverty level',
    ...statePrograms,
    description:
      'Household income up to which a program of the state covers whom. Empty: as published for your state; 0: none',
  }),
  unbornForOthers: z
    .enum(unbornCounts)
    .default('one')
    .meta({
      title: 'For others, one of us who is pregnant counts as',
      ...statePrograms,
      labels: {
        one: 'One person',
        two: 'Two people',
        expected: 'Herself and the children expected',
      },
      description:
        'In the size of the household by which Medicaid and the children’s program measure their income; your state chooses, ask its agency. For herself the children she expects always count',
    }),
  medicareFrom65: z.boolean().default(true).meta({ title: 'On Medicare from 65' }),
  savingsCover: z
    .enum(['marketplace', 'ownPlan', 'familyPlan', 'none'])
    .optional()
    .meta({
      title: 'The plan that goes with health savings accounts',
      ...healthSavings,
      labels: {
        marketplace: 'Our marketplace plan',
        ownPlan: 'Another plan, for its owner alone',
        familyPlan: 'Another plan, for more than one of us',
        none: 'None',
      },
      description:
        'A high-deductible plan, or from 2026 any bronze or catastrophic plan of the marketplace. Without one nothing may go in, nor in months on Medicare or a program of the state. Each month with it allows a twelfth of the year’s limit; the rule for coverage on December 1 (26 USC 223(b)(8)) is not used. Empty: the marketplace plan where it is the bronze plan of your county',
    }),
  careBefore65: dollars().default(0).meta({
    title: 'Care you pay yourself, before 65',
    group: care,
    unit: 'dollars a month',
    description: 'Each adult, expected, today; grows with the cost of care',
  }),
  careFrom65: dollars().default(0).meta({
    title: 'Care you pay yourself, from 65',
    group: care,
    unit: 'dollars a month',
    description: 'Each adult, expected, today; grows with the cost of care',
  }),
  careEachDependent: dollars()
    .default(0)
    .meta({ title: 'Care for each dependent', unit: 'dollars a month', group: care }),
})
