// Plans for the tests of chance, our own inventions: savings alone, and a couple with a small farm.
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'

/** Savings that meet a cost: no people, no farm, no taxes. Balances earn, then money moves, at the end of each month. */
export const savingsPlan = (input: {
  savings: number
  perMonth: number
  years: number
  stocks?: number
  chance?: PlanInput['chance']
  rest?: Partial<PlanInput>
}): Plan =>
  planSchema.parse({
    startMonth: '2026-01',
    years: input.years,
    household: {
      living: input.perMonth === 0 ? [] : [{ id: 'living', name: 'Living', perMonth: input.perMonth }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: {
      accounts: [
        {
          id: 'all',
          name: 'Savings',
          kind: 'cash',
          balance: input.savings,
          mix: { stocks: input.stocks ?? 0.5, bonds: 1 - (input.stocks ?? 0.5) },
        },
      ],
    },
    tax: { method: 'none' },
    chance: input.chance ?? {},
    ...input.rest,
  })

/**
 * Two people of 45 and 47, a market garden and honey, a marketplace plan, a slower year at 60: law and chance whole. `planToAge`: where
 * what is tested needs no more years; then nobody lives longer or shorter, since simulations with drawn lives are followed to a great age.
 */
export const farmPlan = (rest: Partial<PlanInput> = {}, planToAge?: number): Plan => {
  const until = planToAge === undefined ? {} : { planToAge }
  return planSchema.parse({
    startMonth: '2026-11',
    household: {
      people: [
        {
          id: 'ida',
          name: 'Ida',
          born: '1981-06-14',
          sex: 'female',
          earnings: record(46_000, 2004, 2023),
          ...until,
        },
        {
          id: 'per',
          name: 'Per',
          born: '1979-02-03',
          sex: 'male',
          earnings: record(52_000, 2001, 2023),
          ...until,
        },
      ],
      living: [{ id: 'all', name: 'Living', perMonth: 3_200, farmShare: 0.05 }],
      sideVentures: [
        { id: 'bench', name: 'Repairs', person: 'per', perMonth: 900, costShare: 0.2, to: '2044-12' },
      ],
    },
    health: {
      marketplace: {
        members: [{ person: 'ida' }, { person: 'per' }],
        benchmarkAt21: 420,
        planAt21: 400,
      },
      careBefore65: 60,
      careFrom65: 150,
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Checking', kind: 'cash', balance: 14_000, mix: { bills: 1 } },
        {
          id: 'brokerage',
          name: 'Index funds',
          kind: 'taxable',
          balance: 150_000,
          basis: 90_000,
          mix: { stocks: 0.6, bonds: 0.4 },
        },
        {
          id: 'ira',
          name: 'Old plan',
          kind: 'traditional',
          owner: 'per',
          balance: 160_000,
          mix: { stocks: 0.6, bonds: 0.4 },
        },
      ],
    },
    farm: {
      cash: 12_000,
      reserve: 6_000,
      enterprises: [
        {
          id: 'garden',
          name: 'Garden',
          salesPerUnit: [0, 0, 500, 2000, 5000, 8000, 9500, 9500, 7500, 5000, 2000, 1000],
          costsPerUnit: 16_000,
          hoursPerUnit: 2_600,
          seasonSpread: 0.2,
        },
        {
          id: 'honey',
          name: 'Honey',
          salesPerUnit: [0, 0, 0, 0, 0, 0, 0, 2000, 2500, 1500, 1000, 500],
          costsPerUnit: 1_500,
          hoursPerUnit: 180,
          seasonSpread: 0.3,
        },
      ],
      overheads: [{ id: 'all', name: 'Overheads', costs: 5_500 }],
      phases: [{ from: '2041-01', name: 'Half days', scales: [{ enterprise: 'garden', value: 0.5 }] }],
    },
    draw: { policy: 'steps', steps: [{ from: '2026-11', perMonth: 2_400 }], withPrices: true },
    ...(planToAge === undefined ? {} : { chance: { lives: false } }),
    ...rest,
  })
}

const record = (amount: number, from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, place) => ({
    year: from + place,
    amount: amount * 0.97 ** (to - from - place),
  }))

/** Chance settings by which nothing strays: every drawn course is the expected one. */
export const quiet = {
  markets: 'stated',
  stocksSpread: 0,
  bondsSpread: 0,
  billsSpread: 0,
  inflationSpread: 0,
  seasons: false,
  premiumSpread: 0,
  careSpread: 0,
  lives: false,
} as const
