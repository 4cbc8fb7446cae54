// Hired help as planned work: what an hour costs with payroll tax and workers' compensation, and which lines its wages pass.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { farmSchema } from '#farm/farm-document.ts'
import { costOfHour, hiredYear } from '#farm/hired-help.ts'

const farm = (hired: object) =>
  farmSchema.parse({
    enterprises: [{ id: 'garden', name: 'Garden', hoursPerUnit: 1200, salesPerUnit: 60_000 }],
    crew: [{ who: 'ann', weeklyHours: 0 }],
    hired,
  })

// 26 USC 3111: 6.2 and 1.45 percent of wages. 18.00 an hour: 1.377 of payroll tax, and at 8 percent 1.44 of compensation.
test('an hour costs its wage, the employer’s payroll tax and workers’ compensation', () => {
  expect(costOfHour(farm({ wage: 18, compensationRate: 0.08 }).hired)).toBeCloseTo(20.817, 9)
  // Without a wage the plan's own figure stands, whatever else is said.
  expect(costOfHour(farm({ hourlyCost: 23, compensationRate: 0.08 }).hired)).toBe(23)
})

test('hours beyond the crew are paid at that cost where the plan hires', () => {
  const one = farm({ wage: 18, compensationRate: 0.08, weeklyHours: 5 })
  const course = farmCourse(one, month(2027, 1), 12)
  expect(course.hiredCosts.reduce((a, b) => a + b, 0)).toBeCloseTo(1200 * 20.817, 6)
  const year = hiredYear(one, Array.from(course.work.hired))
  expect(year).toMatchObject({ passesWageTest: true, passesUnemploymentTest: false })
  expect(year.wages).toBeCloseTo(21_600, 6)
  expect(year.payrollTax).toBeCloseTo(1652.4, 6)
  expect(year.compensation).toBeCloseTo(1728, 6)
  expect(year.cost).toBeCloseTo(year.wages! + year.payrollTax! + year.compensation!, 6)
})

// 26 USC 3121(a)(8)(B): 2,500 of all wages; 26 USC 3306(a)(2): 20,000 in one quarter.
test('lines are passed at their dollar, not below', () => {
  const hours = (january: number) => [january, ...new Array<number>(11).fill(0)]
  const one = farm({ wage: 25 })
  expect(hiredYear(one, hours(99)).passesWageTest).toBe(false)
  expect(hiredYear(one, hours(100)).passesWageTest).toBe(true)
  expect(hiredYear(one, hours(799)).passesUnemploymentTest).toBe(false)
  expect(hiredYear(one, hours(800)).passesUnemploymentTest).toBe(true)
})
