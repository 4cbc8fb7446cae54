// Cover changes within a year: pay ends, a child is expected and born. Incomes of a month by 42 CFR 435.603(h)(1), sizes of a household by
// 435.603(b); Minnesota's basic program by its income guidelines of 2026: 53,300 dollars for three, 200 % of the level of 2025.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { incomeRoom } from '#rules/marketplace/income-room.ts'
import { programPovertyLine } from '#rules/marketplace/premium-credit.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { householdOfYear } from '#today/cover/cover-household.ts'
import { coverYears } from '#today/cover/cover-years.ts'

const still = { inflation: 0, wageGrowth: 0, bills: 0 }
const lineOf = (year: number, size: number) => programPovertyLine(lawFor(year, steadyIndexing(0)), 0, size)

const kindsOf = (input: PlanInput, name: string, count = 12) =>
  project(planSchema.parse(input))
    .coverage.find((one) => one.name === name)!
    .months.slice(0, count)

const yearOf = (input: PlanInput, year: number) => {
  const plan = planSchema.parse(input)
  return coverYears(plan, publishedRules(plan), project(plan)).find((one) => one.year === year)!
}

/** Maren and a child in Kentucky: 52,000 of wages to August 2026, then so much a month. */
const leaver = (perMonth: number, wages = 52_000): PlanInput => ({
  startMonth: '2026-09',
  household: {
    place: { state: 'KY' },
    people: [{ id: 'maren', name: 'Maren', born: '1979-04-03', planToAge: 60 }],
    dependents: [{ id: 'bo', name: 'Bo', born: '2015-06-01' }],
    pay: [{ id: 'pay', name: 'Pay', person: 'maren', perMonth }],
  },
  health: { marketplace: { members: [{ person: 'maren' }], planAt21: 300, benchmarkAt21: 300 } },
  tax: { method: 'law', filing: 'single', soFar: { wages } },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
  assumptions: still,
})

test('pay that has ended counts no more: 1,600 a month is 89 percent of the month’s line of two', () => {
  expect(lineOf(2026, 2)).toBe(21_640)
  // 138 percent of 21,640 is 2,488.60 a month; the year as a whole, 58,400, is 270 percent.
  expect(kindsOf(leaver(1600), 'Maren', 4)).toEqual(Array(4).fill('Medicaid'))
  expect(kindsOf(leaver(2480), 'Maren', 4)).toEqual(Array(4).fill('Medicaid'))
  expect(kindsOf(leaver(2500), 'Maren', 4)).toEqual(Array(4).fill('marketplace'))
  // 20,000 before September: the same lines.
  expect(kindsOf(leaver(2480, 20_000), 'Maren', 4)).toEqual(Array(4).fill('Medicaid'))
  expect(kindsOf(leaver(2500, 20_000), 'Maren', 4)).toEqual(Array(4).fill('marketplace'))
})

test('the map of income has the line of the months ahead on top of what is behind', () => {
  const year = yearOf(leaver(1600), 2026)
  const medicaid = year.steps.find(({ limit }) => limit?.percent === 138)!
  // 52,000 and four twelfths of 29,863.20.
  expect((medicaid.toPercent * 21_640) / 100).toBeCloseTo(52_000 + (29_863.2 * 4) / 12, 2)
  expect(medicaid.limit).toEqual({ percent: 138, people: 2, byCreditLine: false, ofMonths: true })
})

/** Ana and Sem in Minnesota with a child of two; another is due in March 2027, Ana's. Wages of so much a year. */
const expecting = (perYear: number, startMonth = '2026-01'): PlanInput => ({
  startMonth,
  household: {
    place: { state: 'MN' },
    people: [
      { id: 'ana', name: 'Ana', born: '1994-07-10', planToAge: 60 },
      { id: 'sem', name: 'Sem', born: '1992-03-02', planToAge: 60 },
    ],
    dependents: [
      { id: 'ida', name: 'Ida', born: '2024-05-20' },
      { id: 'new', name: 'New', born: '2027-03-10', mother: 'ana' },
    ],
    pay: [{ id: 'pay', name: 'Pay', person: 'sem', perMonth: perYear / 12 }],
  },
  health: {
    marketplace: { members: [{ person: 'ana' }, { person: 'sem' }], planAt21: 300, benchmarkAt21: 300 },
  },
  tax: { method: 'law', filing: 'joint' },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
  assumptions: still,
})

test('Minnesota’s basic program goes by the guidelines of the year before', () => {
  expect(kindsOf(expecting(53_280), 'Sem')).toEqual(Array(12).fill('basic health program'))
  expect(kindsOf(expecting(53_340), 'Sem')).toEqual(Array(12).fill('marketplace'))
  const basic = yearOf(expecting(40_000), 2026).steps.find(({ limit }) => limit?.byCreditLine)!
  expect((basic.toPercent * lineOf(2026, 3)) / 100).toBeCloseTo(53_300, 2)
  expect(basic.limit).toEqual({ percent: 200, people: 3, byCreditLine: true, ofMonths: false })
})

test('who is pregnant passes to Medicaid within the year, and the map says from when', () => {
  const input = expecting(40_000)
  // 40,000 is 121 percent of 33,000 for four, and 146 percent of 27,320 for three.
  expect(kindsOf(input, 'Ana')).toEqual([
    ...Array(5).fill('basic health program'),
    ...Array(7).fill('Medicaid'),
  ])
  expect(kindsOf(input, 'Sem')).toEqual(Array(12).fill('basic health program'))
  const step = yearOf(input, 2026).steps.find(({ toPercent }) => (toPercent * 27_320) / 100 > 40_000)!
  expect(step.people.find(({ name }) => name === 'Ana')).toMatchObject({
    kind: 'basic health program',
    later: [{ month: 6, kind: 'Medicaid' }],
  })
})

test('a child of the year counts for the others from its birth on', () => {
  // 130 percent of the line of four is some 157 percent of that of three: until March he is in the basic program.
  const income = Math.round((lineOf(2027, 4) * 130) / 100)
  expect((income * 100) / lineOf(2027, 3)).toBeGreaterThan(138)
  const kinds = kindsOf(expecting(income, '2027-01'), 'Sem')
  expect(kinds).toEqual([...Array(2).fill('basic health program'), ...Array(10).fill('Medicaid')])
})

test('more profit is each one’s as the profit is: a loss of 9,000 halved bears no tax until it is made up', () => {
  const input = expecting(38_000)
  const plan = planSchema.parse(input)
  const law = lawFor(2026, steadyIndexing(0))
  const [year] = coverYears(plan, publishedRules(plan), project(plan))
  const household = householdOfYear(plan, law, year!)
  const roomWith = (farmProfit: number[]) =>
    incomeRoom(law, { ...household, farmProfit }, 'farmProfit', year!.steps).rooms[0]!
  // 138 percent of 27,320 is 37,701.60; 29,000 leave 8,701 within it, and the next dollar is beyond.
  for (const loss of [
    [-9000, 0],
    [-4500, -4500],
    [0, -9000],
  ])
    expect(roomWith(loss)).toMatchObject({ line: 'Medicaid line', extraLeft: 8702 })
})

test('where the months differ, the map counts the credit month by month as the return does', () => {
  const plan = planSchema.parse({
    ...leaver(3500, 0),
    startMonth: '2026-01',
    health: {
      marketplace: {
        members: [{ person: 'maren' }, { person: 'bo', to: '2026-05' }],
        planAt21: 300,
        benchmarkAt21: 300,
      },
      limits: { childrensProgram: 0, olderChild: 0 },
    },
  })
  const [year] = coverYears(plan, publishedRules(plan), project(plan))
  const last = year!.steps.at(-1)!
  expect(last.byMonth).not.toBeNull()
  expect(new Set(last.byMonth!.premium).size).toBe(2)
  const law = lawFor(2026, steadyIndexing(0))
  const household = householdOfYear(plan, law, year!)
  const { now } = incomeRoom(law, household, 'otherIncome', year!.steps)
  expect(now.credit).toBeCloseTo(year!.projected.premiumTaxCredit, 0)
})

/**
 * An invented pair and a child in Pennsylvania, November 2026: the farm has brought 24,000 and a bench 7,800 so far, the bench is the
 * second one's and brings 650 a month. About 33,000 less half the self-employment tax is under 138 percent of 27,320 for three,
 * 37,701.60, with or without what a marketplace plan of two months would take off it.
 */
test('a venture counts by its year whosever it is, and premiums of two months are no reason to leave Medicaid', () => {
  const pair = (perMonth: number): PlanInput => ({
    startMonth: '2026-11',
    household: {
      place: { state: 'PA' },
      people: [
        { id: 'lou', name: 'Lou', born: '1981-04-03', planToAge: 60 },
        { id: 'pim', name: 'Pim', born: '1979-02-07', planToAge: 60 },
      ],
      dependents: [{ id: 'bo', name: 'Bo', born: '2016-06-01' }],
      sideVentures: [{ id: 'bench', name: 'Bench', person: 'pim', perMonth }],
    },
    health: {
      marketplace: { members: [{ person: 'lou' }, { person: 'pim' }], planAt21: 450, benchmarkAt21: 450 },
    },
    tax: {
      method: 'law',
      filing: 'joint',
      soFar: { farmProfit: 24_000, farmGross: 60_000, otherSelfEmployment: 7800 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
    assumptions: still,
  })
  for (const name of ['Lou', 'Pim']) expect(kindsOf(pair(650), name, 2)).toEqual(['Medicaid', 'Medicaid'])
  for (const name of ['Lou', 'Pim'])
    expect(kindsOf(pair(6000), name, 2)).toEqual(['marketplace', 'marketplace'])
})

/** Maren's year with other months before, under the yearly line of two, 29,863.20, and over the month's, 2,488.60: 2,600 from September on. */
const credited = (wages: number) => project(planSchema.parse(leaver(2600, wages))).years[0]!

test('over the month’s line and under the year’s: those months are months of the credit (26 USC 36B(c)(2)(B))', () => {
  expect(kindsOf(leaver(2600, 14_000), 'Maren', 4)).toEqual(Array(4).fill('marketplace'))
  // 24,400 are 115 percent of 21,150: 2.10 percent (Rev. Proc. 2025-25), 512.40 a year and 170.80 of it for four months. At 46 the
  // federal curve has 1.500: 450 a month.
  expect(credited(14_000).premiumTaxCredit).toBeCloseTo(4 * 450 - 170.8, 2)
  expect(credited(14_000).advanceCredit).toBeCloseTo(4 * 450 - 170.8, 2)
  const year = yearOf(leaver(2600, 14_000), 2026)
  const household = householdOfYear(
    planSchema.parse(leaver(2600, 14_000)),
    lawFor(2026, steadyIndexing(0)),
    year,
  )
  expect(
    incomeRoom(lawFor(2026, steadyIndexing(0)), household, 'otherIncome', year.steps).now.credit,
  ).toBeCloseTo(4 * 450 - 170.8, 0)
})

test('over the month’s line in a year under 100 percent of poverty: Medicaid by the year’s income (42 CFR 435.603(i))', () => {
  // 11,200 and 10,400 are 21,600, under the level of two of 2026; 11,300 and 10,400 are 21,700.
  expect(kindsOf(leaver(2600, 11_200), 'Maren', 4)).toEqual(Array(4).fill('Medicaid'))
  expect(kindsOf(leaver(2600, 11_300), 'Maren', 4)).toEqual(Array(4).fill('marketplace'))
  expect(credited(11_300).premiumTaxCredit).toBeGreaterThan(1600)
  const { steps } = yearOf(leaver(2600, 11_200), 2026)
  const lineAt = steps.find(({ people }) => people.some((one) => one.kind === 'Medicaid'))!.toPercent
  expect(lineAt).toBeCloseTo(100, 4)
})

test('where nothing is told of the months before, nothing was earned in them: the programs read the year that the return reads', () => {
  // 4 × 2,500 are 10,000 on the return, under the level of two of 2026, 21,640, though 2,500 a month are above the month's line: no
  // credit is for such a year, and Medicaid takes her by it. 4 × 5,500 are 22,000: the credit's year.
  expect(credited(0).householdIncome).toBe(10_400)
  expect(kindsOf(leaver(2500, 0), 'Maren', 4)).toEqual(Array(4).fill('Medicaid'))
  expect(kindsOf(leaver(5500, 0), 'Maren', 4)).toEqual(Array(4).fill('marketplace'))
  const { premiumTaxCredit, marketplaceMonths } = Object.assign(
    {},
    project(planSchema.parse(leaver(5500, 0))).years[0]!,
    yearOf(leaver(5500, 0), 2026),
  )
  expect(marketplaceMonths).toBe(4)
  expect(premiumTaxCredit).toBeGreaterThan(1000)
  // The map says so too: to the level of the year, the program; above it the marketplace.
  const { steps } = yearOf(leaver(2500, 0), 2026)
  const byYear = steps.find(({ toPercent }) => Math.abs(toPercent - 100) < 1e-4)!
  expect(byYear.people.find(({ name }) => name === 'Maren')!.kind).toBe('Medicaid')
  expect(steps.at(-1)!.people.find(({ name }) => name === 'Maren')!.kind).toBe('marketplace')
})

/** Wim of 61 in Kentucky in November: 1,400 a month of pay and to live on, and nothing else but an account for later. */
const nearlyDone = (change: Partial<PlanInput> = {}, oneOff = 3000): PlanInput => ({
  startMonth: '2026-11',
  household: {
    place: { state: 'KY' },
    people: [{ id: 'wim', name: 'Wim', born: '1965-02-03', planToAge: 70 }],
    pay: [{ id: 'pay', name: 'Pay', person: 'wim', perMonth: 1400 }],
    living: [{ id: 'living', name: 'Living', perMonth: 1400 }],
    oneOffs: oneOff === 0 ? [] : [{ id: 'roof', name: 'Roof', month: '2026-12', cost: oneOff }],
  },
  health: { marketplace: { members: [{ person: 'wim' }], planAt21: 300, benchmarkAt21: 300 } },
  tax: { method: 'law', filing: 'single' },
  savings: {
    accounts: [
      { id: 'cash', name: 'Cash', kind: 'cash', balance: 0 },
      { id: 'later', name: 'Later', kind: 'traditional', owner: 'wim', balance: 60_000 },
    ],
    spendOrder: ['traditional'],
  },
  assumptions: still,
  ...change,
})

test('what is taken out once counts once, never as many times as the months ahead go into a year', () => {
  // 12 × 1,400 and 3,000 are 19,800, under 138 percent of 15,960, 22,024.80; six times both would be 34,800.
  expect(kindsOf(nearlyDone(), 'Wim', 2)).toEqual(['Medicaid', 'Medicaid'])
  const told = { tax: { method: 'law' as const, filing: 'single' as const, soFar: { wages: 14_000 } } }
  expect(kindsOf(nearlyDone(told), 'Wim', 2)).toEqual(['Medicaid', 'Medicaid'])
  // 12 × 1,400 and 6,000 are 22,800.
  expect(kindsOf(nearlyDone(told, 6000), 'Wim', 2)).toEqual(['marketplace', 'marketplace'])
  const roth = { id: 'roth', name: 'Roth', kind: 'roth' as const, owner: 'wim', balance: 10_000 }
  const savings = (amount: number) => ({
    ...told,
    savings: {
      ...nearlyDone().savings,
      accounts: [...nearlyDone().savings!.accounts!, roth],
      conversions: [{ id: 'c', name: 'C', from: 'later', into: 'roth', perYear: amount }],
    },
  })
  expect(kindsOf(nearlyDone(savings(3000), 0), 'Wim', 2)).toEqual(['Medicaid', 'Medicaid'])
  expect(kindsOf(nearlyDone(savings(6000), 0), 'Wim', 2)).toEqual(['marketplace', 'marketplace'])
})

/**
 * Maren's bench in Kentucky has brought 32,000 by August and brings 4,000 a month; eight months of the marketplace at 450 are behind. 48,000
 * less half of the self-employment tax, 3,391, are 44,609, and some 2,900 of the premiums are hers: about 41,700, 193 percent of 21,640. Her
 * eight months behind taken as the premiums of four, three times over, would be 166 percent.
 */
test('premiums of months behind do not lower what a children’s program asks of a month ahead', () => {
  const bench = (limit: number): PlanInput => ({
    ...leaver(0, 0),
    household: {
      ...leaver(0).household,
      pay: [],
      sideVentures: [{ id: 'bench', name: 'Bench', person: 'maren', perMonth: 4000 }],
    },
    health: { ...leaver(0).health, limits: { olderChild: 100, childrensProgram: limit } },
    tax: {
      method: 'law',
      filing: 'single',
      soFar: {
        otherSelfEmployment: 32_000,
        marketplaceMonths: 8,
        marketplacePremiums: 3600,
        marketplaceBenchmark: 3600,
      },
    },
  })
  expect(kindsOf(bench(180), 'Bo', 4)).toEqual(Array(4).fill('none'))
  expect(kindsOf(bench(195), 'Bo', 4)).toEqual(Array(4).fill('children’s program'))
  // At the plan's own income the map says of each limit what the run says.
  for (let limit = 160; limit <= 210; limit += 2) {
    const { steps, projected } = yearOf(bench(limit), 2026)
    const percent = (projected.householdIncome * 100) / lineOf(2026, 2)
    const there = steps.find(({ toPercent }) => percent <= toPercent)!
    const bo = there.people.find(({ name }) => name === 'Bo')!
    expect(bo.kind, String(limit)).toBe(kindsOf(bench(limit), 'Bo', 1)[0])
  }
})

test('nor do premiums of a plan of one’s own that were paid in months behind lower what is asked of a month ahead', () => {
  // 48,000 less half of the self-employment tax, 3,391, are 44,609: 206 percent of 21,640. With 3,600 of premiums behind 41,009, 189.5.
  const own = (limit: number): PlanInput => ({
    ...leaver(0, 0),
    household: {
      ...leaver(0).household,
      pay: [],
      sideVentures: [{ id: 'bench', name: 'Bench', person: 'maren', perMonth: 4000 }],
    },
    health: {
      limits: { olderChild: 100, childrensProgram: limit },
      marketplace: { members: [{ person: 'bo' }] },
    },
    tax: {
      method: 'law',
      filing: 'single',
      soFar: { otherSelfEmployment: 32_000, healthPremiums: 3600 },
    },
  })
  expect(kindsOf(own(204), 'Bo', 4)).toEqual(Array(4).fill('marketplace'))
  expect(kindsOf(own(208), 'Bo', 4)).toEqual(Array(4).fill('children’s program'))
})

/** Wes and Eve in Texas with a child: a venture of `perMonth` from July 2026, 3,000 of wages and six months on the marketplace before it. */
const dropping = (perMonth: number, behind: number): PlanInput => ({
  startMonth: '2026-07',
  household: {
    place: { state: 'TX' },
    people: [
      { id: 'wes', name: 'Wes', born: '1988-02-10', planToAge: 60 },
      { id: 'eve', name: 'Eve', born: '1990-09-01', planToAge: 60 },
    ],
    dependents: [{ id: 'una', name: 'Una', born: '2016-05-05' }],
    sideVentures: [{ id: 'repairs', name: 'Repairs', person: 'wes', perMonth }],
  },
  health: {
    premiums: [{ id: 'teeth', name: 'Teeth', perMonth: 100 }],
    marketplace: {
      members: [{ person: 'wes' }, { person: 'eve' }],
      planAt21: 300,
      benchmarkAt21: 300,
    },
  },
  tax: {
    method: 'law',
    soFar: {
      wages: 3000,
      marketplaceMonths: behind > 0 ? 6 : 0,
      marketplacePremiums: behind,
      marketplaceBenchmark: behind,
      advanceCredit: behind,
    },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
  assumptions: still,
})

test('marketplace months that the credit paid take nothing off income, so that no parent is put off Medicaid for them', () => {
  // The line of three is 27,320; Texas takes parents up to 19 percent of it, 5,190.80 a year.
  expect(lineOf(2026, 3)).toBe(27_320)
  // 550 a month: 6,600 less half of the self-employment tax of 932.55 and 1,200 of premiums is 4,933.73, 18.06 percent. Had the credit's
  // months been deducted by their gross premiums, 10/11 of 1,430 would be put on it: 22.8 percent.
  for (const behind of [0, 6000])
    for (const name of ['Wes', 'Eve'])
      expect(kindsOf(dropping(550, behind), name, 6), `${name} after ${behind}`).toEqual(
        Array(6).fill('Medicaid'),
      )
  const { months } = project(planSchema.parse(dropping(550, 6000)))
  for (const { premiums } of months.slice(0, 6)) expect(premiums).toBeCloseTo(100, 6)
  // 580 a month is 6,960 less 491.71 and 1,200: 5,268.29, 19.28 percent.
  expect(kindsOf(dropping(580, 6000), 'Wes', 6)).toEqual(Array(6).fill('marketplace'))
})
