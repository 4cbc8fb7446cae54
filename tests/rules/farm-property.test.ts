// Depreciation schedules, estimated tax, and Medicare past the published years.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { day, weekdayOf } from '#calendar/day.ts'
import type { FarmAssetClass } from '#rules/data/depreciation.ts'
import { RuleYearError, steadyIndexing } from '#rules/dated.ts'
import { deductionShares, yearlyShares } from '#rules/depreciation/rates.ts'
import { assetClasses } from '#rules/depreciation/recovery.ts'
import { type DepreciableAsset, depreciationSchedule } from '#rules/depreciation/schedule.ts'
import { quarterlyInstallmentsDue, returnDue } from '#rules/estimated-tax.ts'
import { medicareColumn } from '#rules/medicare/medicare-cost.ts'
import { medicareYear } from '#rules/medicare/medicare-year.ts'

const classes = Object.keys(assetClasses) as FarmAssetClass[]
const asset = (more: Partial<DepreciableAsset>): DepreciableAsset => ({
  name: 'Tractor',
  assetClass: 'machinery-new',
  cost: 10_000,
  placedInService: day('2026-05-01'),
  bonus: false,
  ...more,
})

describe('depreciation schedule', () => {
  test('every class writes off its cost to the cent, whatever the month and the elections', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...classes),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 9_999_999 }),
        fc.boolean(),
        (assetClass, month, costCents, bonus) => {
          const placedInService = day(`2026-${String(month).padStart(2, '0')}-15`)
          const cost = costCents / 100
          const schedule = depreciationSchedule(
            [asset({ assetClass, cost, bonus, placedInService })],
            2026,
            2060,
          )
          const total = schedule.totals.reduce((sum, deduction) => sum + Math.round(deduction * 100), 0)
          expect(total).toBe(costCents)
          expect(schedule.totals.every((deduction) => deduction >= 0)).toBe(true)
          expect(schedule.assets[0]!.basisAtYearEnd.at(-1)).toBe(0)
        },
      ),
      { seed: 20261125, numRuns: 300 },
    )
  })

  test('more than 40 percent in the last quarter puts the whole year on the mid-quarter convention', () => {
    const spring = asset({ cost: 6000 })
    const autumn = asset({ cost: 4000, placedInService: day('2026-11-01') })
    expect(depreciationSchedule([spring, autumn], 2026, 2026).assets.map((row) => row.convention)).toEqual([
      'half-year',
      'half-year',
    ])
    const more = asset({ cost: 4001, placedInService: day('2026-11-01') })
    const schedule = depreciationSchedule([spring, more], 2026, 2026)
    expect(schedule.assets.map((row) => row.convention)).toEqual(['mid-quarter', 'mid-quarter'])
    // IRS Pub. 946 tables A-3 and A-5 (from memory): 25 percent for the second quarter, 5 for the fourth, five-year property.
    expect(schedule.assets.map((row) => row.deductions[0])).toEqual([1500, 200.05])
  })

  test('section 179 first, then bonus on the rest, then the tables', () => {
    const [row] = depreciationSchedule(
      [asset({ section179: 4000, bonus: true, acquired: day('2025-01-10') })],
      2026,
      2027,
    ).assets
    expect([row!.section179, row!.bonus]).toEqual([4000, 1200])
    expect(row!.deductions[0]).toBe(4000 + 1200 + 960)
    expect(row!.deductions[1]).toBe(4800 * 0.32)
  })

  test('a year of disposal takes half; bought and sold in one year takes nothing', () => {
    const sold = depreciationSchedule([asset({ disposed: day('2027-03-01') })], 2026, 2029).assets[0]!
    expect(sold.deductions).toEqual([2000, 1600, 0, 0])
    expect(sold.basisAtYearEnd).toEqual([8000, 0, 0, 0])
    expect(depreciationSchedule([asset({ disposed: day('2026-12-01') })], 2026, 2027).totals).toEqual([0, 0])
  })

  test('buildings may not be deducted under section 179', () => {
    expect(() =>
      depreciationSchedule([asset({ assetClass: 'farm-building', section179: 1 })], 2026, 2026),
    ).toThrow(/Section 179/)
  })

  test('the projection’s shares are the schedule’s deductions', () => {
    // Cars have limits in dollars, which shares cannot tell.
    const plain = classes.filter((name) => name !== 'tenant-house' && !assetClasses[name].yearlyLimit)
    for (const assetClass of plain) {
      const shares = deductionShares(assetClass, 2026, 0, 1)
      expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9)
      const schedule = depreciationSchedule([asset({ assetClass, cost: 1_000_000 })], 2026, 2060)
      deductionShares(assetClass, 2026, 0, 0).forEach((share, i) => {
        expect(schedule.totals[i]).toBeCloseTo(share * 1_000_000, 1)
      })
    }
  })

  test('machinery was seven-year property at 150 percent before 2018', () => {
    expect(yearlyShares('machinery-new', 2017, { kind: 'half-year' })[0]).toBeCloseTo(0.1071, 9)
    expect(yearlyShares('machinery-new', 2018, { kind: 'half-year' })[0]).toBe(0.2)
    expect(() => yearlyShares('machinery-new', 1988, { kind: 'half-year' })).toThrow(RuleYearError)
  })
})

describe('tax dates', () => {
  test('fall on a working day in every year of a long plan', () => {
    for (let year = 2024; year <= 2070; year++)
      for (const due of [...quarterlyInstallmentsDue(year), returnDue(year)])
        expect([1, 2, 3, 4, 5]).toContain(weekdayOf(due))
  })
  test('Emancipation Day moved April 15, 2022 to Monday the 18th (IRS announcement, from memory)', () => {
    expect(returnDue(2021)).toBe('2022-04-18')
    expect(returnDue(2025)).toBe('2026-04-15')
  })
})

describe('Medicare past the published years', () => {
  const indexing = steadyIndexing(0.025)
  test('premiums follow premium growth to ten cents, lines follow prices, the top line stands until 2027', () => {
    const law = medicareYear(2027, indexing, (year) => 1.06 ** year)
    expect(law.projected).toBe(true)
    expect(law.standardPartB).toBe(215.1)
    // 42 USC 1395r(i)(5): from 85,000, 107,000, 133,500 and 160,000 of 2018 with consumer prices to August 2026, doubled.
    expect([...law.tierStarts[1]]).toEqual([224_000, 284_000, 354_000, 424_000, 750_000])
    // CMS announced the Part D base premium of 2027; the additions are 41.33 × (share − 25.5) ÷ 25.5 (42 USC 1395w-113(a)(7)).
    expect([law.basePartD, ...law.addedPartD]).toEqual([41.33, 0, 15.4, 39.7, 64, 88.3, 96.4])
    expect(medicareYear(2029, indexing).tierStarts[1][4]).toBe(788_000)
  })
  test('a year before the data is an error that names the rule', () => {
    expect(() => medicareYear(2023, indexing)).toThrow(/Part B standard premium.*2023/)
  })
  test('separate returns use the single column only when the spouses lived apart', () => {
    expect(medicareColumn('married_separate', true)).toBe(2)
    expect(medicareColumn('married_separate', false)).toBe(0)
    expect(medicareColumn('head_of_household', true)).toBe(0)
  })
})
