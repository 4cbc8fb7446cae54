// What is left over lies where the plan lets it lie, and where that earns nothing for decades the plan says so. By hand: 1,500 a month of
// a pension beyond costs in each month, no tax, no prices.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { idleCashSentence } from '#runway/savings/idle-cash.ts'
import { whySentences } from '#runway/why.ts'

type Accounts = NonNullable<PlanInput['savings']>['accounts']

const planOf = (accounts: Accounts, perMonth = 3500) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1976-01-15', planToAge: 80 }],
      pay: [{ id: 'rent', name: 'Pension', kind: 'fixedPension', person: 'ann', perMonth }],
      living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
    },
    savings: { accounts },
    health: { medicareFrom65: false },
    tax: { method: 'none' },
    assumptions: { inflation: 0, wageGrowth: 0, premiumGrowth: 0, careGrowth: 0, bills: 0.03 },
  })

const checking = { id: 'checking', name: 'Checking', kind: 'cash' as const, balance: 10_000 }
const sentence = (accounts: Accounts, perMonth?: number) => {
  const plan = planOf(accounts, perMonth)
  return idleCashSentence(plan, project(plan))
}

test('a surplus of 1,500 a month in an account that earns nothing is said with how much it comes to', () => {
  const plan = planOf([checking])
  const course = project(plan)
  // To the end of January 2056: 361 months of 1,500, and 10,000.
  expect(course.months).toHaveLength(361)
  const said =
    'What comes in beyond costs lies in “Checking”, which earns nothing by the plan: $551,500 in January 2056. The plan’s savings section is where to give that account a rate, or to add a taxable one for what is left over.'
  expect(idleCashSentence(plan, course)).toEqual([said])
  expect(whySentences(plan, course, null)).toContain(said)
})

test('nothing is said where it earns, where a taxable account takes it, or where it never comes to much', () => {
  const bills = { stocks: 0, bonds: 0, bills: 1 }
  expect(sentence([{ ...checking, mix: bills }])).toEqual([])
  const taxable = { id: 'fund', name: 'Fund', kind: 'taxable' as const, balance: 0, mix: bills }
  expect(sentence([checking, taxable])).toEqual([])
  // 100 a month more than costs: 46,000 after thirty years is more than two years of costs, 48,000, never.
  expect(sentence([checking], 2100)).toEqual([])
})
