// The household's part of the plan: people, place, living costs, one-off items, pay, side ventures, and the floor.
import { z } from 'zod'
import { loanSchema } from '#farm/loan-document.ts'
import { stateCodes, stateNames } from '#rules/places/state-names.ts'
import {
  birthField,
  dollars,
  factor,
  hours,
  idField,
  lineLimit,
  monthField,
  nameField,
  rate,
  share,
  signedDollars,
  wholeNumber,
} from './fields.ts'
import { dependentSchema } from './life/dependent-plan.ts'
import { oneOffSchema } from './life/one-off.ts'
import { floorSchema } from './savings/floor-plan.ts'

const personSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Name' }),
  born: birthField().meta({ title: 'Born' }),
  sex: z
    .enum(['female', 'male', 'either'])
    .default('either')
    .meta({
      title: 'Life table',
      labels: { female: 'Women', male: 'Men', either: 'Both together' },
      description: 'Only chooses the life table used for simulated lives',
    }),
  planToAge: wholeNumber(50, 119).default(95).meta({
    title: 'Plan to age',
    unit: 'years',
    description: 'The plan runs until the last person reaches this age',
  }),
  earnings: z
    .array(
      z.object({
        year: wholeNumber(1951, 2200).meta({ title: 'Year', told: 'calendar year' }),
        amount: dollars().meta({ title: 'Earnings of the year', told: 'dollars a year', unit: 'dollars' }),
        estimated: z.boolean().optional().meta({ title: 'An estimate, not from the statement' }),
      }),
    )
    .max(80)
    .default([])
    .meta({
      title: 'Social Security earnings record',
      description: 'Covered earnings by year, from the Social Security statement, in dollars of each year',
      page: 'earnings',
    }),
  statementBenefit: dollars().optional().meta({
    title: 'Benefit by the agency’s statement',
    unit: 'dollars a month',
    description:
      'Instead of the record: the monthly estimate that your Social Security statement shows, in today’s dollars. It takes you to earn on as lately until you claim; enter less where the farm will earn less',
  }),
  statementAt: z
    .enum(['62', 'full', '70'])
    .default('full')
    .meta({
      title: 'That estimate is for a claim at',
      labels: { '62': '62', full: 'Full retirement age', '70': '70' },
    }),
  claimAge: z
    .object({
      years: wholeNumber(62, 70).meta({ title: 'Years', told: 'years' }),
      months: wholeNumber(0, 11).default(0).meta({ title: 'And months', told: 'months' }),
    })
    .default({ years: 67, months: 0 })
    .meta({ title: 'Claims Social Security at age' }),
  farmWorkShare: share().default(0.5).meta({
    title: 'Share of the farm’s profit',
    description: 'Self-employment earnings from the farm that count as this person’s',
  }),
  putInSoFar: z
    .object({
      traditional: dollars()
        .default(0)
        .meta({ title: 'Traditional IRA', told: 'dollars in the year so far', unit: 'dollars' }),
      roth: dollars()
        .default(0)
        .meta({ title: 'Roth IRA', told: 'dollars in the year so far', unit: 'dollars' }),
      ownPlan: dollars().default(0).meta({
        title: 'Plan of the own business',
        told: 'dollars in the year so far',
        unit: 'dollars',
        description: 'A SEP, SIMPLE or solo 401(k) that the plan has an account for',
      }),
      health: dollars()
        .default(0)
        .meta({ title: 'Health savings account', told: 'dollars in the year so far', unit: 'dollars' }),
    })
    .prefault({})
    .meta({
      title: 'Put into savings this year, before the plan’s first month',
      description:
        'When the plan begins in the middle of a year: it uses up the year’s limits, and the return takes it off',
    }),
})

const onlyInMonths = (description: string) =>
  z
    .array(wholeNumber(1, 12).meta({ told: 'month of the year, 1 to 12' }))
    .max(12)
    .default([])
    .meta({ title: 'Only in months', description })

const livingLineSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Living cost' }),
  perMonth: dollars().meta({ title: 'A month', unit: 'dollars a month', description: 'In today’s prices' }),
  months: onlyInMonths('Empty for every month; 4 and 9 for property tax in April and September'),
  growth: z
    .enum(['inflation', 'care', 'fixed'])
    .default('inflation')
    .meta({
      title: 'Grows with',
      labels: {
        inflation: 'Prices in general',
        care: 'The cost of care',
        fixed: 'Nothing: it stays the same',
      },
    }),
  extraGrowth: rate(-0.2, 0.3).default(0).meta({ title: 'And beyond that', unit: 'rate a year' }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({ title: 'Until, that month included' }),
  farmShare: share().default(0).meta({
    title: 'Share the farm replaces',
    unit: 'share',
    description: 'Farm goods used at home lower this cost; they are never cash',
  }),
  farmShareFrom: monthField().optional().meta({ title: 'Replaced from' }),
  careOfChildren: z.boolean().default(false).meta({
    title: 'Care of children under 13, so that you can work',
    description: 'Counts for the care credit of each year’s tax',
  }),
})

const paySchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Off-farm pay' }),
  person: idField().meta({ title: 'Who', names: 'adult' }),
  kind: z
    .enum(['wages', 'pension', 'fixedPension'])
    .default('wages')
    .meta({
      title: 'Kind',
      labels: {
        wages: 'Wages',
        pension: 'Pension that rises with prices',
        fixedPension: 'Pension that stays the same',
      },
      description:
        'A pension goes on while its owner lives, without Social Security tax; many states tax it less than wages. Do not enter Social Security here',
    }),
  perMonth: dollars().meta({
    title: 'Gross a month',
    unit: 'dollars a month',
    description:
      'In today’s prices. Of wages, less what the employer takes off before tax for health premiums: it is in no box of Form W-2',
  }),
  months: onlyInMonths(
    'Empty for every month; 9, 10, 11, 12, 1, 2, 3, 4, 5 and 6 for work of a school year, September to June',
  ),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({ title: 'Until, that month included' }),
  extraGrowth: rate(-0.2, 0.3).default(0).meta({ title: 'Grows beyond prices by', unit: 'rate a year' }),
  withheldShare: share().default(0).meta({
    title: 'Income tax withheld, federal and state together',
    unit: 'share',
    description:
      'Of the gross, from a pay slip; not Social Security or Medicare. Which part is the state’s is entered under Tax',
  }),
  survivorShare: share().optional().meta({
    title: 'Of a pension, paid on to the other after its owner’s death',
    unit: 'share',
    description: 'As the pension says: often half. Empty: it ends with its owner',
  }),
  hoursPerWeek: hours().default(0).meta({ title: 'Hours a week', told: 'hours a week', unit: 'hours' }),
})

const sideVentureSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Side venture' }),
  person: idField().optional().meta({ title: 'Whose work', names: 'adult' }),
  perMonth: dollars().meta({
    title: 'Takes in a month',
    unit: 'dollars a month',
    description: 'In today’s prices',
  }),
  costShare: share().default(0).meta({ title: 'Own costs, share of takings', unit: 'share' }),
  costPerMonth: dollars().default(0).meta({ title: 'Own costs a month', unit: 'dollars a month' }),
  growth: rate(-0.5, 1).default(0).meta({ title: 'Grows beyond prices by', unit: 'rate a year' }),
  growsUntil: monthField().optional().meta({ title: 'Grows until' }),
  fadesFrom: monthField().optional().meta({ title: 'Fades from' }),
  fade: rate(0, 1).default(0.2).meta({ title: 'Fades by', unit: 'rate a year' }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({ title: 'Until, that month included' }),
  hoursPerWeek: hours().default(0).meta({ title: 'Hours a week', told: 'hours a week', unit: 'hours' }),
  setAsideShare: share().default(0).meta({
    title: 'Set aside for retirement',
    unit: 'share',
    description:
      'Share of what is left after costs that goes to retirement accounts within the year’s limits',
  }),
  cash: signedDollars().default(0).meta({
    title: 'Cash of its own as the plan begins',
    told: 'dollars on that day',
    unit: 'dollars',
    description: 'Below zero: owed on its cards. Books that hold a venture of this name say it themselves',
  }),
  keeps: dollars().optional().meta({
    title: 'Keeps for its work',
    told: 'dollars held at all times',
    unit: 'dollars',
    description:
      'In today’s prices; the rest is handed over. Empty: it keeps what it holds, and bad months are paid from that',
  }),
})

const placeSchema = z.object({
  state: z.enum(stateCodes, { error: 'Choose a state' }).optional().meta({
    title: 'State',
    labels: stateNames,
    description: 'Where you live: its income tax and its rules of health coverage count',
  }),
  county: nameField().optional().meta({
    title: 'County',
    description: 'As the state calls it, like Centre County; marketplace premiums go by county',
  }),
  propertyTax: dollars().optional().meta({
    title: 'Property tax of the home a year',
    unit: 'dollars a year',
    description:
      'In today’s prices. Only for credits and deductions of your state: the cost itself is among living costs',
  }),
  rent: dollars().optional().meta({
    title: 'Rent of the home a year',
    unit: 'dollars a year',
    description: 'The same, for who rents',
  }),
})

export const householdSchema = z.object({
  place: placeSchema.prefault({}).meta({ title: 'Place' }),
  people: z
    .array(personSchema)
    .max(2, { error: 'A plan holds one or two adults' })
    .default([])
    .meta({ title: 'People' }),
  dependents: z.array(dependentSchema).max(12).default([]).meta({ title: 'Children and others at home' }),
  living: z.array(livingLineSchema).max(lineLimit).default([]).meta({ title: 'Living costs' }),
  survivorShare: share().default(0.75).meta({
    title: 'Survivor’s living costs',
    unit: 'share',
    description: 'Share of the couple’s living costs that remains after one has died',
  }),
  oneOffs: z
    .array(oneOffSchema)
    .max(lineLimit * 12)
    .default([])
    .meta({ title: 'One-off items' }),
  pay: z.array(paySchema).max(12).default([]).meta({ title: 'Off-farm pay' }),
  loans: z.array(loanSchema).max(12).default([]).meta({
    title: 'Loans of the household',
    description:
      'A mortgage, a car loan: what is owed apart from the farm. Payments count in household costs',
  }),
  sideVentures: z.array(sideVentureSchema).max(12).default([]).meta({ title: 'Side ventures' }),
  floor: floorSchema.default({ kind: 'months', months: 6 }),
  farmShareAfterDeath: factor(1)
    .default(0.5)
    .meta({ title: 'Share of the farm one person can run', unit: 'share' }),
})

export type Person = z.infer<typeof personSchema>
export type LivingLine = z.infer<typeof livingLineSchema>
export type Pay = z.infer<typeof paySchema>
export type SideVenture = z.infer<typeof sideVentureSchema>
