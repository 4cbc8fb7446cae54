// Draws counted net of what the household puts back: worked by hand on small farms, and held on random plans.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { type ProjectedMonth, project } from '#runway/project.ts'
import { whySentences } from '#runway/why.ts'
import { assertFuzz, fuzzLimit } from '../fuzz/batches.ts'
import { randomPlan } from './random-plan.ts'
import { noDrawIsPutBack } from './what-holds.ts'

/** Sells 20,000 in each of July to September, pays 12,000 in each of March to May: 24,000 a year are left. */
const seasonalFarm = (change: Partial<PlanInput> = {}): Plan =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'a', name: 'A', born: '1986-01-01', planToAge: 60 }],
      living: [{ id: 'l', name: 'L', perMonth: 3000 }],
      floor: { kind: 'dollars', dollars: 5000 },
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 200_000 }] },
    farm: {
      cash: 20_000,
      enterprises: [
        {
          id: 'e',
          name: 'E',
          salesPerUnit: [0, 0, 0, 0, 0, 0, 20_000, 20_000, 20_000, 0, 0, 0],
          costsPerUnit: [0, 0, 12_000, 12_000, 12_000, 0, 0, 0, 0, 0, 0, 0],
        },
      ],
    },
    draw: { policy: 'steps', steps: [{ from: '2026-01', perMonth: 6000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0, careGrowth: 0 },
    ...change,
  })

const inYear = (months: readonly ProjectedMonth[], year: number) =>
  months.filter((one) => one.month.startsWith(String(year)))
const total = (months: readonly ProjectedMonth[], pick: (one: ProjectedMonth) => number) =>
  months.reduce((sum, one) => sum + pick(one), 0)

test('a farm that nets 24,000 a year never carries a house that costs 36,000', () => {
  const plan = seasonalFarm()
  const { months, milestones } = project(plan)
  // January to April: 20,000 in hand, 36,000 to pay before the first sale. Nothing can be spared; 16,000 are put in.
  expect(inYear(months, 2026).map((one) => one.draw)).toEqual([
    0, 0, 0, 0, 0, 0, 6000, 6000, 6000, 6000, 0, 0,
  ])
  expect(inYear(months, 2026).map((one) => one.contribution)).toEqual([
    0, 0, 0, 4000, 12_000, 0, 0, 0, 0, 0, 0, 0,
  ])
  // From October 36,000 wait for spring: every later year draws what it nets and nothing is put back.
  for (const year of [2027, 2030, 2035]) {
    expect(total(inYear(months, year), (one) => one.draw)).toBe(24_000)
    expect(total(inYear(months, year), (one) => one.contribution)).toBe(0)
    expect(inYear(months, year).at(-1)!.coverRatio).toBeCloseTo(24_000 / 36_000, 12)
  }
  // In 2026 8,000 net came over: 24,000 less the 16,000 put in.
  expect(months[11]!.coverRatio).toBeCloseTo(8000 / 36_000, 12)
  expect(milestones.carryMonth).toBe(null)
  expect(milestones.farmStandsAloneFrom).toBe(2027)
  // 200,000 less 28,000 in 2026 and 12,000 a year after: 16,000 are left at the end of 2039.
  expect(months.find((one) => one.month === '2039-12')!.spendable).toBe(16_000)
  expect(whySentences(plan, project(plan)).join(' ')).not.toContain('draws cover all household costs')
})

test('what the farm can spare is drawn before savings fall below the floor, unless the plan turns that off', () => {
  const savings = (drawsToHoldFloor: boolean): PlanInput['savings'] => ({
    drawsToHoldFloor,
    accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 200_000 }],
  })
  const [on, off] = [true, false].map((holds) => project(seasonalFarm({ savings: savings(holds) }))) as [
    ReturnType<typeof project>,
    ReturnType<typeof project>,
  ]
  // 2040 begins with 16,000 and falls by 3,000 a month to 4,000 in April, 1,000 below the floor, with the farm's cash in its seed.
  const at = (of: typeof on, month: string) => of.months.find((one) => one.month === month)!
  expect(at(on, '2040-03').spendable).toBe(7000)
  expect(at(on, '2040-04').spendable).toBe(4000)
  expect(on.milestones.floorMonth).toBe('2040-04')
  expect(off.milestones.floorMonth).toBe('2040-04')
  // A farm with 50,000 more in hand than its year needs can spare them, though the plan draws nothing.
  const rich = (holds: boolean) =>
    project(
      seasonalFarm({
        draw: { policy: 'steps', steps: [] },
        savings: savings(holds),
        farm: { ...seasonalFarm().farm, cash: 86_000 },
      }),
    )
  // Savings last 65 months above the floor (200,000 − 65 × 3,000 = 5,000); then the farm gives 3,000 a month.
  const held = rich(true)
  expect(held.months[64]!.draw).toBe(0)
  expect(held.months[65]!).toMatchObject({
    draw: 3000,
    drawToHoldFloor: 3000,
    plannedDraw: 0,
    spendable: 5000,
  })
  expect(rich(false).milestones.monthsLeft).toBe(65)
  expect(held.milestones.monthsLeft ?? 999).toBeGreaterThan(200)
})

test('cash, a loan and a dated purchase alone are a farm: its draws come out of its cash and end with it', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    years: 3,
    household: { living: [{ id: 'l', name: 'l', perMonth: 1000 }] },
    savings: { accounts: [{ id: 'c', name: 'c', kind: 'cash', balance: 100_000 }] },
    tax: { method: 'none' },
    farm: {
      cash: 50_000,
      loans: [{ id: 'q', name: 'l', principal: 12_000, yearlyRate: 0.06, months: 24, start: '2025-12' }],
      purchases: [{ id: 'p', name: 'p', cost: 7000, month: '2026-03' }],
    },
    draw: { policy: 'steps', steps: [{ from: '2026-01', perMonth: 2000 }] },
  })
  const { months, years } = project(plan)
  // 12,000 at 0.5% a month over 24 months: 531.85 a month, 12,764.34 in all.
  const payment = (12_000 * 0.005) / (1 - 1.005 ** -24)
  expect(payment).toBeCloseTo(531.85, 2)
  expect(months[0]!.farmCash).toBeCloseTo(50_000 - payment - 2000, 6)
  expect(months[2]!.farmPurchases).toBe(7000)
  // 50,000 − 7,000 − 24 payments leave 30,235.66: fifteen draws of 2,000 and one of what is left.
  const left = 50_000 - 7000 - 24 * payment - 30_000
  expect(months.slice(0, 17).map((one) => one.draw)).toEqual([
    ...new Array(15).fill(2000),
    expect.closeTo(left, 6),
    0,
  ])
  expect(months[15]!.unmetDraw).toBeCloseTo(2000 - left, 6)
  expect(months.at(-1)!.farmCash).toBeCloseTo(0, 6)
  expect(total(months, (one) => one.farmSales)).toBe(0)
  expect(total(months, (one) => one.contribution)).toBeCloseTo(0, 6)
  expect(whySentences(plan, project(plan)).join(' ')).toContain(
    'the plan names nothing that the farm sells, so $',
  )
  // No sales, and the loan's interest is a loss.
  expect(years[1]!.farmProfit).toBeLessThan(0)
})

test('a purchase that waits for cash leaves what a dated one ahead will take', () => {
  const plan = seasonalFarm({
    draw: { policy: 'steps', steps: [] },
    farm: {
      cash: 30_000,
      overheads: [{ id: 'o', name: 'O', costs: 0 }],
      purchases: [
        { id: 'wait', name: 'Tiller', cost: 8000, timing: 'when cash allows', month: '2026-02' },
        { id: 'date', name: 'Roof', cost: 25_000, month: '2026-10' },
      ],
    },
  })
  const { months } = project(plan)
  expect(total(months, (one) => one.contribution)).toBe(0)
  // 30,000 − 25,000 never leave 8,000.
  expect(total(months.slice(0, 240), (one) => one.farmPurchases)).toBe(25_000)
})

test('on random plans net draws never exceed what can be spared, and no draw is put back within the year', {
  timeout: fuzzLimit(120_000),
}, async () => {
  await assertFuzz(
    fc.property(randomPlan(), (plan) => noDrawIsPutBack(plan)),
    0.04,
    2000,
  )
})

test('a shortfall years after the farm was let is not laid to draws that the plan itself let go', () => {
  const plan = seasonalFarm({
    household: {
      people: [{ id: 'a', name: 'A', born: '1960-01-10', planToAge: 90 }],
      living: [{ id: 'l', name: 'L', perMonth: 3000 }],
      floor: { kind: 'dollars', dollars: 5000 },
    },
    farm: {
      ...seasonalFarm().farm,
      phases: [
        {
          from: '2030-01',
          name: 'Let',
          scales: [{ enterprise: 'e', value: 0 }],
          landLeasedOut: 10,
          leasePerAcreAndYear: 100,
        },
      ],
    },
    draw: { policy: 'steps', steps: [{ from: '2026-01', perMonth: 2000 }] },
    health: { medicareFrom65: false },
  })
  const projection = project(plan)
  const { floorMonth } = projection.milestones
  expect(floorMonth! > '2032-01').toBe(true)
  expect(whySentences(plan, projection)[0]).toMatch(
    /household costs run \$[\d,]+ in the year before above draws/,
  )
})

test('a course that falls in its first year tells of the months it has, not of a year', () => {
  // 17,500 less 2,500 a month: below 4,000 in the sixth month, which six months of 2,500 bring.
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      living: [{ id: 'l', name: 'L', perMonth: 2500 }],
      floor: { kind: 'dollars', dollars: 4000 },
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 17_500 }] },
    draw: { policy: 'steps', steps: [] },
    health: { medicareFrom65: false },
    tax: { method: 'none' },
    assumptions: { inflation: 0, bills: 0 },
  })
  expect(whySentences(plan, project(plan))[0]).toBe(
    '5 months left: savings fall below the floor in June 2026, because the plan draws nothing, and the household spends $15,000 more in the 6 months before than comes in.',
  )
})

test('what is drawn beyond the plan to hold the floor is no draw in the reason why savings fall', () => {
  // 77,000 in hand, nothing to pay, and no draw planned: after fifteen months savings are at the floor, and the farm gives 3,000 a month.
  const plan = seasonalFarm({
    draw: { policy: 'steps', steps: [] },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 50_000 }] },
    farm: {
      ...seasonalFarm().farm,
      cash: 77_000,
      enterprises: [],
      overheads: [{ id: 'o', name: 'O', costs: 0 }],
    },
  })
  const projection = project(plan)
  expect(total(projection.months, (one) => one.draw)).toBe(77_000)
  const [floor, ...others] = whySentences(plan, projection)
  // Twelve months of 3,000, whatever the farm gave of them.
  expect(floor).toContain(
    'because the plan draws nothing but for farm cash called on to hold the floor, and the household spends $36,000 more a year on average until then than comes in',
  )
  // Of 40 months' 120,000 the farm gives 75,000 and savings 45,000, down to their floor: 22,500 and 13,500 a year.
  expect(projection.milestones.monthsLeft).toBe(40)
  expect(floor).toContain('; the farm’s spare cash pays $22,500 of that a year, savings the rest.')
  expect(others.join(' ')).toContain('farm cash that can be spared is drawn beyond the planned draws')
})

test('where farm cash beyond planned draws holds the floor, what savings give a year, by the time, is what they fall by', () => {
  // 36,000 a year against 12,000 of planned draws; 45,000 above the floor last 22.5 months, then 3,000 a month come of the farm.
  const plan = seasonalFarm({
    draw: { policy: 'steps', steps: [{ from: '2026-01', perMonth: 1000 }] },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 50_000 }] },
    farm: {
      ...seasonalFarm().farm,
      cash: 95_000,
      enterprises: [],
      overheads: [{ id: 'o', name: 'O', costs: 0 }],
    },
  })
  const projection = project(plan)
  const left = projection.milestones.monthsLeft!
  const told =
    /run \$([\d,]+) a year on average until then above planned draws.* spare cash pays \$([\d,]+) of that a year/.exec(
      whySentences(plan, projection)[0]!,
    )!
  const [gap, called] = told.slice(1).map((one) => Number(one.replaceAll(',', ''))) as [number, number]
  expect(called).toBeGreaterThan(0)
  const savings = gap - called
  const fell = 50_000 - projection.months[left - 1]!.spendable
  expect((savings * left) / 12).toBeGreaterThan(fell - left / 12)
  expect((savings * left) / 12).toBeLessThan(fell + left / 12)
})

test('tax that is what it was the year before is no reason; what rose is, and by how much', () => {
  const house = (pay: PlanInput['household'] & object) =>
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [{ id: 'a', name: 'A', born: '1986-01-01', planToAge: 60 }],
        living: [{ id: 'l', name: 'L', perMonth: 2900 }],
        floor: { kind: 'dollars', dollars: 0 },
        ...pay,
      },
      savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 20_000 }], drawsToHoldFloor: false },
      farm: { cash: 50_000 },
      draw: { policy: 'steps', steps: [{ from: '2026-01', perMonth: 100 }] },
      tax: { method: 'share', share: 0.3 },
      assumptions: { inflation: 0, premiumGrowth: 0, careGrowth: 0, wageGrowth: 0, bills: 0 },
    })
  const level = house({ pay: [{ id: 'w', name: 'W', person: 'a', perMonth: 3000 }] })
  const course = project(level)
  // 30% of 36,000 is paid each January from 2027 on; 200 a month are left before it, so that tax of the year so far, 900 a month, is more than is there in May 2028.
  expect(inYear(course.months, 2028)[0]!.taxes).toBe(10_800)
  expect(course.milestones.floorMonth).toBe('2028-05')
  const [first] = whySentences(level, course)
  expect(first).toContain('because household costs run')
  expect(first).not.toContain('tax takes')
})

test('what draws reach at most is told of whole years: the first months of a plan are none', () => {
  // 1,800 a month from the farm and 9,000 in hand beyond its reserve: all 3,000 are drawn at first, 30,600 of 36,000 in the first year.
  const plan = seasonalFarm({
    household: { living: [{ id: 'living', name: 'Living', perMonth: 3000 }] },
    farm: {
      cash: 12_000,
      reserve: 3000,
      enterprises: [{ id: 'goats', name: 'Goats', salesPerUnit: 36_000, costsPerUnit: 14_400 }],
    },
    draw: { policy: 'sweep', from: '2026-01' },
  })
  const { months } = project(plan)
  expect(months[0]!.draw).toBe(3000)
  expect(months[11]!.coverRatio).toBeCloseTo(30_600 / 36_000, 12)
  expect(whySentences(plan, project(plan)).join(' ')).toContain(
    'reach at most 85% of household costs over a year',
  )
})
