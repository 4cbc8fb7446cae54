// The checks of a plan that reach across its parts: every name must stand for something, once, and months must be in order.
import { unknownReferences } from '#farm/references.ts'
import type { Plan } from './plan.ts'

export interface Finding {
  path: (string | number)[]
  message: string
}

export const crossChecks = (plan: Plan): Finding[] => [
  ...unknownPeople(plan),
  ...unknownAccounts(plan),
  ...unknownOnFarm(plan),
  ...repeatedIds(plan),
  ...monthsInOrder(plan),
]

const unknownPeople = (plan: Plan): Finding[] => {
  const adults = plan.household.people.map((person) => person.id)
  const all = [...adults, ...plan.household.dependants.map((one) => one.id)]
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
      {
        list: ['savings', 'accounts'],
        field: 'owner',
        ids: plan.savings.accounts.map((one) => one.owner),
        known: adults,
      },
      { list: ['storms'], field: 'person', ids: plan.storms.map((one) => one.person), known: adults },
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
            message: `The farm has no market called ${lostMarket}, which the storm “${name}” takes away. Change that storm, or take it out`,
          },
        ],
  ),
]

const repeatedIds = (plan: Plan): Finding[] => {
  const lists: [(string | number)[], readonly { id: string }[]][] = [
    [
      ['household', 'people'],
      [...plan.household.people, ...plan.household.dependants],
    ],
    [['household', 'living'], plan.household.living],
    [['household', 'oneOffs'], plan.household.oneOffs],
    [['household', 'pay'], plan.household.pay],
    [['household', 'sideVentures'], plan.household.sideVentures],
    [['health', 'premiums'], plan.health.premiums],
    [['savings', 'accounts'], plan.savings.accounts],
    [['savings', 'contributions'], plan.savings.contributions],
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
