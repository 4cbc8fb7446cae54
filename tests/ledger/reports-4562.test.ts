// Form 4562, line 19, of a dairy that bought in the year: what a class's basis is, and which class has no line.
//
// IRS Pub. 946, table A-1, half-year: 5-year property 20 percent, 7-year 14.29. A gain put off in stock lowers its basis (26 USC
// 1033(b)(2)). Bought and sold in one year, nothing is written off (26 CFR 1.168(d)-1(b)(3)(ii)). The two of law from memory.
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { depreciationForm } from '#ledger/reports/depreciation-form.ts'
import type { Holding } from '#ledger/reports/holding.ts'
import { stockInventory } from '#ledger/reports/stock-inventory.ts'
import { cents, zeroCents } from '#money/cents.ts'
import { depreciationRows, section179Rows } from '#views/year-pack/depreciation-part.tsx'

const bought = (
  name: string,
  assetClass: NonNullable<Holding['depreciation']>['assetClass'],
  dollars: number,
  more: Partial<Holding> = {},
  section179 = 0,
): Holding => ({
  id: name,
  kind: assetClass === 'cattle' ? 'breeding_stock' : 'equipment',
  name,
  quantity: 1,
  unit: '',
  accountId: null,
  acquiredDay: day('2025-04-10'),
  inServiceDay: null,
  raised: false,
  costCents: cents(dollars * 100),
  depreciation: { assetClass, section179Cents: cents(section179 * 100), bonus: false },
  writtenOffBefore: null,
  marketValueCents: null,
  disposedDay: null,
  disposedForCents: null,
  ...more,
})

const form = (...things: Holding[]) =>
  depreciationForm(stockInventory(things, 2025), cents(5_000_000), zeroCents)
const classes = (...things: Holding[]) =>
  form(...things).placedThisYear.map(({ years, basisCents, deductedCents }) => [
    years,
    basisCents / 100,
    deductedCents / 100,
  ])
const sold = { disposedDay: day('2025-10-01'), disposedForCents: cents(100_000) }

test('the basis of a cow in whose cost a gain is put off is what is left of it', () => {
  // 4,000 less 1,500 is 2,500; a fifth is 500. With another of 1,000: 3,500 and 700.
  const replacing = bought('Heifer', 'cattle', 4000, { loweredCents: cents(150_000) })
  expect(classes(replacing)).toEqual([[5, 2500, 500]])
  expect(classes(replacing, bought('Second heifer', 'cattle', 1000))).toEqual([[5, 3500, 700]])
})

test('a class of which section 179 took all has no line, and one of which it took a part has the rest', () => {
  const drill = bought('Drill', 'machinery-used', 3200, {}, 3200)
  expect(classes(drill)).toEqual([])
  expect(form(drill).section179.deductedCents).toBe(320_000)
  // 2,000 of 3,200 left to the table: 1,200 at 14.29 percent.
  expect(classes(bought('Rake', 'machinery-used', 3200, {}, 2000))).toEqual([[7, 1200, 171.48]])
})

test('bought and sold in the year: no line, and no class of it to elect out for', () => {
  const kept = bought('Kettle', 'machinery-used', 1000)
  const gone = bought('Wagon', 'cattle', 3200, sold)
  expect(classes(gone)).toEqual([])
  expect(form(gone).bonus).toEqual({ taken: [], notTaken: [] })
  expect(form(kept, gone).bonus.notTaken).toEqual([7])
  expect(classes(kept, gone)).toEqual([[7, 1000, 142.9]])
  // Sold the year after, it was written off in this one.
  expect(classes({ ...gone, disposedDay: day('2026-10-01') })).toEqual([[5, 3200, 640]])
})

test('section 179 is listed thing by thing on line 6, and classes of the year have the letters of line 19', () => {
  const drill = bought('Drill', 'machinery-used', 3200, {}, 3200)
  const rake = bought('Rake', 'machinery-used', 3200, {}, 2000)
  const made = form(drill, rake, bought('Heifer', 'cattle', 4000))
  expect(
    section179Rows(made).map(({ part, label, note, amountCents }) => [part, label, note, amountCents]),
  ).toEqual([
    ['Part I, line 6', 'Drill', 'cost 3,200.00', 320_000],
    ['Part I, line 6', 'Rake', 'cost 3,200.00', 200_000],
    ['Part I, line 8', 'Section 179, elected', 'listed things included', 520_000],
    ['Part I, line 11', 'Business income, the most it may be', '', 5_000_000],
  ])
  // A fifth of 4,000 in the class of five years, 14.29 percent of the 1,200 left in that of seven.
  expect(depreciationRows(made).map(({ part, amountCents }) => [part, amountCents])).toEqual([
    ['Part I, line 12', 520_000],
    ['Part III, line 19b', 80_000],
    ['Part III, line 19c', 17_148],
  ])
})

// Straight line from the middle of April (26 USC 168(b)(3), (d)(2)): 100,000 ÷ 27.5 × 8.5 ÷ 12. The form names this class by what it is.
test('a tenant house is residential rental property on line 19h', () => {
  const made = form(bought('Tenant house', 'tenant-house', 100_000, { kind: 'building' }))
  expect(depreciationRows(made)).toEqual([
    {
      part: 'Part III, line 19h',
      label: 'Residential rental property of this year',
      note: '27.5 years, straight line, mid-month, basis 100,000.00',
      amountCents: 257_576,
    },
  ])
})
