// Losses between years, worked by hand: what a loss year leaves, and what it takes off the years it is carried to.
import { describe, expect, test } from 'vitest'
import { type Carryforwards, noCarryforwards } from '#rules/carryforwards.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { type FilingStatus, statusIndex } from '#rules/filing-status.ts'
import { emptyHouseholdYear, type HouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { drawnCount, eachDrawn } from './drawn-households.ts'
import { randomHousehold } from './random-household.ts'

const laws = new Map([2024, 2025, 2026].map((year) => [year, lawFor(year, steadyIndexing(0))]))

const file = (
  year: number,
  status: FilingStatus,
  facts: Partial<HouseholdYear>,
  carried: Partial<Carryforwards> = {},
) => {
  const people = status === 'married_joint' ? 2 : 1
  const household = {
    ...emptyHouseholdYear(),
    status: statusIndex(status),
    people,
    age: [45, 45],
    ...facts,
    carried: { ...noCarryforwards(), ...carried },
  }
  return fileReturn(laws.get(year)!, household)
}

const figures = (...args: Parameters<typeof file>) => file(...args).figures

describe('net operating losses (26 USC 172)', () => {
  test('a farming loss of 60,000 without other income may be carried on, or back, whole; business income below zero too', () => {
    const { carried, adjustedGrossIncome, totalTax } = figures(2026, 'married_joint', {
      farmProfit: [-60_000, 0],
    })
    expect([adjustedGrossIncome, totalTax]).toEqual([-60_000, 0])
    expect(carried).toEqual({
      ...noCarryforwards(),
      netOperatingLoss: 60_000,
      farmLoss: 60_000,
      qualifiedBusiness: 60_000,
    })
  })

  // 172(d)(4), Pub. 536: the standard deduction and an IRA count only against income of no business.
  test('wages use the loss up, interest only as far as it is over the deductions of no business', () => {
    const loss = (facts: Partial<HouseholdYear>) =>
      figures(2026, 'married_joint', { farmProfit: [-60_000, 0], ...facts }).carried
    expect(loss({ wages: [0, 20_000] }).netOperatingLoss).toBe(40_000)
    expect(loss({ interest: 30_000, traditionalIra: 2000 }).netOperatingLoss).toBe(60_000)
    // 40,000 less the standard deduction of 32,200.
    expect(loss({ interest: 40_000 }).netOperatingLoss).toBe(52_200)
    // 172(d)(2): a capital loss makes no operating loss.
    expect(loss({ longTermGains: -9000 }).netOperatingLoss).toBe(60_000)
    // Of a farm loss of 60,000 and a craft loss of 10,000 beside wages of 30,000 at most the farm's own goes back.
    const both = loss({ otherSelfEmployment: [0, -10_000], wages: [0, 30_000] })
    expect([both.netOperatingLoss, both.farmLoss]).toEqual([40_000, 40_000])
    const mostlyCraft = loss({ farmProfit: [-5000, 0], otherSelfEmployment: [0, -40_000] })
    expect([mostlyCraft.netOperatingLoss, mostlyCraft.farmLoss]).toEqual([45_000, 5000])
    // Breeding stock and tractors sold are income of farming (172(b)(1)(B)(ii)): 60,000 less 20,000 and 5,000 are the farm's 35,000.
    const sold = loss({ otherSelfEmployment: [0, -10_000], section1231: 20_000, businessGains: 5000 })
    expect([sold.netOperatingLoss, sold.farmLoss]).toEqual([45_000, 35_000])
    // Sold by the craft business, 12,000 and 5,000 of it are none of the farm's: 60,000 less 8,000; of 45,000 all may go back.
    const byCraft = loss({
      otherSelfEmployment: [0, -10_000],
      section1231: 20_000,
      businessGains: 5000,
      soldByVentures: { section1231: 12_000, ordinary: 5000 },
    })
    expect([byCraft.netOperatingLoss, byCraft.farmLoss]).toEqual([45_000, 45_000])
    const sameWithout = loss({
      section1231: 20_000,
      soldByVentures: { section1231: 12_000, ordinary: 0 },
      wages: [0, 1000],
    })
    expect([sameWithout.netOperatingLoss, sameWithout.farmLoss]).toEqual([39_000, 39_000])
    const lost = loss({ section1231: -4000, soldByVentures: { section1231: -10_000, ordinary: 0 } })
    expect([lost.netOperatingLoss, lost.farmLoss]).toEqual([64_000, 54_000])
  })

  // 172(d)(2)(A), (4)(A), Pub. 536 (from memory): gains and losses of no business stay among themselves, a business's gain is its income.
  test('a gain on business property takes off the loss whole, whatever was lost on shares; a gain on shares as far as it is over that', () => {
    const loss = (facts: Partial<HouseholdYear>) =>
      figures(2026, 'married_joint', { farmProfit: [-60_000, 0], ...facts }).carried.netOperatingLoss
    expect(loss({ section1231: 10_000 })).toBe(50_000)
    expect(loss({ section1231: 10_000, longTermGains: -15_000 })).toBe(50_000)
    expect(loss({ section1231: -10_000 })).toBe(70_000)
    // Shares sold for 40,000 more and 3,000 less: 37,000 less the standard deduction of 32,200 are 4,800.
    expect(loss({ longTermGains: 40_000, shortTermGains: -3000 })).toBe(55_200)
    // 9,000 of it and 28,000 of interest are 37,000 too.
    expect(loss({ longTermGains: 9000, interest: 28_000 })).toBe(55_200)
    // So is what health savings paid for anything but care.
    expect(loss({ healthSavingsTaxed: 9000, interest: 28_000 })).toBe(55_200)
    // What went into a plan of one’s own is a deduction of no business (172(d)(4)(D)): it makes no loss.
    expect(loss({ longTermGains: 40_000, sep: 3000 })).toBe(55_200)
  })

  test('carried on to 96,000 of farm profit it takes 80 % of taxable income in the first year and the rest in the second', () => {
    // Self-employment tax 13,564.36, half 6,782.18: income 89,217.82, taxable 57,017.82 before losses, 80 % is 45,614.26.
    const year = { farmProfit: [96_000, 0] }
    const without = figures(2026, 'married_joint', year)
    const first = figures(2026, 'married_joint', year, {
      netOperatingLoss: 60_000,
      qualifiedBusiness: 60_000,
    })
    expect(without.totalTax).toBeCloseTo(4977.71 + 13_564.36, 2)
    expect(first).toMatchObject({
      netOperatingLossDeduction: 45_614.26,
      adjustedGrossIncome: 43_603.56,
      // A fifth of 11,403.56, which is less than a fifth of 89,217.82 − 60,000.
      qbiDeduction: 2280.71,
      taxableIncome: 9122.85,
    })
    expect(first.carried).toEqual({ ...noCarryforwards(), netOperatingLoss: 14_385.74 })
    const second = figures(2026, 'married_joint', year, first.carried)
    expect(second.netOperatingLossDeduction).toBe(14_385.74)
    expect(second.carried).toEqual(noCarryforwards())
    expect(2 * without.totalTax - first.totalTax - second.totalTax).toBeCloseTo(5446.45, 1)
    expect(first.selfEmploymentTax).toBe(without.selfEmploymentTax)
  })

  // 2025 schedule of a joint return: 10 % to 23,850, 12 % to 96,950, 22 % above; standard deduction 31,500.
  test.for([
    [90_000, 4693],
    [140_000, 5955],
    [200_000, 8800],
  ])('40,000 of farming loss carried back to wages of %d of 2025 refund %d', ([wages, refund]) => {
    const year = { wages: [wages!, 0] }
    const [before, after] = [{}, { farmLoss: 40_000 }].map((carried) =>
      figures(2025, 'married_joint', year, carried),
    )
    expect(before!.totalTax - after!.totalTax).toBeCloseTo(refund!, 2)
    expect(after!.carried.farmLoss).toBe(0)
  })

  test('what the earlier of the two years cannot use is left for the next one', () => {
    const { carried, netOperatingLossDeduction } = figures(
      2024,
      'married_joint',
      { wages: [50_000, 0] },
      { farmLoss: 40_000 },
    )
    // 80 % of 50,000 − 29,200.
    expect(netOperatingLossDeduction).toBe(16_640)
    expect(carried).toEqual({ ...noCarryforwards(), farmLoss: 23_360 })
  })

  test('the loss lowers the income that marketplace cover looks at, and the limit is that of the year without it', () => {
    const cover = { coverMonths: 12, deductibleMonths: 12, premiumMonthly: 1500, benchmarkMonthly: 1500 }
    const year = { ...cover, farmProfit: [90_000, 0] }
    const [without, one] = [{}, { netOperatingLoss: 20_000 }].map((carried) =>
      figures(2026, 'married_joint', year, carried),
    )
    expect(one!.netOperatingLossDeduction).toBe(20_000)
    expect(one!.premiumTaxCredit).toBeGreaterThan(without!.premiumTaxCredit)
    const all = file(2026, 'married_joint', year, { netOperatingLoss: 300_000 })
    const { income, cover: covered, taxable } = all.lines
    const taxableWithout =
      income.beforeBenefits - income.adjustments - covered.healthDeduction - taxable.standard
    expect(income.netOperatingLoss).toBe(Math.round(taxableWithout * 0.8))
  })

  test('a business loss over the limit of 26 USC 461(l) becomes a net operating loss of the next year', () => {
    const { adjustedGrossIncome, carried } = figures(2026, 'single', {
      farmProfit: [-300_000, 0],
      wages: [280_000, 0],
    })
    expect(adjustedGrossIncome).toBe(24_000)
    expect([carried.netOperatingLoss, carried.farmLoss]).toEqual([44_000, 0])
  })

  test('gains on what the businesses sold are their income before that limit (26 USC 461(l)(3)(A)(ii))', () => {
    // 300,000 less 20,000 of stock and 4,000 of depreciation taken back are 276,000, of which 20,000 are over 256,000.
    const of = (facts: Partial<HouseholdYear>) =>
      figures(2026, 'single', { farmProfit: [-300_000, 0], wages: [280_000, 0], ...facts })
    const sold = of({ section1231: 20_000, businessGains: 4000 })
    expect([sold.adjustedGrossIncome, sold.carried.netOperatingLoss]).toEqual([24_000, 20_000])
    // Shares that lost 15,000 leave 5,000 of it as a gain of the year: 35,000 are over.
    const besides = of({ section1231: 20_000, businessGains: 4000, longTermGains: -15_000 })
    expect(besides.carried.netOperatingLoss).toBe(35_000)
  })
})

describe('other carryforwards', () => {
  test('negative business income lowers that of the next years (26 USC 199A(c)(2))', () => {
    const worker = { wages: [60_000, 0] }
    const first = figures(2026, 'single', { ...worker, farmProfit: [-10_000, 0] })
    expect(first.carried.qualifiedBusiness).toBe(10_000)
    // 4,000 less half of 565.19 leave 3,717.40 against 10,000.
    const second = figures(2026, 'single', { ...worker, farmProfit: [4000, 0] }, first.carried)
    expect([second.qbiDeduction, second.carried.qualifiedBusiness]).toEqual([0, 6282.6])
    // 20,000 less half of 2,825.91 less 6,282.60: a fifth of 12,304.44.
    const third = figures(
      2026,
      'single',
      { ...worker, farmProfit: [20_000, 0] },
      { qualifiedBusiness: 6282.6 },
    )
    expect([third.qbiDeduction, third.carried.qualifiedBusiness]).toEqual([2460.89, 0])
  })

  // 26 USC 1212(b); Capital Loss Carryover Worksheet of Schedule D.
  test('capital losses over 3,000 go on by their kind, the short-term ones used first', () => {
    const year = (longTermGains: number, shortTermGains: number, wages = 50_000) =>
      figures(2026, 'single', { wages: [wages, 0], longTermGains, shortTermGains }).carried
    expect(year(-20_000, 0)).toMatchObject({ longTermLoss: 17_000, shortTermLoss: 0 })
    expect(year(-4000, -5000)).toMatchObject({ longTermLoss: 4000, shortTermLoss: 2000 })
    expect(year(1000, -5000)).toMatchObject({ longTermLoss: 0, shortTermLoss: 1000 })
    // Wages of 10,000 under the standard deduction of 16,100 leave no income to use the 3,000 on.
    expect(year(-20_000, 0, 10_000).longTermLoss).toBe(20_000)
    // 14,100: 1,000 of the 3,000 are used.
    expect(year(-20_000, 0, 17_100).longTermLoss).toBe(19_000)
    const later = figures(
      2026,
      'single',
      { wages: [50_000, 0], longTermGains: 12_000 },
      { longTermLoss: 17_000 },
    )
    expect(later.adjustedGrossIncome).toBe(47_000)
    expect(later.carried.longTermLoss).toBe(2000)
  })

  test('section 179 carried here comes off the farm profit, up to businesses and wages (26 USC 179(b)(3))', () => {
    const { carried, selfEmploymentTax, adjustedGrossIncome } = figures(
      2026,
      'single',
      { farmProfit: [4000, 0], wages: [3000, 0] },
      { section179: 10_000 },
    )
    expect(carried.section179).toBe(3000)
    expect([selfEmploymentTax, adjustedGrossIncome]).toEqual([0, 0])
  })

  test('a loss on business property is ordinary whatever its size, a gain is a long-term one (26 USC 1231(a))', () => {
    const year = (section1231: number) => figures(2026, 'single', { wages: [50_000, 0], section1231 })
    expect(year(-20_000).adjustedGrossIncome).toBe(30_000)
    expect(year(-70_000).carried).toMatchObject({ netOperatingLoss: 20_000, farmLoss: 0, longTermLoss: 0 })
    const gain = year(20_000)
    expect(gain.adjustedGrossIncome).toBe(70_000)
    // 33,900 of pay are taxed by the schedule; of the gain 15,550 reach the end of 0 %, 4,450 bear 15 %.
    expect(gain.incomeTax).toBeCloseTo(1240 + 0.12 * 21_500 + 0.15 * 4450, 2)
  })
})

describe('credits', () => {
  // 26 USC 21, 24 and 25B give their credits against the tax of their own year alone: none has a rule that carries it on.
  test('what the tax of a year cannot use of the care, saver’s and child credits is lost, and the next year begins with none of it', () => {
    const low = {
      wages: [20_000, 17_000],
      childrenUnder17: 2,
      earnedCreditChildren: 2,
      careChildren: 1,
      careCosts: 3000,
      rothIra: 4000,
    }
    const first = figures(2026, 'married_joint', low)
    // 37,000 less 32,200 are 4,800: 480 of tax, all of it used by the care credit of 35 % or more of 3,000; 50 % of 4,000 find none.
    expect([first.incomeTax, first.dependentCareCredit, first.saversCredit]).toEqual([480, 480, 0])
    expect(first.childTaxCredit).toBe(0)
    expect(first.carried).toEqual(noCarryforwards())
    const later = { ...low, wages: [50_000, 40_000] }
    expect(figures(2026, 'married_joint', later, first.carried)).toEqual(
      figures(2026, 'married_joint', later),
    )
  })

  // 26 USC 53(d)(1)(B): a minimum tax leaves a credit only as far as it comes of deferral; of these returns it never does (56(b)(1), 57(a)(5)-(7) are excluded).
  test('the minimum tax of these returns, which takes the standard deduction back, leaves no credit', () => {
    const paid = figures(2026, 'single', { longTermGains: 3_000_000 })
    expect(paid.alternativeMinimumTax).toBeGreaterThan(1000)
    expect(paid.carried).toEqual(noCarryforwards())
  })
})

test('what is carried is conserved: brought in and made here is used here or left', () => {
  const all = [...laws.values()]
  let used = 0
  eachDrawn(20_261_128, 2000, (random, index) => {
    const household = randomHousehold(random)
    const { figures: year, lines } = fileReturn(all[index % 3]!, household)
    const { carried } = household
    const near = (left: number, right: number, what: string) =>
      expect(Math.abs(left - right), what).toBeLessThan(0.006)
    for (const [name, left] of Object.entries(year.carried)) expect(left, name).toBeGreaterThanOrEqual(0)
    const made = year.carried.netOperatingLoss + year.carried.farmLoss
    const brought = carried.netOperatingLoss + carried.farmLoss
    // A year that has taxable income to take losses makes none of its own, but for a business loss over its limit.
    if (year.netOperatingLossDeduction > 0 && lines.business.excessLoss === 0) {
      near(made + year.netOperatingLossDeduction, brought, 'net operating loss')
      used += 1
    }
    near(year.carried.section179 + lines.business.section179 / 100, carried.section179, 'section 179')
    const net = household.longTermGains + household.shortTermGains + Math.max(0, household.section1231)
    const losses = carried.longTermLoss + carried.shortTermLoss
    const capitalLeft = year.carried.longTermLoss + year.carried.shortTermLoss
    // Losses brought and made, less gains: used on income, up to the limit, or left.
    if (net < losses) {
      expect(losses - net - capitalLeft).toBeGreaterThan(-0.01)
      expect(losses - net - capitalLeft).toBeLessThan(3000.01)
    } else expect(capitalLeft).toBeLessThan(0.01)
  })
  expect(used).toBeGreaterThan(drawnCount(2000) / 25)
})
