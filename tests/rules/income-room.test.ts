// Income room: dollars left before each line, what crossing costs, and where a dollar more leaves less.
import { describe, expect, test } from 'vitest'
import { stepsOf } from '#rules/coverage/coverage-steps.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { emptyHouseholdYear, type HouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { costlySpans, creditCurve, creditEndsAt, keptCurve } from '#rules/marketplace/credit-curve.ts'
import { incomeRoom } from '#rules/marketplace/income-room.ts'
import { costOf, standAt } from '#rules/marketplace/year-standing.ts'
import { taxSoFar } from '#rules/tax-so-far.ts'

const law = lawFor(2026, steadyIndexing(0))

/** Poverty line of two in 2026: 21,150 dollars. Pay only, so that household income is what is paid. */
const couple = (facts: Partial<HouseholdYear> = {}): HouseholdYear => ({
  ...emptyHouseholdYear(),
  status: 1,
  people: 2,
  age: [55, 54],
  wages: [40_000, 0],
  coverMonths: 12,
  deductibleMonths: 12,
  premiumMonthly: 1900,
  benchmarkMonthly: 1900,
  ...facts,
})

describe('income room', () => {
  test('names the lines above today’s income, nearest first, with the dollars left', () => {
    const { now, rooms } = incomeRoom(law, couple(), 'otherIncome')
    expect(now).toMatchObject({
      householdIncome: 40_000,
      povertyPercent: 189,
      silverValue: 0.87,
      onMedicaid: false,
    })
    expect(rooms.map((room) => [room.line, room.incomeAt])).toEqual([
      ['next percent', 40_185],
      ['cost sharing', 42_300],
      ['cost sharing', 52_875],
      ['credit line', 84_600],
    ])
    expect(rooms.map((room) => room.incomeLeft)).toEqual([185, 2300, 12_875, 44_600])
    expect(rooms.map((room) => room.extraLeft)).toEqual([185, 2301, 12_876, 44_601])
    expect(rooms.slice(1, 3).map((room) => [room.silverBefore, room.silverAfter])).toEqual([
      [0.87, 0.73],
      [0.73, 0.7],
    ])
  })

  test('the dollar over 400 % costs the whole credit: 22,800 less 9.96 % of 84,600', () => {
    const line = incomeRoom(law, couple(), 'otherIncome').rooms.at(-1)!
    expect(line.line).toBe('credit line')
    expect(line.costOfCrossing).toBeGreaterThan(22_800 - 8_426.16 - 1)
    expect(line.costOfCrossing).toBeLessThan(22_800 - 8_426.16 + 1)
  })

  test('in a year without that line the credit fades until the household’s share reaches the benchmark', () => {
    const rooms = incomeRoom(
      lawFor(2025, steadyIndexing(0)),
      couple({ benchmarkMonthly: 600, premiumMonthly: 600 }),
      'otherIncome',
    ).rooms
    expect(rooms.some((room) => room.line === 'credit line')).toBe(false)
    const gone = rooms.find((room) => room.line === 'credit gone')!
    // 8.5 % of 84,705.88 is 7,200.
    expect(gone.incomeAt).toBeCloseTo(84_705.88, 0)
  })

  // Rev. Proc. 2025-25: 8.44 to 9.96 % from 250 to 300 %, so 9.05 % at 270 % and 9.02 % at 269 %. 12 x 432 = 5,184 is 9.05 % of 57,281.77,
  // which is 270 % of 21,150; 12 x 430 = 5,160 is less than 9.05 % of 57,105, where 270 % begins, and more than 9.02 % of all below it.
  test.each([
    [432, 57_281.77],
    [430, 57_104.99],
  ])(
    'where the share reaches a benchmark of %i before 400 %%, room, curve and the end say one income',
    (benchmark, ends) => {
      const year = couple({ benchmarkMonthly: benchmark, premiumMonthly: benchmark })
      const terms = { household: year, steps: stepsOf(law, year) }
      const { rooms } = incomeRoom(law, year, 'otherIncome')
      const last = rooms.at(-1)!
      expect(last).toMatchObject({ line: 'credit gone', incomeAt: creditEndsAt(law, terms) })
      expect(Math.abs(last.incomeAt - ends)).toBeLessThan(0.1)
      expect(rooms.some((room) => room.line === 'next percent' && room.incomeAt > last.incomeAt)).toBe(false)
      const paying = creditCurve(law, terms, 450).findLast((point) => point.credit > 0)!
      expect(paying.householdIncome).toBe(last.incomeAt)
      expect(standAt(law, year, 'otherIncome', last.extraLeft - 1).credit).toBeGreaterThan(0)
      expect(standAt(law, year, 'otherIncome', last.extraLeft).credit).toBe(0)
    },
  )

  test('beyond that end no line of the credit is told, though 400 % lies above', () => {
    const year = couple({ wages: [60_000, 0], benchmarkMonthly: 432, premiumMonthly: 432 })
    const { now, rooms } = incomeRoom(law, year, 'otherIncome')
    expect(now.credit).toBe(0)
    expect(rooms.filter(({ line }) => line === 'credit line' || line === 'credit gone')).toEqual([])
  })

  test('under the federal poverty level where Medicaid does not reach, crossing it pays', () => {
    const { rooms } = incomeRoom(law, couple({ wages: [18_000, 0] }), 'otherIncome')
    expect(rooms[0]).toMatchObject({ line: 'federal poverty level', incomeAt: 21_150, extraLeft: 3150 })
    expect(rooms[0]!.costOfCrossing).toBeLessThan(-20_000)
  })

  test('in an expansion state the Medicaid line comes first, and going over it costs the first premiums', () => {
    const { now, rooms } = incomeRoom(
      law,
      couple({ wages: [25_000, 0], medicaidExpansion: 1 }),
      'otherIncome',
    )
    expect(now).toMatchObject({ onMedicaid: true, premium: 0, credit: 0 })
    // 138 % of the 2026 guideline for two, 21,640.
    expect(rooms[0]).toMatchObject({ line: 'Medicaid line', incomeAt: 29_863.2, extraLeft: 4864 })
    expect(rooms[0]!.costOfCrossing).toBeGreaterThan(900)
    expect(rooms[0]!.costOfCrossing).toBeLessThan(1200)
  })

  test('farm profit reaches a line later than other income: half the tax and the health deduction come off first', () => {
    const farm = couple({ wages: [0, 0], farmProfit: [40_000, 0] })
    const byProfit = incomeRoom(law, farm, 'farmProfit').rooms.find((room) => room.line === 'credit line')!
    const byOther = incomeRoom(law, farm, 'otherIncome').rooms.find((room) => room.line === 'credit line')!
    expect(byProfit.extraLeft).toBeGreaterThan(byOther.extraLeft)
    const [under, over] = [byProfit.extraLeft - 1, byProfit.extraLeft].map((extra) =>
      standAt(law, farm, 'farmProfit', extra),
    )
    expect(under!.credit).toBeGreaterThan(10_000)
    expect(over!.credit).toBe(0)
  })

  test('advance payments change who pays when, not what the year costs', () => {
    const plain = standAt(law, couple(), 'otherIncome', 0)
    const advanced = standAt(law, couple({ advanceMonthly: 1500 }), 'otherIncome', 0)
    expect(costOf(advanced)).toBeCloseTo(costOf(plain), 6)
    expect(advanced.netPremium).toBe(plain.netPremium)
  })
})

describe('curves', () => {
  test('the credit is nothing below the poverty line, falls with income, and ends one cent beyond 400 %', () => {
    const points = creditCurve(law, { household: couple(), steps: stepsOf(law, couple()) }, 450)
    expect(points.filter((point) => point.percent < 100).every((point) => point.credit === 0)).toBe(true)
    const open = points.filter((point) => point.percent >= 100 && point.householdIncome <= 84_600)
    for (let at = 1; at < open.length; at += 1) expect(open[at]!.credit).toBeLessThan(open[at - 1]!.credit)
    const ends = points.filter((point) => point.percent === 400)
    expect(ends.map((point) => point.credit > 0)).toEqual([true, false])
    for (const point of points) expect(point.credit + point.netPremium).toBeCloseTo(22_800, 6)
  })

  test('what is kept starts at nothing for nothing, and the spans that cost more than they bring are found', () => {
    const points = keptCurve(law, couple(), 'otherIncome', { from: -10_000, to: 80_000, step: 500 })
    expect(points.find((point) => point.extra === 0)).toMatchObject({ extra: 0, kept: 0 })
    const cliff = costlySpans(points).find((span) => span.loses > 5000)!
    expect(cliff.from).toBe(44_500)
    expect(cliff.to).toBe(45_000)
    expect(cliff.because).toBe('the credit ends')
    expect(cliff.madeUpAt).toBeGreaterThan(60_000)
  })
})

describe('tax so far', () => {
  test('is the tax on what came in, less what was paid, and names what may come back apart', () => {
    const family = (estimated: number) => ({
      ...couple({ childrenUnder17: 1, earnedCreditChildren: 1, wages: [0, 0], interest: 500 }),
      farmProfit: [15_000, 15_000],
      farmGross: [30_000, 30_000],
      estimated,
    })
    const tax = taxSoFar(law, family(1000))
    // 30,000 × 0.9235 × 15.3 % = 4,238.87; two people's halves round apart by a cent at most.
    expect(tax.selfEmploymentTax).toBeCloseTo(4238.87, 1)
    expect(tax.incomeTax).toBe(0)
    expect(tax.setAside).toBeCloseTo(tax.total - 1000, 6)
    expect(tax.mayComeBack).toBeGreaterThan(5000)
    expect(taxSoFar(law, family(9000)).setAside).toBe(0)
  })
})
