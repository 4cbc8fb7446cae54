// Farm tax facts against IRS Pub. 946 tables, an extension example, IRS Topic 416 and 26 CFR 1.1231-2.
import { describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { stockSale } from '#rules/breeding-stock.ts'
import { doubleDecliningHalfYear, onePointFiveDecliningHalfYear } from '#rules/data/depreciation.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { decliningShares } from '#rules/depreciation/rates.ts'
import { type DepreciableAsset, depreciationSchedule } from '#rules/depreciation/schedule.ts'
import {
  bonusShare,
  section179Carried,
  section179Ceiling,
  section179Limits,
} from '#rules/depreciation/write-offs.ts'
import { estimatedTaxPlan, farmerFilingDue, farmerInstallmentDue } from '#rules/estimated-tax.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { fileReturn } from '#rules/return/household-return.ts'

describe('percentage tables (IRS Pub. 946 tables A-1 and A-14)', () => {
  const tables = [
    { factor: 2, table: doubleDecliningHalfYear.values[1989]! },
    { factor: 1.5, table: onePointFiveDecliningHalfYear.values[1989]! },
  ]
  test('every printed row adds to 100 within 0.01', () => {
    for (const { table } of tables)
      for (const row of Object.values(table)) expect(row.reduce((a, b) => a + b, 0)).toBeCloseTo(100, 2)
  })
  test('the declining-balance rule gives every printed percentage within 0.01 (print rounds)', () => {
    for (const { factor, table } of tables)
      for (const [years, row] of Object.entries(table)) {
        const computed = decliningShares(Number(years), factor, 0.5)
        expect(computed).toHaveLength(row.length)
        row.forEach((percent, i) => {
          expect(Math.abs(computed[i]! * 100 - percent), `${years} years, year ${i + 1}`).toBeLessThanOrEqual(
            0.01,
          )
        })
      }
  })
})

test('Iowa State University CALT (2020): 100 breeding gilts at 250 write off 8,332.50 in the first year', () => {
  const schedule = depreciationSchedule(
    [{ name: 'Gilts', assetClass: 'hogs', cost: 25_000, placedInService: day('2020-03-15'), bonus: false }],
    2020,
    2023,
  )
  expect(schedule.totals[0]).toBe(8332.5)
  expect(schedule.totals.reduce((a, b) => a + b, 0)).toBeCloseTo(25_000, 2)
})

describe('section 179 and bonus (Rev. Proc. 2025-32 sec. 3.02, 4.24; P.L. 119-21)', () => {
  test('2026: 2,560,000, shrinking over 4,090,000 dollar for dollar, within business income', () => {
    const limits = section179Limits(2026, steadyIndexing(0.025))
    expect(section179Ceiling(limits, 100_000, 60_000)).toBe(60_000)
    expect(section179Ceiling(limits, 4_100_000, 9_000_000)).toBe(2_550_000)
    // 26 USC 179(b)(3)(B): what income does not take is carried on; what is over the dollar limit is not.
    expect(section179Carried(limits, 100_000, 60_000, 80_000)).toBe(20_000)
    expect(section179Carried(limits, 100_000, 90_000, 80_000)).toBe(0)
    expect(section179Carried(limits, 4_100_000, 2_000_000, 4_000_000)).toBe(550_000)
    expect(limits.suvCap).toBe(32_000)
  })
  test('40 percent for 2025 purchases before January 20, all of it after', () => {
    expect(bonusShare(day('2025-01-19'), 2025)).toBe(0.4)
    expect(bonusShare(day('2025-01-20'), 2025)).toBe(1)
    expect(bonusShare(day('2024-06-01'), 2024)).toBe(0.6)
    expect(bonusShare(day('2024-12-01'), 2026)).toBe(0.2)
  })
})

describe('cars and heavy sport utility vehicles', () => {
  const schedule = (more: Partial<DepreciableAsset>) =>
    depreciationSchedule(
      [
        {
          name: 'Car',
          assetClass: 'vehicle',
          cost: 60_000,
          placedInService: day('2018-06-01'),
          acquired: day('2018-06-01'),
          bonus: true,
          ...more,
        },
      ],
      Number((more.placedInService ?? '2018').slice(0, 4)),
      2040,
    ).assets[0]!

  // Rev. Proc. 2019-13 sec. 4.03, example of a car of 60,000 with 100 percent bonus, from memory.
  test('the safe harbor: 18,000, then the table on the other 42,000, and 8,401 after its end', () => {
    expect(schedule({}).deductions.slice(0, 8)).toEqual([
      18_000, 13_440, 8064, 4838.4, 4838.4, 2419.2, 5760, 2640,
    ])
  })

  // 26 USC 280F(a)(1); Rev. Proc. 2026-15: 12,300, 19,800, 11,900, 7,160 without bonus.
  test('a car of 90,000 without bonus deducts the yearly limits and goes on until its cost is used up', () => {
    const { deductions } = schedule({ cost: 90_000, placedInService: day('2026-03-01'), bonus: false })
    // 20 % would be 18,000, 32 % 28,800, 19.2 % 17,280, 11.52 % 10,368 twice, 5.76 % 5,184.
    expect(deductions.slice(0, 6)).toEqual([12_300, 19_800, 11_900, 7160, 7160, 5184])
    expect(deductions.slice(6, 10)).toEqual([7160, 7160, 7160, 5016])
    expect(deductions[10]).toBe(0)
  })

  test('section 179 counts within the first limit (280F(d)(1)), and half business use halves it (280F(a)(2))', () => {
    const car = { cost: 30_000, placedInService: day('2026-03-01'), bonus: false, section179: 30_000 }
    expect(schedule(car)).toMatchObject({ section179: 12_300 })
    expect(schedule(car).deductions.slice(0, 2)).toEqual([12_300, 5664])
    expect(schedule({ ...car, businessShare: 0.5 }).deductions[0]).toBe(6150)
  })

  // 26 USC 179(b)(5): 32,000 of a sport utility vehicle in 2026; a pickup with a full bed is no such vehicle.
  test('of a heavy sport utility vehicle 32,000 go at once under section 179, of a heavy pickup all', () => {
    const heavy = { cost: 60_000, placedInService: day('2026-03-01'), bonus: false, section179: 60_000 }
    expect(schedule({ ...heavy, assetClass: 'suv' }).deductions[0]).toBe(32_000 + 5600)
    expect(schedule({ ...heavy, assetClass: 'pickup' }).deductions[0]).toBe(60_000)
  })
})

describe('estimated tax (IRS Topic 416)', () => {
  const base = {
    taxYear: 2026,
    lastYear: { farm: 0, total: 50_000 },
    taxThisYear: 6000,
    taxLastYear: 9000,
    adjustedGrossIncomeLastYear: 60_000,
    withheld: 0,
    paid: 0,
    marriedSeparate: false,
  }
  test('two thirds of gross income makes a farmer: one payment by January 15, or file by March 1', () => {
    const plan = estimatedTaxPlan({ ...base, thisYear: { farm: 40_000, total: 60_000 } })
    expect(plan.farmer).toBe(true)
    expect(plan.installments).toEqual([{ due: '2027-01-15', amount: 4000 }])
    expect(plan.fileInsteadBy).toBe('2027-03-01')
  })
  // 26 USC 6654(b)(3): a payment is credited against unpaid installments in the order in which they must be paid.
  test('what was paid ahead comes off the farmer’s one payment, and off quarters in their order', () => {
    const farm = { ...base, thisYear: { farm: 40_000, total: 60_000 } }
    expect(estimatedTaxPlan({ ...farm, paid: 2700 }).installments).toEqual([
      { due: '2027-01-15', amount: 1300 },
    ])
    expect(estimatedTaxPlan({ ...farm, paid: 3000, withheld: 1000 }).installments).toEqual([])
    const quarters = { ...base, thisYear: { farm: 0, total: 60_000 } }
    expect(estimatedTaxPlan({ ...quarters, paid: 2000 }).installments).toEqual([
      { due: '2026-06-15', amount: 700 },
      { due: '2026-09-15', amount: 1350 },
      { due: '2027-01-15', amount: 1350 },
    ])
  })
  test('just under two thirds: quarters, 90 percent of this year’s tax', () => {
    const plan = estimatedTaxPlan({ ...base, thisYear: { farm: 39_990, total: 60_000 } })
    expect(plan.farmer).toBe(false)
    expect(plan.requiredAnnualPayment).toBe(5400)
    expect(plan.installments.map(({ due }) => due)).toEqual([
      '2026-04-15',
      '2026-06-15',
      '2026-09-15',
      '2027-01-15',
    ])
  })
  test('the weekend rule: March 1, 2026 was a Sunday, January 15, 2028 is a Saturday before the King holiday', () => {
    expect(farmerFilingDue(2025)).toBe('2026-03-02')
    expect(farmerInstallmentDue(2027)).toBe('2028-01-18')
  })
})

describe('breeding stock (26 CFR 1.1231-2; IRS Pub. 225)', () => {
  const ewe = {
    year: 2026,
    species: 'sheep',
    origin: 'raised',
    heldForUse: true,
    monthsHeld: 40,
    netPrice: 180,
    cost: 0,
    depreciationAllowed: 0,
  } as const
  test('a raised ewe kept 12 months or more: the whole price is section 1231 gain, no self-employment income', () => {
    expect(stockSale(ewe)).toMatchObject({
      section1231: 180,
      ordinary: 0,
      selfEmploymentIncome: 0,
      form: '4797-part-i',
    })
  })
  test('cattle must be held 24 months', () => {
    expect(stockSale({ ...ewe, species: 'cattle', monthsHeld: 23 })).toMatchObject({
      ordinary: 180,
      section1231: 0,
      form: '4797-part-ii',
    })
    expect(stockSale({ ...ewe, species: 'cattle', monthsHeld: 24 }).section1231).toBe(180)
  })
  test('a purchased ram: gain up to depreciation is ordinary, the rest section 1231', () => {
    const ram = { ...ewe, origin: 'purchased', netPrice: 900, cost: 800, depreciationAllowed: 416 } as const
    expect(stockSale(ram)).toMatchObject({
      gain: 516,
      ordinary: 416,
      section1231: 100,
      selfEmploymentIncome: 0,
    })
  })
  test('poultry never qualifies', () => {
    expect(stockSale({ ...ewe, species: 'poultry' })).toMatchObject({
      form: 'schedule-f',
      selfEmploymentIncome: 180,
    })
  })
})

describe('listed property used for the business in part (26 USC 280F(b))', () => {
  const pickup = (useShares: number[], more: Partial<DepreciableAsset> = {}) =>
    depreciationSchedule(
      [
        {
          name: 'Pickup',
          assetClass: 'pickup',
          cost: 18_000,
          placedInService: day('2019-06-01'),
          section179: 10_000,
          bonus: false,
          useShares,
          ...more,
        },
      ],
      2019,
      2025,
    ).assets[0]!

  // IRS Pub. 946, chapter 5, recapture of excess depreciation, its example of a pickup (from memory): 10,000 under section 179 and
  // 6,618 by the table in four years of business use; then half is private. 16,618 less 12,600 of straight line are income.
  test('use falls to half in the fifth year: 4,018 come back, and the straight line goes on', () => {
    const { deductions, excess } = pickup([1, 1, 1, 1, 0.5])
    // 8,000 at 20, 32, 19.2 and 11.52 percent; then 18,000 at 20 percent, half of it.
    expect(deductions).toEqual([11_600, 2560, 1536, 921.6, 1800, 900, 0])
    expect(excess).toEqual({ year: 2023, amount: 4017.6 })
  })

  test('half or less from the first year on: straight line of the business part, nothing at once', () => {
    const { deductions, section179, excess } = pickup([0.4])
    // 7,200 over five years, half a year first.
    expect([section179, excess]).toEqual([0, null])
    expect(deductions).toEqual([720, 1440, 1440, 1440, 1440, 720, 0])
  })

  test('by each year’s share above half', () => {
    const { deductions } = pickup([0.8, 0.6], { section179: 0 })
    // 14,400 at 20 percent; 10,800 at 32, 19.2, 11.52, 11.52, 5.76.
    expect(deductions).toEqual([2880, 3456, 2073.6, 1244.16, 1244.16, 622.08, 0])
  })

  test('a car’s yearly limits shrink with its use (26 USC 280F(a)(2))', () => {
    const { deductions } = pickup([0.6, 0.9], { assetClass: 'vehicle', cost: 80_000, section179: 0 })
    // Of a car of 2019 10,100, 16,100, 9,700, then 5,760 a year.
    expect(deductions.slice(0, 4)).toEqual([6060, 14_490, 8730, 5184])
  })
})

// 2025, one person, standard deduction 15,750 (P.L. 119-21). Wages 30,000, farm 40,000, and depreciation taken back on a sold trailer
// 5,000: not on Schedule SE (26 USC 1402(a)(3)), but qualified business income (26 CFR 1.199A-3(b)(1)(i): gain not capital or of 1231).
test('the ordinary part of a sale on Form 4797 is qualified business income', () => {
  const household = {
    ...emptyHouseholdYear(),
    people: 1,
    age: [40, 0],
    wages: [30_000, 0],
    farmProfit: [40_000, 0],
    farmGross: [60_000, 0],
    businessGains: 5000,
  }
  const { figures } = fileReturn(lawFor(2025, steadyIndexing(0.025)), household)
  // 36,940 × 12.4 and 2.9 percent: 4,580.56 + 1,071.26.
  expect(figures.selfEmploymentTax).toBe(5651.82)
  expect(figures.adjustedGrossIncome).toBe(72_174.09)
  // A fifth of 45,000 − 2,825.91, under a fifth of 72,174.09 − 15,750.
  expect(figures.qbiDeduction).toBe(8434.82)
})
