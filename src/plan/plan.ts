// The plan document: one schema that validation, forms, the command line's JSON and the documentation all read.
import { z } from 'zod'
import { farmSchema } from '#farm/farm-document.ts'
import { unknownReferences } from '#farm/references.ts'
import { firstLawYear } from '#rules/law.ts'
import { stateTaxFault } from '#rules/states/typed-tax.ts'
import { assumptionsSchema, stormSchema } from './assumption-plan.ts'
import { chanceSchema } from './chance-plan.ts'
import { drawSchema } from './draw-plan.ts'
import { monthField, nameField, wholeNumber } from './fields.ts'
import { healthSchema } from './health-plan.ts'
import { householdSchema } from './household-plan.ts'
import { eventFindings } from './life/event-checks.ts'
import { lifeEventSchema } from './life/life-events.ts'
import { savingsSchema, spendWords } from './savings-plan.ts'
import { taxSchema } from './tax-plan.ts'

/** Version of the document's shape. `upgrade.ts` brings older ones up to it. */
export const planVersion = 6

/** Years a plan can begin in: the law has figures from the first on, and is carried on no further than anyone plans. */
const lastStartYear = 2150
const startError = `Enter a month from ${firstLawYear}-01 to ${lastStartYear}-12`
const hasLaw = (text: string): boolean => {
  const year = Number.parseInt(text.trim().slice(0, 4), 10)
  return year >= firstLawYear && year <= lastStartYear
}

const planShape = z.object({
  planVersion: z.literal(planVersion).default(planVersion),
  name: nameField().default('Our plan').meta({ title: 'Name of the plan' }),
  startMonth: monthField().refine(hasLaw, { error: startError }).meta({
    title: 'First month',
    description: 'Balances are those at the start of this month, and all amounts are in its prices',
  }),
  continuesFrom: monthField().optional().meta({
    title: 'Continued from',
    description:
      'A plan under way: the month its projection begins with, from balances at the start of that month. Amounts stay in prices of the first month. Pages set it from the books',
  }),
  /** Only for a plan without people: with people it runs until the last reaches `planToAge`. */
  years: wholeNumber(1, 80)
    .default(40)
    .meta({ title: 'Years of the plan, if no people are entered', unit: 'years' }),
  household: householdSchema.prefault({}).meta({ title: 'Household' }),
  health: healthSchema.prefault({}).meta({ title: 'Health' }),
  savings: savingsSchema.prefault({}).meta({ title: 'Savings' }),
  farm: farmSchema.prefault({}).meta({ title: 'Farm' }),
  draw: drawSchema.default({ policy: 'steps', steps: [], growth: 0, withPrices: false }),
  tax: taxSchema.prefault({}).meta({ title: 'Tax' }),
  assumptions: assumptionsSchema.prefault({}).meta({ title: 'Growth and returns' }),
  events: z.array(lifeEventSchema).max(20).default([]).meta({ title: 'Life events' }),
  storms: z.array(stormSchema).max(20).default([]).meta({ title: 'Bad years' }),
  chance: chanceSchema.prefault({}).meta({ title: 'Chance' }),
})

/** The whole document, with the checks that reach across its parts. */
export const planSchema = planShape.superRefine((plan, context) => {
  for (const found of crossChecks(plan)) context.addIssue({ code: 'custom', ...found })
})

export type Plan = z.infer<typeof planShape>
export type PlanInput = z.input<typeof planShape>

interface Finding {
  path: (string | number)[]
  message: string
}

const crossChecks = (plan: Plan): Finding[] => [
  ...unknownPeople(plan),
  ...unknownAccounts(plan),
  ...unknownOnFarm(plan),
  ...repeatedIds(plan),
  ...monthsInOrder(plan),
  ...continuedAfterItsStart(plan),
  ...stateBrackets(plan),
  ...eventFindings(plan),
]

const continuedAfterItsStart = ({ startMonth, continuesFrom }: Plan): Finding[] =>
  continuesFrom === undefined || continuesFrom >= startMonth
    ? []
    : [{ path: ['continuesFrom'], message: `Enter a month from ${startMonth} on` }]

const stateBrackets = ({ tax }: Plan): Finding[] => {
  const message = stateTaxFault(tax.stateTax)
  return message === null ? [] : [{ path: ['tax', 'stateTax', 'brackets'], message }]
}

const unknownPeople = (plan: Plan): Finding[] => {
  const adults = plan.household.people.map((person) => person.id)
  const all = [...adults, ...plan.household.dependents.map((one) => one.id)]
  const named: { list: (string | number)[]; field: string; ids: (string | undefined)[]; known: string[] }[] =
    [
      {
        list: ['household', 'pay'],
        field: 'person',
        ids: plan.household.pay.map((one) => one.person),
        known: adults,
      },
      {
        list: ['household', 'sideVentures'],
        field: 'person',
        ids: plan.household.sideVentures.map((one) => one.person),
        known: adults,
      },
      {
        list: ['health', 'marketplace', 'members'],
        field: 'person',
        ids: plan.health.marketplace.members.map((one) => one.person),
        known: all,
      },
      ...(['premiums', 'employerPlans'] as const).map((list) => ({
        list: ['health', list],
        field: 'person',
        ids: plan.health[list].map((one) => one.person),
        known: all,
      })),
      {
        list: ['savings', 'accounts'],
        field: 'owner',
        ids: plan.savings.accounts.map((one) => one.owner),
        known: adults,
      },
      {
        list: ['household', 'dependents'],
        field: 'mother',
        ids: plan.household.dependents.map((one) => one.mother),
        known: adults,
      },
      { list: ['storms'], field: 'person', ids: plan.storms.map((one) => one.person), known: adults },
      { list: ['storms'], field: 'payStops', ids: plan.storms.map((one) => one.payStops), known: adults },
      { list: ['storms'], field: 'dies', ids: plan.storms.map((one) => one.dies), known: adults },
    ]
  return named.flatMap(({ list, field, ids, known }) =>
    ids.flatMap((id, i) =>
      id === undefined || known.includes(id)
        ? []
        : [
            {
              path: [...list, i, field],
              message: `No one in the plan is called ${id}. Choose one of: ${known.join(', ') || 'add people first'}`,
            },
          ],
    ),
  )
}

const unknownAccounts = (plan: Plan): Finding[] => {
  const found: Finding[] = []
  const accounts = new Set(plan.savings.accounts.map((account) => account.id))
  plan.savings.contributions.forEach((contribution, i) => {
    if (!accounts.has(contribution.account))
      found.push({
        path: ['savings', 'contributions', i, 'account'],
        message: `No account is called ${contribution.account}. Choose one of: ${[...accounts].join(', ')}`,
      })
  })
  plan.savings.conversions.forEach((conversion, i) => {
    for (const field of ['from', 'into'] as const)
      if (!accounts.has(conversion[field]))
        found.push({
          path: ['savings', 'conversions', i, field],
          message: `No account is called ${conversion[field]}. Choose one of: ${[...accounts].join(', ')}`,
        })
  })
  plan.savings.spendOrder.forEach((word, i) => {
    if (!accounts.has(word) && !spendWords.includes(word))
      found.push({
        path: ['savings', 'spendOrder', i],
        message: `No kind and no account is called ${word}. Choose from: ${[...spendWords, ...accounts].join(', ')}`,
      })
  })
  const into = plan.savings.requiredDistributionsTo
  const taken = plan.savings.accounts.filter((one) => one.kind === 'cash' || one.kind === 'taxable')
  if (into !== undefined && !taken.some((account) => account.id === into))
    found.push({
      path: ['savings', 'requiredDistributionsTo'],
      message: `Choose one of: ${taken.map((account) => account.id).join(', ')}. What the law takes out cannot go back into a retirement account`,
    })
  if (!plan.savings.accounts.some((account) => account.kind === 'cash'))
    found.push({
      path: ['savings', 'accounts'],
      message: 'Add one account of kind cash: money moves through it',
    })
  return found
}

const unknownOnFarm = ({ farm, storms }: Plan): Finding[] => [
  ...unknownReferences(farm).map(({ path, message }) => ({ path: ['farm', ...path], message })),
  ...storms.flatMap(({ name, lostMarket }, i) =>
    lostMarket === undefined || farm.markets.some((market) => market.id === lostMarket)
      ? []
      : [
          {
            path: ['storms', i, 'lostMarket'],
            message: `The farm has no market called ${lostMarket}, which the bad year “${name}” takes away. Change that bad year, or remove it`,
          },
        ],
  ),
]

const repeatedIds = (plan: Plan): Finding[] => {
  const lists: [(string | number)[], readonly { id: string }[]][] = [
    [
      ['household', 'people'],
      [...plan.household.people, ...plan.household.dependents],
    ],
    [['household', 'living'], plan.household.living],
    [['household', 'oneOffs'], plan.household.oneOffs],
    [['household', 'pay'], plan.household.pay],
    [['household', 'loans'], plan.household.loans],
    [['household', 'sideVentures'], plan.household.sideVentures],
    [['health', 'premiums'], plan.health.premiums],
    [['savings', 'accounts'], plan.savings.accounts],
    [['savings', 'contributions'], plan.savings.contributions],
    [['savings', 'conversions'], plan.savings.conversions],
    [
      ['farm', 'enterprises'],
      [...plan.farm.enterprises, ...plan.farm.herds],
    ],
    [['farm', 'markets'], plan.farm.markets],
    [['farm', 'purchases'], plan.farm.purchases],
    [['farm', 'overheads'], plan.farm.overheads],
    [['farm', 'loans'], plan.farm.loans],
    [['farm', 'facilities'], plan.farm.facilities],
    [['storms'], plan.storms],
  ]
  const found: Finding[] = []
  for (const [path, list] of lists) {
    const seen = new Set<string>()
    for (const { id } of list) {
      if (seen.has(id))
        found.push({ path, message: `Two entries are called ${id}. Give one another short name` })
      seen.add(id)
    }
  }
  return found
}

const monthsInOrder = (plan: Plan): Finding[] => {
  const found: Finding[] = []
  const spans: [(string | number)[], { from?: string | undefined; to?: string | undefined }[]][] = [
    [['household', 'living'], plan.household.living],
    [['household', 'pay'], plan.household.pay],
    [['household', 'sideVentures'], plan.household.sideVentures],
    [['health', 'premiums'], plan.health.premiums],
    [['health', 'marketplace', 'members'], plan.health.marketplace.members],
    [['health', 'employerPlans'], plan.health.employerPlans],
    [['savings', 'contributions'], plan.savings.contributions],
  ]
  for (const [path, list] of spans) {
    list.forEach((line, i) => {
      if (line.from !== undefined && line.to !== undefined && line.from > line.to)
        found.push({ path: [...path, i, 'to'], message: `Enter a month from ${line.from} on` })
    })
  }
  if (plan.draw.policy === 'ramp' && plan.draw.from > plan.draw.to)
    found.push({ path: ['draw', 'to'], message: `Enter a month from ${plan.draw.from} on` })
  return found
}
