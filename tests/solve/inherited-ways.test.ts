// Ways of using accounts where one was inherited: what the law asks for of it, in even parts or at the end. Households of our own invention.
import { expect, test, vi } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { orderWays } from '#solve/ways/account-order.ts'
import { changeOf, solveWays } from '#solve/ways.ts'
import { quiet } from '../chance/plans.ts'
import { asking } from './asking.ts'

vi.setConfig({ testTimeout: 120_000 })

type Accounts = NonNullable<PlanInput['savings']>['accounts']

/** Ole is 61 and Ida 54 in May 2027. */
const oleAndIda = (accounts: Accounts) =>
  planSchema.parse({
    startMonth: '2027-05',
    household: {
      people: [
        { id: 'ole', name: 'Ole', born: '1966-02-10', sex: 'male', planToAge: 80 },
        { id: 'ida', name: 'Ida', born: '1972-09-03', sex: 'female', planToAge: 74 },
      ],
      living: [{ id: 'all', name: 'Living', perMonth: 1_000 }],
    },
    savings: { accounts, spendRetirementBeforeAge: true },
    chance: quiet,
    assumptions: { inflation: 0 },
  })

const jar = { id: 'jar', name: 'Checking', kind: 'cash', balance: 90_000 } as const
const his = { id: 'his', name: 'His IRA', kind: 'traditional', owner: 'ole', balance: 80_000 } as const
const uncle = {
  id: 'uncle',
  name: 'From uncle',
  kind: 'traditional',
  owner: 'ida',
  balance: 60_000,
  inherited: 'tenYears',
  inheritedIn: '2025-03',
  inheritedFromBorn: 1958,
} as const

const namesOf = (accounts: Accounts) => orderWays(oleAndIda(accounts)).map(({ id }) => id)

test('even payments before 59½ are offered only where an account of one’s own would bear the addition', () => {
  // 26 USC 72(t)(2)(A)(ii): what comes out of an inherited account bears it at no age; Ole is past 59½.
  expect(namesOf([jar, his, uncle])).not.toContain('even-payments')
  const hers = { ...his, id: 'hers', name: 'Her IRA', owner: 'ida' } as const
  const way = orderWays(oleAndIda([jar, his, uncle, hers])).find(({ id }) => id === 'even-payments')!
  expect(way.says).toMatch(/^Even payments by life expectancy from May 2027 out of Her IRA, without/)
  const changed = way.change(oleAndIda([jar, his, uncle, hers])).savings.accounts
  expect(changed.map(({ evenPaymentsFrom }) => evenPaymentsFrom)).toEqual([
    undefined,
    undefined,
    undefined,
    '2027-05',
  ])
})

test('to use retirement accounts before 59½ is offered for none that was inherited', () => {
  const kept = oleAndIda([jar, his, uncle])
  kept.savings.spendRetirementBeforeAge = false
  expect(orderWays(kept).map(({ id }) => id)).not.toContain('before-59')
})

test('what was inherited is tried in even parts until the year it must be empty, where it is not already, nor over a life', () => {
  const way = orderWays(oleAndIda([jar, his, uncle])).find(({ id }) => id === 'inherited-evenly')!
  // Ten years after that of the death, 2025 (26 USC 401(a)(9)(B)(ii)).
  expect(way.says).toContain('From uncle until 2035')
  expect(way.change(oleAndIda([jar, his, uncle])).savings.accounts[2]).toMatchObject({
    inheritedTaken: 'evenly',
  })
  expect(namesOf([jar, his, { ...uncle, inheritedTaken: 'evenly' }])).not.toContain('inherited-evenly')
  expect(namesOf([jar, his, { ...uncle, inherited: 'lifetime' }])).not.toContain('inherited-evenly')
  expect(namesOf([jar, his, { ...uncle, kind: 'roth' }])).not.toContain('inherited-evenly')
  expect(namesOf([jar, his, { ...uncle, balance: 0 }])).not.toContain('inherited-evenly')
})

test('even parts of what was inherited use the deduction of each year, and are tried with the best conversions too', async () => {
  // Who died was born in 1958, before the age of minimums: nothing must come out before 2035 (26 USC 401(a)(9)(B)(ii)), and then 60,000
  // at once is taxed. In eight parts of 7,500 from January 2028 on it all lies under the deduction of the two, and no tax is due on it.
  const rich = { ...jar, balance: 450_000 }
  const plan = oleAndIda([rich, uncle])
  const found = await solveWays('account-order', asking(plan, 50))
  const of = (id: string) => found.ways.find((way) => way.id === id)!
  expect(of('plan').tax).toBeGreaterThan(1_000)
  expect(of('inherited-evenly').tax).toBeLessThan(0.1 * of('plan').tax)
  expect(of('inherited-evenly').leftMore).toBeGreaterThan(1_000)
  const withOwn = await solveWays('account-order', asking(oleAndIda([rich, his, uncle]), 50))
  const pairs = withOwn.ways.map(({ id }) => id).filter((id) => id.startsWith('inherited-evenly+convert-'))
  expect(pairs.length).toBe(2)
  const both = changeOf('account-order', pairs[0]!)(oleAndIda([jar, his, uncle]))!
  expect(both.savings.accounts[2]).toMatchObject({ inheritedTaken: 'evenly' })
  expect(both.savings.conversions.map(({ from }) => from)).toEqual(['his'])
})
