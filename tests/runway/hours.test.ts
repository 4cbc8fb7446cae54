// Hours that somebody must work: hired where the plan hires, else the farm does less; worked by hand on one enterprise.
import { expect, test } from 'vitest'
import type { FarmInput } from '#farm/farm-document.ts'
import { farmYear } from '#farm/farm-year.ts'
import { stormSchema } from '#plan/assumption-plan.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { projectStorm } from '#runway/storms/storm.ts'
import { whySentences } from '#runway/why.ts'

/** 240 hours, 4,000 of sales and 1,000 of costs in each month; two people of 60 to 61. */
const plan = (farm: Partial<FarmInput>, planToAge = { ash: 62, birch: 62 }): Plan =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        { id: 'ash', name: 'Ash', born: '1966-06-15', planToAge: planToAge.ash },
        { id: 'birch', name: 'Birch', born: '1966-06-15', planToAge: planToAge.birch },
      ],
      living: [{ id: 'l', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 100_000 }] },
    farm: {
      cash: 10_000,
      enterprises: [
        { id: 'beds', name: 'Beds', salesPerUnit: 48_000, costsPerUnit: 12_000, hoursPerUnit: 2880 },
      ],
      ...farm,
    },
    draw: { policy: 'steps', steps: [] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  })

const weeks = 365.25 / 84
const crew = (ash: number, birch: number) => [
  { who: 'ash', weeklyHours: ash },
  { who: 'birch', weeklyHours: birch },
]

test('a crew with hours enough costs nothing and sells all', () => {
  const month = project(plan({ crew: crew(40, 30) })).months[0]!
  expect(month).toMatchObject({ farmSales: 4000, farmCosts: 1000, farmHours: 240, undoneHours: 0 })
})

test('hours beyond the crew are hired where the plan hires', () => {
  const hired = { hourlyCost: 20, weeklyHours: 1 }
  const month = project(plan({ crew: crew(20, 10), hired })).months[0]!
  // 30 hours a week are 130.45 a month; 109.55 of the 240 are hired at $20.
  const beyond = 240 - 30 * weeks
  expect(month.hiredHours).toBeCloseTo(beyond, 9)
  expect(month.farmCosts).toBeCloseTo(1000 + 20 * beyond, 9)
  expect(month.farmHired).toBeCloseTo(20 * beyond, 9)
  expect(month.farmSales).toBe(4000)
  expect(month.farmHours).toBeCloseTo(240, 9)
})

test('where it does not hire they are not done: the enterprise shrinks to the hours there are, and the page says so', () => {
  const of = plan({ crew: crew(5, 5) })
  const projection = project(of)
  const share = (10 * weeks) / 240
  expect(share).toBeCloseTo(0.1812, 4)
  expect(projection.months[0]!.farmSales).toBeCloseTo(4000 * share, 9)
  expect(projection.months[0]!.farmCosts).toBeCloseTo(1000 * share, 9)
  expect(projection.months[0]!.farmHours).toBeCloseTo(10 * weeks, 9)
  expect(projection.months[0]!.undoneHours).toBeCloseTo(240 - 10 * weeks, 9)
  // 2,880 hours less 12 × 43.48 are 2,358 a year: 18 % are done.
  expect(whySentences(of, projection)).toContain(
    'In 2026 the farm has 2,358 hours more than its crew can work, and the plan hires nobody: 18% of its work is done, and its enterprises bring so much less.',
  )
  expect(farmYear(of.farm, 2026).net).toBeCloseTo(12 * 3000 * share, 6)
})

test('hours missed in spring are missed in fall: the share is a year’s', () => {
  const spring = [240, 240, 240, 0, 0, 0, 0, 0, 0, 0, 0, 0]
  const fall = [0, 0, 0, 0, 0, 0, 0, 0, 0, 16_000, 16_000, 16_000]
  const enterprises = [{ id: 'b', name: 'B', salesPerUnit: fall, hoursPerUnit: spring }]
  const { months } = project(plan({ crew: crew(20, 7.5977), enterprises }))
  // 27.5977 hours a week are 120 a month, half of what spring asks.
  expect(months[9]!.farmSales).toBeCloseTo(8000, 0)
})

test('a plan that names no crew neither hires nor shrinks', () => {
  expect(project(plan({})).months[0]!).toMatchObject({ farmSales: 4000, farmCosts: 1000, hiredHours: 0 })
})

test('a purchase that saves hours lowers what is hired, then what the crew works, never below nothing', () => {
  const hired = { hourlyCost: 20, weeklyHours: 1 }
  const purchases = (savesHours: number) => [
    { id: 'p', name: 'P', cost: 0, month: '2025-06', savesHours, usefulYears: 20 },
  ]
  const month = (savesHours: number) =>
    project(plan({ crew: crew(20, 10), hired, purchases: purchases(savesHours) })).months[0]!
  const beyond = 240 - 30 * weeks
  expect(month(600).hiredHours).toBeCloseTo(beyond - 50, 9)
  expect(month(600).farmHired).toBeCloseTo(20 * (beyond - 50), 9)
  expect(month(1800)).toMatchObject({ hiredHours: 0, farmHours: 90 })
  expect(month(6000)).toMatchObject({ hiredHours: 0, farmHours: 0 })
})

test('after a death the farm asks for the hours of what one keeps up, and no fewer than none', () => {
  const { months } = project(plan({ crew: crew(30, 30) }, { ash: 60, birch: 62 }))
  const after = months.find((one) => one.month === '2026-07')!
  // Half of 240; one alone has 130.45.
  expect(after.farmHours).toBeCloseTo(120, 9)
  expect(after.farmSales).toBe(2000)
})

test('work lost to an injury costs wages where the plan hires and output where it does not', () => {
  const injury = stormSchema.parse({ id: 'i', name: 'I', from: '2026-04', months: 3, person: 'ash' })
  const struck = (farm: Partial<FarmInput>) => {
    const of = plan({ crew: crew(30, 30), ...farm })
    return projectStorm(of, publishedRules(of), injury).months
  }
  const left = 30 * weeks
  const wages = struck({ hired: { hourlyCost: 20, weeklyHours: 1, paid: 'only when needed' } })
  expect(wages[3]!.farmHired).toBeCloseTo(20 * (240 - left), 9)
  expect(wages[6]!.farmHired).toBe(0)
  const output = struck({})
  expect(output[2]!.farmSales).toBe(4000)
  expect(output[3]!.farmSales).toBeCloseTo(4000 * (left / 240), 9)
  expect(output[6]!.farmSales).toBe(4000)
})

test('hours that a death leaves to nobody are hired where the plan hires, and scale the farm down where it does not', () => {
  // All of the farm is kept up by one of the two: 240 hours a month against 30 a week, 130.45.
  const after = (farm: Partial<FarmInput>) => {
    const of = plan({ crew: crew(30, 30), ...farm }, { ash: 60, birch: 62 })
    const whole = { ...of, household: { ...of.household, farmShareAfterDeath: 1 } }
    // Of the year after, which has no month with both.
    return project(whole).months.find((one) => one.month === '2027-07')!
  }
  const left = 30 * weeks
  const hired = after({ hired: { hourlyCost: 20, weeklyHours: 1 } })
  expect(hired).toMatchObject({ farmSales: 4000, undoneHours: 0 })
  expect(hired.hiredHours).toBeCloseTo(240 - left, 9)
  expect(hired.farmHired).toBeCloseTo(20 * (240 - left), 9)
  const smaller = after({})
  expect(smaller.undoneHours).toBeCloseTo(240 - left, 9)
  expect(smaller.farmSales).toBeCloseTo(4000 * (left / 240), 9)
  expect(smaller.farmCosts).toBeCloseTo(1000 * (left / 240), 9)
  expect(smaller.farmHired).toBe(0)
})

test('a bad year in which one dies, or hours are lost to all, hires or scales down as well', () => {
  const struck = (storm: object, farm: Partial<FarmInput>) => {
    const of = plan({ crew: crew(30, 30), ...farm })
    const whole = { ...of, household: { ...of.household, farmShareAfterDeath: 1 } }
    const bad = stormSchema.parse({ id: 'b', name: 'B', from: '2026-01', months: 24, ...storm })
    return projectStorm(whole, publishedRules(whole), bad).months
  }
  const help = { hired: { hourlyCost: 20, weeklyHours: 1 } }
  const left = 30 * weeks
  // One of two dies as the plan begins: in the second month the other has 130.45 of 240 hours.
  expect(struck({ dies: 'ash' }, help)[14]!.farmHired).toBeCloseTo(20 * (240 - left), 9)
  expect(struck({ dies: 'ash' }, {})[14]!.farmSales).toBeCloseTo(4000 * (left / 240), 9)
  // 20 hours a week less of both together: 40 are 173.93 a month.
  const fewer = 40 * weeks
  expect(struck({ hoursLostPerWeek: 20 }, help)[3]!.farmHired).toBeCloseTo(20 * (240 - fewer), 9)
  expect(struck({ hoursLostPerWeek: 20 }, {})[3]!.farmSales).toBeCloseTo(4000 * (fewer / 240), 9)
})
