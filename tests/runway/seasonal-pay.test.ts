// Pay of some months of the year only, like that of a school bus driver from September to June.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { workAt } from '#today/cover/cover-work.ts'

const plan = (pay: object) =>
  planSchema.parse({
    startMonth: '2026-07',
    household: {
      people: [{ id: 'dee', name: 'Dee', born: '1979-03-10', planToAge: 60 }],
      pay: [
        {
          id: 'bus',
          name: 'School bus',
          person: 'dee',
          perMonth: 1900,
          withheldShare: 0.05,
          hoursPerWeek: 24,
          ...pay,
        },
      ],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
  })

const schoolYear = [9, 10, 11, 12, 1, 2, 3, 4, 5, 6]

test('is paid, withheld from and taxed in those months alone', () => {
  const { months, years } = project(plan({ months: schoolYear }))
  const paid = (month: string) => months.find((one) => one.month === month)!.pay
  // 7.65 percent for Social Security and Medicare (26 USC 3101), 5 percent income tax.
  const net = 1900 * (1 - 0.0765 - 0.05)
  for (const month of ['2026-07', '2026-08', '2027-07', '2027-08']) expect(paid(month)).toBe(0)
  for (const month of ['2026-09', '2026-12', '2027-01', '2027-06', '2027-09'])
    expect(paid(month)).toBeCloseTo(net, 6)
  // Four months of 2026, ten of 2027.
  expect(years[0]!.wages).toBeCloseTo(7600, 6)
  expect(years[1]!.wages).toBeCloseTo(19_000, 6)
  expect(years[1]!.adjustedGrossIncome).toBeCloseTo(19_000, 0)
})

test('without months it is paid in every one, as before', () => {
  const { years } = project(plan({}))
  expect(years.slice(0, 2).map(({ wages }) => wages)).toEqual([11_400, 22_800])
})

test('a pension of some months comes in those months', () => {
  const { years } = project(plan({ kind: 'fixedPension', months: [3, 9] }))
  expect(years.slice(0, 2).map(({ pensions }) => pensions)).toEqual([1900, 3800])
})

test('hours that count for Medicaid’s work requirement are those of the year’s mean', () => {
  const person = { id: 'dee', age: 48 } as Parameters<typeof workAt>[2]
  const work = workAt(plan({ months: schoolYear }), { year: 2027, people: [] } as never, person, 19_000)
  // 24 hours in 10 of 12 months, 52 weeks in 12 months.
  expect(work!.hoursMonthly).toBeCloseTo((24 * 10 * 52) / 144, 6)
})
