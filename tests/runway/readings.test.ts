// Sentences of the model that could be read two ways, each by a number worked by hand.
import { expect, test } from 'vitest'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'

const plan = (change: Partial<PlanInput>): Plan =>
  planSchema.parse({
    startMonth: '2026-01',
    years: 6,
    savings: { accounts: [{ id: 'c', name: 'c', kind: 'cash', balance: 100_000 }] },
    health: { medicareFrom65: false },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
    ...change,
  })

const at = (of: Plan, month: string) => project(of).months.find((one) => one.month === month)!

test('growth of a venture, a cost or a job that begins later begins with it', () => {
  const household: PlanInput['household'] = {
    people: [{ id: 'a', name: 'A', born: '1980-03-10', planToAge: 60 }],
    sideVentures: [{ id: 's', name: 'Bench', perMonth: 1000, growth: 0.2, from: '2030-01' }],
    living: [{ id: 'l', name: 'L', perMonth: 1000, extraGrowth: 0.1, from: '2030-07' }],
    pay: [{ id: 'p', name: 'P', person: 'a', perMonth: 2000, extraGrowth: 0.1, from: '2030-01' }],
  }
  const of = plan({ household })
  expect(at(of, '2029-12').side).toBe(0)
  expect(at(of, '2030-01').side).toBe(1000)
  expect(at(of, '2031-01').side).toBeCloseTo(1200, 9)
  // Begun in July: the first January counts half a year, the next a whole one.
  expect(at(of, '2030-12').living).toBe(1000)
  expect(at(of, '2031-01').living).toBeCloseTo(1000 * 1.1 ** 0.5, 9)
  expect(at(of, '2032-01').living).toBeCloseTo(1000 * 1.1 ** 1.5, 9)
  expect(at(of, '2030-06').pay).toBe(2000)
  expect(at(of, '2031-06').pay).toBeCloseTo(2200, 9)
})

test('a draw step begun before the plan has been raised for the Januaries since it began', () => {
  const steps = [{ from: '2023-07', perMonth: 1000 }]
  const of = plan({ draw: { policy: 'steps', growth: 0.1, steps } })
  expect(at(of, '2026-01').plannedDraw).toBeCloseTo(1331, 9)
  expect(at(of, '2027-01').plannedDraw).toBeCloseTo(1464.1, 9)
})

test('a share of trailing farm cash trails the year before the plan: the months given, or the farm’s expected ones', () => {
  const farm = {
    cash: 50_000,
    enterprises: [{ id: 'e', name: 'E', salesPerUnit: 24_000, costsPerUnit: 12_000 }],
  }
  const share = (netBefore?: number[]) =>
    plan({ farm, draw: { policy: 'share', from: '2026-01', share: 0.5, netBefore } })
  // 12,000 a year before as after: half of 1,000 a month from the first month on.
  expect(at(share(), '2026-01').draw).toBeCloseTo(500, 9)
  expect(at(share(), '2026-12').draw).toBeCloseTo(500, 9)
  // 36,000 in the year before, all of it in August: 3,000 a month until August has passed.
  const before = [0, 0, 0, 0, 0, 0, 0, 36_000, 0, 0, 0, 0]
  expect(at(share(before), '2026-01').draw).toBeCloseTo((36_000 + 1000) / 24, 9)
  expect(at(share(before), '2026-12').draw).toBeCloseTo(500, 9)
})

test('a plan to age N runs to the end of the month in which N is reached', () => {
  const people = [{ id: 'a', name: 'A', born: '1986-04-20', planToAge: 50 }]
  expect(project(plan({ household: { people } })).months.at(-1)!.month).toBe('2036-04')
})

test('tax law counts ages by the birthday, Social Security by the day before', () => {
  const person = (born: string) => {
    const of = plan({ household: { people: [{ id: 'a', name: 'A', born, planToAge: 90 }] } })
    return compilePlan(of, publishedRules(of)).people[0]!
  }
  // 59 years and six months after May 1, 1970: November 1, 2029 (26 USC 72(t)(2)(A)(i)), 46 months into the plan.
  expect(person('1970-05-01').month59Half).toBe(46)
  expect(person('1970-05-02').month59Half).toBe(46)
  // Medicare: 65 is reached on April 30, 2035, so April has it (42 USC 1395o), 111 months in.
  expect(person('1970-05-01').month65).toBe(111)
  expect(person('1970-05-02').month65).toBe(112)
  // Born on January 1, 1953: age 73 in 2026, not in 2025 (26 USC 401(a)(9)(C)(v)).
  const born = (text: string) =>
    project(
      plan({
        household: { people: [{ id: 'a', name: 'A', born: text, planToAge: 90 }] },
        savings: {
          accounts: [
            { id: 'c', name: 'c', kind: 'cash', balance: 0 },
            { id: 'i', name: 'i', kind: 'traditional', owner: 'a', balance: 265_000 },
          ],
        },
      }),
    ).months
  // 26 CFR 1.401(a)(9)-9(c): 26.5 years at 73.
  expect(born('1953-01-01')[0]!.withdrawnTraditional).toBeCloseTo(10_000, 6)
  expect(born('1954-01-01')[0]!.withdrawnTraditional).toBe(0)
  expect(born('1954-01-01')[12]!.withdrawnTraditional).toBeCloseTo(10_000, 6)
})

test('a required distribution goes to the account named for it, else to taxable savings', () => {
  const accounts = [
    { id: 'c', name: 'c', kind: 'cash' as const, balance: 0 },
    { id: 'd', name: 'd', kind: 'cash' as const, balance: 0 },
    { id: 't', name: 't', kind: 'taxable' as const, balance: 0, mix: { stocks: 0 } },
    { id: 'i', name: 'i', kind: 'traditional' as const, owner: 'a', balance: 265_000 },
  ]
  const people = [{ id: 'a', name: 'A', born: '1953-06-01', planToAge: 90 }]
  const month = (requiredDistributionsTo?: string) =>
    project(plan({ household: { people }, savings: { accounts, requiredDistributionsTo } })).months[0]!
  expect(month()).toMatchObject({ cash: 0, taxable: 10_000 })
  expect(month('d')).toMatchObject({ cash: 10_000, taxable: 0 })
  expect(() => month('i')).toThrow(/Choose one of: c, d, t/)
})

test('what the farm replaces counts for every line, however it grows', () => {
  const living = (['inflation', 'care', 'fixed'] as const).map((growth) => ({
    id: growth,
    name: growth,
    perMonth: 1000,
    farmShare: 0.1,
    growth,
  }))
  const of = plan({ household: { living }, assumptions: { inflation: 0.1, careGrowth: 0.2 } })
  expect(at(of, '2026-01')).toMatchObject({ farmGoods: 300, living: 2700 })
  expect(at(of, '2027-01').farmGoods).toBeCloseTo(110 + 120 + 100, 9)
})

test('once money is gone, what nothing can pay is told apart from savings', () => {
  const of = (perMonth: number) =>
    project(
      plan({
        household: { living: [{ id: 'l', name: 'l', perMonth }], floor: { kind: 'dollars', dollars: 0 } },
      }),
    ).milestones
  // 72 months: 100,000 of 144,000 and of 216,000.
  expect(of(2000)).toMatchObject({ lowestSpendable: 0, unmetNeed: expect.closeTo(44_000, 6) })
  expect(of(3000)).toMatchObject({ lowestSpendable: 0, unmetNeed: expect.closeTo(116_000, 6) })
  expect(of(1000)).toMatchObject({ lowestSpendable: expect.closeTo(28_000, 6), unmetNeed: 0 })
})

test('a useful life of two years is twenty-four months of work', () => {
  const purchases = [
    { id: 'p', name: 'p', cost: 0, month: '2026-03', addsCash: 1200, usefulYears: 2, valueAtEnd: 500 },
  ]
  const { months } = project(plan({ farm: { cash: 1, purchases } }))
  const gains = months.map((one) => one.farmPurchaseGains)
  expect(gains.filter((one) => Math.abs(one - 100) < 1e-9)).toHaveLength(24)
  expect(gains[3]).toBe(100)
  expect(gains[27]).toBe(500)
})

test('prices that step monthly step so for every class of cost, care and extra growth included', () => {
  const of = (priceSteps: 'monthly' | 'yearly') =>
    plan({
      startMonth: '2026-04',
      household: {
        people: [{ id: 'a', name: 'A', born: '1980-03-10', planToAge: 60 }],
        living: [
          { id: 'l', name: 'L', perMonth: 1000, extraGrowth: 0.1 },
          { id: 'k', name: 'K', perMonth: 100, growth: 'care' },
        ],
      },
      health: { medicareFrom65: false, careBefore65: 50 },
      farm: { overheads: [{ id: 'o', name: 'O', costs: 1200 }], cash: 50_000 },
      assumptions: { inflation: 0.04, careGrowth: 0.2, farmCostGrowth: 0.03, priceSteps },
    })
  // Half a year on, and a year and a half.
  for (const [month, years] of [
    ['2026-10', 0.5],
    ['2027-10', 1.5],
  ] as const) {
    const found = at(of('monthly'), month)
    expect(found.living).toBeCloseTo(1000 * 1.04 ** years * 1.1 ** years + 100 * 1.2 ** years, 6)
    expect(found.care).toBeCloseTo(50 * 1.2 ** years, 6)
    expect(found.farmOverheads).toBeCloseTo(100 * 1.04 ** years * 1.03 ** years, 6)
  }
  // Yearly: nine months of 2026 in January 2027, nothing before.
  expect(at(of('yearly'), '2026-10').care).toBe(50)
  expect(at(of('yearly'), '2027-10').care).toBeCloseTo(50 * 1.2 ** 0.75, 9)
})

test('each account can have a place of its own in the order of spending; a kind stands for those that have none', () => {
  const accounts = [
    { id: 'c', name: 'c', kind: 'cash' as const, balance: 0 },
    { id: 'near', name: 'near', kind: 'taxable' as const, balance: 1000 },
    { id: 'far', name: 'far', kind: 'taxable' as const, balance: 1000 },
    { id: 'i', name: 'i', kind: 'traditional' as const, owner: 'a', balance: 1000 },
  ]
  const household: PlanInput['household'] = {
    people: [{ id: 'a', name: 'A', born: '1960-03-10', planToAge: 80 }],
    living: [{ id: 'l', name: 'L', perMonth: 1000 }],
  }
  const order = (spendOrder: string[]) =>
    project(plan({ household, savings: { accounts, spendOrder } }))
      .months.slice(0, 3)
      .map((one) => (one.withdrawnTraditional > 0 ? 'i' : 'taxable'))
  expect(order(['cash', 'taxable', 'traditional'])).toEqual(['taxable', 'taxable', 'i'])
  expect(order(['cash', 'far', 'i', 'taxable'])).toEqual(['taxable', 'i', 'taxable'])
  expect(order(['i', 'taxable'])).toEqual(['i', 'taxable', 'taxable'])
  expect(() => order(['cash', 'brokerage'])).toThrow(/brokerage/)
})

test('with a floor of nothing, months left end with the month whose costs nothing can pay', () => {
  const household: PlanInput['household'] = {
    floor: { kind: 'dollars', dollars: 0 },
    living: [{ id: 'l', name: 'L', perMonth: 2500 }],
  }
  const savings = { accounts: [{ id: 'c', name: 'c', kind: 'cash' as const, balance: 28_000 }] }
  const run = project(plan({ household, savings }))
  // 11 months take 27,500; the twelfth is 2,000 short.
  expect(run.milestones).toMatchObject({ monthsLeft: 11, floorMonth: '2026-12', runsShort: '2026-12' })
  expect(run.months[11]!.unmetNeed).toBe(2000)
  // The same by a floor of one cent above nothing, and one month less by a floor above what is left then.
  const withFloor = (dollars: number) =>
    project(plan({ household: { ...household, floor: { kind: 'dollars', dollars } }, savings })).milestones
      .monthsLeft
  expect(withFloor(0.01)).toBe(11)
  expect(withFloor(501)).toBe(10)
  // A retirement account pays from then on, 2,000 and then 35 whole months, and is not counted: the same month.
  const ira = { id: 'i', name: 'i', kind: 'traditional' as const, balance: 90_000 }
  const more = plan({ household, savings: { accounts: [...savings.accounts, ira] } })
  expect(project(more).milestones).toMatchObject({ monthsLeft: 11, runsShort: '2029-12' })
})
