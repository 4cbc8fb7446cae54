// The plan's income tax: by which law, what earlier years left, and what was paid before the first month.
import { z } from 'zod'
import { dollars, rate, share, signedDollars } from './fields.ts'

/** Words of an amount in dollars, and per what or of when it is. */
const counted = (told: string) => (title: string, description?: string) => ({
  title,
  told,
  unit: 'dollars' as const,
  ...(description !== undefined && { description }),
})
const inYearSoFar = counted('dollars in the year so far')
const ofYear = counted('dollars a year')
const carriedIn = counted('dollars carried in')

/** What a farmer may choose at filing, and a loss on its way. */
const farmChoices = { group: 'Farm losses and choices', seldom: true } as const
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
  method: z
    .enum(['law', 'share', 'none'])
    .default('law')
    .meta({
      title: 'Taxes',
      labels: {
        law: 'By the law of each year',
        share: 'A plain share of farm, side and pay income',
        none: 'None',
      },
    }),
  share: share().default(0.15).meta({ title: 'Plain share, where that is chosen', unit: 'share' }),
  filing: z
    .enum(['joint', 'single', 'head'])
    .optional()
    .meta({
      title: 'Filing status',
      labels: { joint: 'Married filing jointly', single: 'Single', head: 'Head of household' },
      description:
        'Not entered: jointly for two people; for one, head of household in a year with a child at home, else single',
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
                over: dollars().meta({ title: 'Over', told: 'dollars of taxable income a year' }),
                rate: rate(0, 0.2).meta({ title: 'Rate', told: 'share' }),
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
  withheldForState: share().optional().meta({
    title: 'Of what is withheld, the state’s part',
    unit: 'share',
    description:
      'From pay slips: state tax withheld, divided by federal and state tax withheld. Empty: what is more than the federal tax',
  }),
  region: z
    .enum(['contiguous', 'alaska', 'hawaii'])
    .default('contiguous')
    .meta({
      title: 'Poverty level of',
      labels: { contiguous: 'The 48 states and D.C.', alaska: 'Alaska', hawaii: 'Hawaii' },
      description: 'Alaska and Hawaii have their own',
    }),
  itemized: dollars().default(0).meta({
    title: 'Itemized deductions a year',
    unit: 'dollars a year',
    description: 'Used when larger than the standard deduction; today’s prices',
  }),
  optionalSelfEmployment: z
    .boolean()
    .default(false)
    .meta({
      title: 'Use the farm optional method',
      ...farmChoices,
      description:
        'Self-employment tax on two thirds of gross farm income, up to the year’s limit, in years when it is allowed',
    }),
  farmLosses: z
    .enum(['forward', 'back'])
    .default('forward')
    .meta({
      title: 'A farm loss that income does not use up',
      ...farmChoices,
      labels: { forward: 'Goes forward to later years', back: 'Goes back two years, the rest forward' },
      description:
        'Back: against the returns of the two years before, earliest first; the refund comes in May',
    }),
  averageFarmIncome: z
    .boolean()
    .default(false)
    .meta({
      title: 'Average farm income where that costs less',
      ...farmChoices,
      description:
        'Schedule J: farm income taxed as if it had come in the three years before. Needs their taxable income, below',
    }),
  lossRefundDue: dollars()
    .default(0)
    .meta({
      title: 'Tax still to come back for a farm loss',
      told: 'dollars once',
      ...farmChoices,
      unit: 'dollars',
      description: 'For a loss carried back that has been filed; it comes in May',
    }),
  carried: z
    .object({
      netOperatingLoss: dollars().default(0).meta(carriedIn('Operating loss')),
      qualifiedBusiness: dollars()
        .default(0)
        .meta(carriedIn('Business income below zero', 'Form 8995, line 16')),
      shortTermLoss: dollars().default(0).meta(carriedIn('Short-term capital loss')),
      longTermLoss: dollars().default(0).meta(carriedIn('Long-term capital loss')),
      section179: dollars().default(0).meta(carriedIn('Section 179 deduction', 'Form 4562, line 13')),
    })
    .prefault({})
    .meta({
      title: 'Left by earlier returns',
      seldom: true,
      description: 'Losses and deductions that the returns before the plan could not use',
    }),
  lastYear: z
    .object({
      tax: dollars().default(0).meta(ofYear('Federal tax of the year before the plan')),
      stateTax: dollars()
        .default(0)
        .meta(
          ofYear(
            'State income tax of that year',
            'Where the state counts: it bounds what must be paid ahead to it',
          ),
        ),
      adjustedGrossIncome: signedDollars().default(0).meta(ofYear('Adjusted gross income of that year')),
      farmShare: share().default(0).meta({ title: 'Share of gross income from farming', unit: 'share' }),
      stillDue: signedDollars().default(0).meta({
        title: 'Of that tax, still to pay as the plan begins',
        told: 'dollars on that day',
        unit: 'dollars',
        description: 'Paid by April; below zero for a refund that is still to come',
      }),
      incomeTwoYearsBack: signedDollars().default(0).meta(ofYear('Adjusted gross income two years before')),
      taxableIncome: dollars().default(0).meta(ofYear('Taxable income of that year', lossesGoBack)),
      taxableIncomeTwoYearsBack: dollars()
        .default(0)
        .meta(ofYear('Taxable income two years before', lossesGoBack)),
      taxableIncomeThreeYearsBack: dollars()
        .default(0)
        .meta(ofYear('Taxable income three years before', 'Only where farm income is averaged')),
    })
    .prefault({})
    .meta({ title: 'The year before the plan', seldom: true }),
  soFar: z
    .object({
      farmProfit: signedDollars().default(0).meta(inYearSoFar('Farm profit so far')),
      farmGross: dollars().default(0).meta(inYearSoFar('Farm sales so far')),
      otherSelfEmployment: signedDollars().default(0).meta(inYearSoFar('Side venture profit so far')),
      wages: dollars().default(0).meta(inYearSoFar('Wages so far')),
      otherIncome: dollars().default(0).meta(inYearSoFar('Interest and other income so far')),
      earlyWithdrawals: dollars()
        .default(0)
        .meta(
          inYearSoFar(
            'Of that, taken early from retirement savings',
            'Before 59½ and free of no tax added: Form 5329, part I, line 3',
          ),
        ),
      propertyGain: signedDollars()
        .default(0)
        .meta(
          inYearSoFar(
            'Gain on breeding stock, equipment and land sold so far',
            'Form 4797, part I; below zero for a loss',
          ),
        ),
      ordinaryGain: signedDollars()
        .default(0)
        .meta(
          inYearSoFar(
            'Of such sales, taxed as ordinary income so far',
            'Form 4797, part II: depreciation recaptured, and what was not held long enough',
          ),
        ),
      healthPremiums: dollars()
        .default(0)
        .meta(inYearSoFar('Deductible premiums so far', 'Without those of the marketplace')),
      marketplaceMonths: z
        .int()
        .min(0)
        .max(11)
        .default(0)
        .meta({ title: 'Months so far with anyone on the marketplace', unit: 'months' }),
      marketplacePremiums: dollars()
        .default(0)
        .meta(inYearSoFar('Marketplace premiums of those months', 'Before any credit')),
      marketplaceBenchmark: dollars().default(0).meta(inYearSoFar('Benchmark premiums of those months')),
      advanceCredit: dollars()
        .default(0)
        .meta(inYearSoFar('Premium tax credit taken in advance in those months')),
      paid: dollars().default(0).meta(inYearSoFar('Federal tax withheld or paid ahead so far')),
      withheld: dollars()
        .default(0)
        .meta(
          inYearSoFar(
            'Of that, withheld from pay',
            'Line 25 of the return; the rest are estimated payments, line 26',
          ),
        ),
      statePaid: dollars()
        .default(0)
        .meta(inYearSoFar('State and local income tax withheld or paid ahead so far')),
      localPaid: dollars()
        .default(0)
        .meta(
          inYearSoFar(
            'Of that, to a local office',
            'Where local income tax is not paid with the state’s return',
          ),
        ),
    })
    .prefault({})
    .meta({
      title: 'This year before the first month',
      seldom: true,
      description: 'When the plan begins in the middle of a year: what its tax return will also count',
    }),
})
