// Health cover in the plan: plain premium lines, who is on the marketplace and when, what care costs, and Medicare's own choices.
import { z } from 'zod'
import { type LimitName, limitWords } from '#rules/coverage/coverage-limits.ts'
import { placesOfTheirOwn } from '#rules/marketplace/premium-by-age.ts'
import { dollars, idField, monthField, nameField, rate, share, signedDollars, wholeNumber } from './fields.ts'

const premiumLineSchema = z.object({
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

const marketplaceMemberSchema = z.object({
  person: idField().meta({
    title: 'Who',
    description: 'A person or dependant of the plan',
    names: 'anyone',
  }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({
    title: 'Until, that month included',
    description: 'Empty: until Medicare at 65, or until a dependant leaves',
  }),
})

/** The federal age curve, or a state’s own way by its two letters. */
export const ageRatings = ['federal', ...placesOfTheirOwn] as const

const marketplaceSchema = z.object({
  members: z.array(marketplaceMemberSchema).max(14).default([]).meta({ title: 'On the marketplace' }),
  ageRating: z.enum(ageRatings).default('federal').meta({
    title: 'How premiums rise with age',
    description:
      'By the federal curve, or by the own curve of a state named by its two letters; New York and Vermont rate no age',
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
  wholeNumber(0, 500)
    .optional()
    .meta({ title: limitWords[name], description: 'Empty: as published for your state; 0: none' })

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

export const healthSchema = z.object({
  premiums: z.array(premiumLineSchema).max(20).default([]).meta({ title: 'Premiums' }),
  marketplace: marketplaceSchema.prefault({}).meta({ title: 'Marketplace' }),
  medicare: medicareChoiceSchema.prefault({}).meta({ title: 'Medicare' }),
  medicaidExpansion: z.boolean().default(false).meta({
    title: 'The state covers adults to the Medicaid line',
    description: 'Counts only while no state is chosen: to 138% of the federal poverty level',
  }),
  limits: limitsSchema.prefault({}).meta({
    title: 'Covered up to, in percent of the federal poverty level',
    description: 'Household income up to which a program of the state covers whom',
  }),
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

const lossesGoBack = 'Needed only where a farm loss goes back'

const taxBase = (usual: 'federal-agi' | 'federal-taxable') =>
  z
    .enum(['federal-agi', 'federal-taxable'])
    .default(usual)
    .meta({
      title: 'On',
      labels: { 'federal-agi': 'Federal adjusted gross income', 'federal-taxable': 'Federal taxable income' },
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
  stateTax: z
    .discriminatedUnion('kind', [
      z
        .object({
          kind: z.literal('law'),
          localRate: rate(0, 0.2).default(0).meta({
            title: 'Local income tax',
            unit: 'share',
            description: 'Of the city, county or school district, on what it taxes in your state',
          }),
        })
        .meta({ title: 'By the law of the state you live in' }),
      z.object({ kind: z.literal('none') }).meta({ title: 'None' }),
      z
        .object({
          kind: z.literal('flat'),
          base: taxBase('federal-agi'),
          deduction: dollars().default(0).meta({ title: 'Deduction first', unit: 'dollars a year' }),
          rate: rate(0, 0.2).meta({ title: 'Rate', unit: 'share' }),
        })
        .meta({ title: 'One rate that you enter' }),
      z
        .object({
          kind: z.literal('brackets'),
          base: taxBase('federal-taxable'),
          deduction: dollars().default(0).meta({ title: 'Deduction first', unit: 'dollars a year' }),
          brackets: z
            .array(
              z.object({
                over: dollars().meta({ title: 'Over' }),
                rate: rate(0, 0.2).meta({ title: 'Rate' }),
              }),
            )
            .min(1)
            .max(20)
            .meta({ title: 'Brackets' }),
        })
        .meta({ title: 'Brackets that you enter' }),
    ])
    .default({ kind: 'law', localRate: 0 })
    .meta({
      title: 'State and local income tax',
      description:
        'By the law of the state that the household’s place names, or by rates that you enter yourself',
    }),
  region: z
    .enum(['contiguous', 'alaska', 'hawaii'])
    .default('contiguous')
    .meta({ title: 'Poverty line of', description: 'Alaska and Hawaii have their own' }),
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
  farmLosses: z
    .enum(['forward', 'back'])
    .default('forward')
    .meta({
      title: 'A farm loss that income does not use up',
      labels: { forward: 'Goes forward to later years', back: 'Goes back two years, the rest forward' },
      description:
        'Back: against the returns of the two years before, earliest first; the refund comes in May',
    }),
  averageFarmIncome: z.boolean().default(false).meta({
    title: 'Average farm income where that costs less',
    description:
      'Schedule J: farm income taxed as if it had come in the three years before. Needs their taxable income, below',
  }),
  lossRefundDue: dollars().default(0).meta({
    title: 'Tax still to come back for a farm loss',
    unit: 'dollars',
    description: 'For a loss carried back that has been filed; it comes in May',
  }),
  carried: z
    .object({
      netOperatingLoss: dollars().default(0).meta({ title: 'Operating loss', unit: 'dollars' }),
      qualifiedBusiness: dollars()
        .default(0)
        .meta({ title: 'Business income below zero', unit: 'dollars', description: 'Form 8995, line 16' }),
      shortTermLoss: dollars().default(0).meta({ title: 'Short-term capital loss', unit: 'dollars' }),
      longTermLoss: dollars().default(0).meta({ title: 'Long-term capital loss', unit: 'dollars' }),
      section179: dollars()
        .default(0)
        .meta({ title: 'Section 179 deduction', unit: 'dollars', description: 'Form 4562, line 13' }),
    })
    .prefault({})
    .meta({
      title: 'Left by earlier returns',
      description: 'Losses and deductions that the returns before the plan could not use',
    }),
  lastYear: z
    .object({
      tax: dollars().default(0).meta({ title: 'Federal tax of the year before the plan', unit: 'dollars' }),
      stateTax: dollars().default(0).meta({
        title: 'State income tax of that year',
        unit: 'dollars',
        description: 'Where the state counts: it bounds what must be paid ahead to it',
      }),
      adjustedGrossIncome: signedDollars()
        .default(0)
        .meta({ title: 'Adjusted gross income of that year', unit: 'dollars' }),
      farmShare: share().default(0).meta({ title: 'Share of gross income from farming', unit: 'share' }),
      stillDue: signedDollars().default(0).meta({
        title: 'Of that tax, still to pay as the plan begins',
        unit: 'dollars',
        description: 'Paid by April; below zero for a refund that is still to come',
      }),
      incomeTwoYearsBack: signedDollars()
        .default(0)
        .meta({ title: 'Adjusted gross income two years before', unit: 'dollars' }),
      taxableIncome: dollars()
        .default(0)
        .meta({ title: 'Taxable income of that year', unit: 'dollars', description: lossesGoBack }),
      taxableIncomeTwoYearsBack: dollars()
        .default(0)
        .meta({ title: 'Taxable income two years before', unit: 'dollars', description: lossesGoBack }),
      taxableIncomeThreeYearsBack: dollars().default(0).meta({
        title: 'Taxable income three years before',
        unit: 'dollars',
        description: 'Only where farm income is averaged',
      }),
    })
    .prefault({})
    .meta({ title: 'The year before the plan' }),
  soFar: z
    .object({
      farmProfit: signedDollars().default(0).meta({ title: 'Farm profit so far', unit: 'dollars' }),
      farmGross: dollars().default(0).meta({ title: 'Farm sales so far', unit: 'dollars' }),
      otherSelfEmployment: signedDollars()
        .default(0)
        .meta({ title: 'Side venture profit so far', unit: 'dollars' }),
      wages: dollars().default(0).meta({ title: 'Wages so far', unit: 'dollars' }),
      otherIncome: dollars().default(0).meta({ title: 'Interest and other income so far', unit: 'dollars' }),
      healthPremiums: dollars().default(0).meta({ title: 'Deductible premiums so far', unit: 'dollars' }),
      paid: dollars()
        .default(0)
        .meta({ title: 'Federal tax withheld or paid ahead so far', unit: 'dollars' }),
      statePaid: dollars()
        .default(0)
        .meta({ title: 'State tax withheld or paid ahead so far', unit: 'dollars' }),
    })
    .prefault({})
    .meta({
      title: 'This year before the first month',
      description: 'When the plan begins in the middle of a year: what its tax return will also count',
    }),
})

export type Health = z.infer<typeof healthSchema>
