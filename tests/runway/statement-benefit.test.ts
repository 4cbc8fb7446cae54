// Benefits by the estimate of the agency's statement, typed instead of an earnings record.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

const course = (person: object, more: object[] = []) =>
  project(
    planSchema.parse({
      startMonth: '2027-01',
      household: {
        people: [
          { id: 'ann', name: 'Ann', born: '1963-06-10', planToAge: 90, claimAge: { years: 67 }, ...person },
          ...more,
        ],
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 900_000 }] },
      tax: { method: 'none' },
      assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
    }),
  )
const benefitIn = ({ months }: ReturnType<typeof course>, month: string) =>
  months.find((one) => one.month === month)!.socialSecurity

// Born in 1963: full age 67; 30 percent less at 62, 24 percent more at 70 (42 USC 402(q), (w), 416(l)).
test('at full age it is paid as told; at other ages by the law’s shares', () => {
  const told = { statementBenefit: 2000 }
  expect(benefitIn(course(told), '2030-08')).toBe(2000)
  expect(benefitIn(course({ ...told, claimAge: { years: 70 } }), '2033-08')).toBe(2480)
  expect(benefitIn(course({ ...told, claimAge: { years: 65 } }), '2028-08')).toBe(
    Math.floor(2000 * (1 - 24 * (5 / 900))),
  )
  expect(benefitIn(course({ ...told, statementAt: '62', statementBenefit: 1400 }), '2030-08')).toBe(2000)
  expect(benefitIn(course({ ...told, statementAt: '70', statementBenefit: 2480 }), '2030-08')).toBe(2000)
})

test('the statement goes before a record, and moves with prices alone', () => {
  const record = [{ year: 2020, amount: 90_000 }]
  expect(benefitIn(course({ statementBenefit: 2000, earnings: record }), '2030-08')).toBe(2000)
  const rising = project(
    planSchema.parse({
      startMonth: '2027-01',
      household: {
        people: [
          {
            id: 'ann',
            name: 'Ann',
            born: '1963-06-10',
            planToAge: 90,
            claimAge: { years: 67 },
            statementBenefit: 2000,
          },
        ],
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 900_000 }] },
      tax: { method: 'none' },
      assumptions: { inflation: 0.03, wageGrowth: 0.03, bills: 0 },
    }),
  )
  expect(benefitIn(rising, '2030-08') / (2000 * 1.03 ** 3)).toBeCloseTo(1, 2)
})

test('spouse and survivor follow it: half while both live, all of it after a death', () => {
  const bo = { id: 'bo', name: 'Bo', born: '1963-03-10', planToAge: 90, claimAge: { years: 67 } }
  const couple = course({ statementBenefit: 2000, planToAge: 75 }, [bo])
  expect(benefitIn(couple, '2030-08')).toBe(3000)
  expect(benefitIn(couple, '2039-08')).toBe(2000)
})
