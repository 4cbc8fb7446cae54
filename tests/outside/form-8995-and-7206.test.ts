// Forms 7206 and 8995 line by line, worked by hand from the forms' own lines (both read in secondary text, those of 2025 from memory): as
// the pack prints them for an invented household with a market garden and a cheese room, and for years of loss. 26 USC 162(l), 199A.
import { expect, test } from 'vitest'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { planSchema } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { form7206 } from '#rules/forms/form-7206.ts'
import { form8995, type OwnedBusiness } from '#rules/forms/form-8995.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { act, done } from '../db/fresh-books.ts'
import { testApp } from '../web/test-app.ts'
import { yearBooks } from './year-books.ts'

const law = lawFor(2025, steadyIndexing(0))

/** Two who sign: the first has the farm, the second the other business. Dollars. */
const two = (farm: number, other: number, more: Partial<ReturnType<typeof emptyHouseholdYear>> = {}) => {
  const household = {
    ...emptyHouseholdYear(),
    status: 1,
    people: 2,
    age: [46, 44],
    farmProfit: [farm, 0],
    otherSelfEmployment: [0, other],
    ...more,
  }
  const { lines } = fileReturn(law, household)
  const owned: OwnedBusiness[] = [
    { name: 'Farm', owner: 0, isFarm: true, profit: farm * 100 },
    { name: 'Cheese', owner: 1, isFarm: false, profit: other * 100 },
  ]
  const qualified = form8995(law, household, lines, owned)!
  const dollars = (rows: readonly { line: string; amount: number }[]) =>
    Object.fromEntries(rows.map(({ line, amount }) => [line, amount / 100]))
  return {
    lines,
    businesses: qualified.businesses.map(({ income }) => income / 100),
    isOver: qualified.isOverThreshold,
    qualified: dollars(qualified.lines),
    health: dollars(form7206(household, lines).filter(({ line }) => line !== '6')),
  }
}

test('the pack prints both forms for one who has two businesses', async () => {
  const app = testApp({ today: '2026-02-10' })
  app.openSides()
  const { sideId: id } = done(addSide(app.books, act(), { kind: 'venture', name: 'Cheese room' }))
  app.savePlan(
    planSchema.parse({
      startMonth: '2025-01',
      household: {
        people: [
          { id: 'una', name: 'Una', born: '1979-05-02' },
          { id: 'teo', name: 'Teo', born: '1981-08-14' },
        ],
        living: [{ id: 'living', name: 'Living', perMonth: 2500 }],
        sideVentures: [],
      },
    }),
  )
  yearBooks(app.books).book({ 'Vegetables and fruit sold': '52,000' }, { Feed: '12,000' })
  yearBooks(app.books, id, 'Venture checking').book(
    { 'Sales and fees earned': '13,000' },
    { Supplies: '3,000' },
  )
  const premiums = listAccounts(app.books).find(({ purpose }) => purpose === 'premium')!.name
  yearBooks(app.books, 'household', 'Household checking').book({}, { [premiums]: '9,000' })
  const farm = { basedOn: '0', ownership: 'one', owner: 'una', 'weather.0.what': '' }
  expect((await app.post('/year-pack/schedule-f?year=2025', farm)).status).toBe(303)
  const venture = { basedOn: '0', person: 'una' }
  expect((await app.post(`/year-pack/schedule-c/${id}?year=2025`, venture)).status).toBe(303)
  const table = async (name: string) =>
    (await (await app.get(`/year-pack.csv?year=2025&table=${name}`)).text()).trim().split('\r\n')
  // 50,000 x .9235 = 46,175; .124 and .029 of it 5,725.70 and 1,339.08; half of 7,064.78 is 3,532.39. Four fifths of it 2,825.91.
  const health = (await table('form-7206')).map((row) => row.split(','))
  expect(health.map((row) => [row[0], row.at(-1)])).toEqual([
    ['line', 'amount'],
    ['1', '9000.00'],
    ['3', '9000.00'],
    ['4', '40000.00'],
    ['5', '50000.00'],
    ['6', '0.8000'],
    ['7', '2825.91'],
    ['8', '37174.09'],
    ['9', '0.00'],
    ['10', '37174.09'],
    ['13', '37174.09'],
    ['14', '9000.00'],
  ])
  // Farm 40,000 less 2,825.91 less 9,000; cheese 10,000 less 706.48. Income 37,467.61 less 31,500 is 5,967.61, a fifth 1,193.52.
  const qualified = await table('form-8995')
  expect(qualified.slice(1, 3)).toEqual([
    '1i,Farm of Una,28174.09,40000.00,2825.91,9000.00,0.00',
    '1ii,Cheese room,9293.52,10000.00,706.48,0.00,0.00',
  ])
  expect(qualified.slice(3).map((row) => [row.split(',')[0], /(-?\d+\.\d\d),,,,$/.exec(row)?.[1]])).toEqual([
    ['2', '37467.61'],
    ['3', '0.00'],
    ['4', '37467.61'],
    ['5', '7493.52'],
    ['10', '7493.52'],
    ['11', '5967.61'],
    ['12', '0.00'],
    ['13', '5967.61'],
    ['14', '1193.52'],
    ['15', '1193.52'],
    ['16', '0.00'],
  ])
  const pack = (await (await app.get('/year-pack.json?year=2025')).json()) as {
    tax: { worksheet: { figures: Record<string, number>; qualifiedBusiness: { lines: { line: string }[] } } }
  }
  expect(pack.tax.worksheet.figures).toMatchObject({
    selfEmployedHealthDeduction: 9000,
    qbiDeduction: 1193.52,
  })
  expect(pack.tax.worksheet.qualifiedBusiness.lines.map(({ line }) => line)).toContain('15')
  const paper = await (await app.get('/year-pack/print?year=2025')).text()
  for (const heading of ['Form 7206', 'Form 8995', 'Farm of Una', '37,174.09', '1,193.52'])
    expect(paper).toContain(heading)
  for (const sheet of ['form-7206', 'form-8995'])
    expect((await app.get(`/year-pack/sheets/${sheet}?year=2025`)).status).toBe(200)
  app.close()
})

test('a loss of one with the loss of before: nothing is deducted, and line 16 is the next year’s line 3', () => {
  // 2,000 x .9235 = 1,847; 229.03 and 53.56, half of 282.59 a cent up: 141.30. -8,000 + 1,858.70 = -6,141.30, less 1,500.
  const before = { qualifiedBusiness: 1500 }
  const year = two(-8000, 2000, { carried: { ...emptyHouseholdYear().carried, ...before } })
  expect(year.businesses).toEqual([-8000, 1858.7])
  expect(year.qualified).toMatchObject({ '2': -6141.3, '3': -1500, '4': 0, '5': 0, '15': 0, '16': -7641.3 })
  expect(year.lines.left.qualifiedBusiness).toBe(764_130)
  expect(year.health).toEqual({})
})

test('premiums beyond what the business leaves: line 13 is the deduction, after contributions to a plan by profit', () => {
  // Farm 6,000 x .9235 = 5,541; 687.08 and 160.69, half of 847.77 a cent up 423.89. A plan of 800 by 6,000 of 8,000: 600.
  const year = two(6000, 2000, { otherHealthPremiums: 9000, sep: 800 })
  expect(year.health).toEqual({
    '1': 9000,
    '3': 9000,
    '4': 6000,
    '5': 6000,
    '7': 423.89,
    '8': 5576.11,
    '9': 600,
    '10': 4976.11,
    '13': 4976.11,
    '14': 4976.11,
  })
  // 6,000 - 423.89 - 4,976.11 - 600 is nothing; 2,000 - 141.30 - 200.
  expect(year.businesses).toEqual([0, 1658.7])
  expect(year.qualified['2']).toBe(1658.7)
})

test('a loss reported by the optional method: what it reports is what premiums have, and half of its tax comes off its own row', () => {
  // Two thirds of 6,000 are 4,000: .124 and .029 of it 612.00, half 306. Line 13 is the 4,000 (from memory of the instructions).
  const farm = { farmOptional: [1, 0], farmGross: [6000, 0] }
  const year = two(-1000, -500, { ...farm, otherHealthPremiums: 5000 })
  expect(year.health).toEqual({ '1': 5000, '3': 5000, '4': 4000, '13': 4000, '14': 4000 })
  expect(year.businesses).toEqual([-5306, -500])
  expect(year.qualified['2']).toBe(-5806)
  // The second's: 4,000 less a loss of 500 is 3,500, half of .153 of it 267.75.
  const other = two(0, -500, { farmOptional: [0, 1], farmGross: [0, 6000] })
  expect(other.businesses).toEqual([0, -767.75])
})

test('marketplace premiums come in as far as their credit leaves them, after those of other cover', () => {
  // 44,000 x .9235 = 40,634; 5,038.62 and 1,178.39 (from 1,178.386), half of 6,217.01 a cent up 3,108.51. Nobody advanced anything.
  const cover = { coverMonths: 12, deductibleMonths: 12, premiumMonthly: 900, benchmarkMonthly: 850 }
  const year = two(44_000, 0, { ...cover, otherHealthPremiums: 600 })
  const { deduction, credit } = year.lines.cover
  // Both definitions hold to a cent (Rev. Proc. 2014-41): premiums of 10,800 less the credit are the deduction for them.
  expect(Math.abs(deduction + credit - 1_080_000)).toBeLessThanOrEqual(1)
  expect(credit).toBeGreaterThan(0)
  expect(year.health).toMatchObject({
    '1': deduction / 100,
    '3': 600 + deduction / 100,
    '4': 44_000,
    '10': 40_891.49,
  })
  expect(year.health['14']).toBe(year.health['3'])
  expect(year.businesses[0]).toBeCloseTo(40_891.49 - 600 - deduction / 100, 2)
})

test('over the threshold Form 8995-A takes over, and lines 5 and 10 are left to it', () => {
  const year = two(600_000, 20_000)
  expect([year.isOver, '5' in year.qualified, '10' in year.qualified]).toEqual([true, false, false])
  expect(year.qualified['15']).toBe(year.lines.taxable.qbiDeduction / 100)
})

test('of whatever businesses, line 1 adds up to line 2, and line 14 is line 3 or 13', () => {
  let seed = 19
  const random = (most: number) => {
    seed = (seed * 48_271) % 2_147_483_647
    return Math.round((seed / 2_147_483_647) * most * 100) / 100
  }
  for (let round = 0; round < 300; round += 1) {
    const year = two(random(90_000) - 20_000, random(40_000) - 10_000, {
      otherHealthPremiums: random(20_000),
      sep: random(3000),
      businessGains: random(4000) - 2000,
      section1231: random(4000) - 3000,
      wages: [random(30_000), 0],
    })
    const sum = year.businesses.reduce((all, one) => all + Math.round(one * 100), 0)
    expect(sum, `round ${round}`).toBe(Math.round(year.qualified['2']! * 100))
    const { cover } = year.lines
    if (year.health['14'] === undefined) continue
    expect(year.health['14']).toBe(cover.healthDeduction / 100)
    expect(year.health['14']).toBe(Math.min(year.health['3']!, year.health['13']!))
    expect(year.health['10'], `round ${round}`).toBe(year.health['13'])
  }
})
