// What may go into retirement accounts in a year: the law's limit, and not more than the year earns (26 USC 219(b)(1), 408A(c)(2)).
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

/** Ann, 41, with a gift of 40,000 in March 2026 and pay of so much a month; all that is left over goes to her Roth account. */
const rothAtYearEnd = (payPerMonth: number, method: 'law' | 'none' = 'law') => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 }],
      pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: payPerMonth }],
      living: [{ id: 'living', name: 'Living', perMonth: 100 }],
      oneOffs: [{ id: 'gift', name: 'Gift', month: '2026-03', cost: -40_000 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 5000 },
        { id: 'roth', name: 'Roth', kind: 'roth', balance: 0, mix: { stocks: 0, bonds: 0, bills: 1 } },
      ],
      reserveMonths: 0,
      surplusToRetirement: 1,
    },
    tax: { method },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
  })
  return project(plan).months[11]!.roth
}

test('contributions stop at the year’s limit where more is earned, and at what is earned where less is', () => {
  expect(rothAtYearEnd(2000)).toBeCloseTo(7500, 6)
  expect(rothAtYearEnd(400)).toBeCloseTo(4800, 6)
  expect(rothAtYearEnd(0)).toBe(0)
  expect(rothAtYearEnd(400, 'none')).toBeCloseTo(4800, 6)
})
