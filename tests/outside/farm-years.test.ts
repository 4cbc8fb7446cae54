// Whole years of invented farms, worked by hand outside the code, to the cent.
//
// Schedule F and SE (Form 1040) 2025: lines as in schedule-f-lines.ts; Schedule SE lines 4a (92.35 percent), 10 (12.4 percent), 11 (2.9
// percent), 13 (half). Depreciation: IRS Pub. 946 table A-1, half-year: 5-year 20, 32, 19.2, 11.52; 7-year 14.29, 24.49, 17.49; 10-year
// 10 percent; farm property since 2018 at 200 percent (26 USC 168(b)(2)). Sales: 26 USC 1231(b)(3), 1245; IRS Pub. 225, "Sales of farm property".
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { saveHolding } from '#db/year-store.ts'
import { planSchema } from '#plan/plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { workedYear } from '#today/tax/tax-payments.ts'
import { depreciationRows } from '#views/year-pack/depreciation-part.tsx'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { type YearBooks, yearBooks, yearParts } from './year-books.ts'

let app: TestApp

const alone = planSchema.parse({
  startMonth: '2025-01',
  household: {
    people: [{ id: 'ann', name: 'Ann', born: '1982-04-01' }],
    living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
  },
})

let year: YearBooks
const { by, sold, dollarsOf } = yearParts
const book: YearBooks['book'] = (income, costs) => year.book(income, costs)
const hold: YearBooks['hold'] = (name, kind, since, cost, more) => year.hold(name, kind, since, cost, more)

const filed = () => {
  const worked = workedYear(app.books, alone, 2025)
  if (worked.status === 'cannot') throw new Error(worked.says)
  return worked.tax.return.figures
}

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  year = yearBooks(app.books)
})

afterEach(() => app.close())

describe('a market garden', () => {
  beforeEach(() => {
    book(
      {
        'Vegetables and fruit sold': '31,240.55',
        'Cut flowers sold': '4,118.20',
        'CSA shares': '12,600',
        'Cooperative distributions': '212.40',
        'Farm program payments': '1,500',
        'Custom work for others': '380',
        'Other farm income': '96.15',
      },
      {
        'Car and truck': '1,911',
        Chemicals: '240.75',
        'Fertilizer and lime': '1,386.20',
        'Fuel and oil': '902.33',
        'Farm insurance': '1,245',
        'Other interest': '318.44',
        'Hired labor': '6,480',
        'Land rent': '900',
        'Repairs and upkeep': '733.18',
        'Seeds and plants': '3,652.90',
        Supplies: '4,221.07',
        'Taxes and licenses': '611.32',
        'Farm utilities': '1,166.90',
        'Market fees and dues': '2,340',
        Packaging: '1,078.66',
        'Card and bank fees': '655.41',
      },
    )
    hold('Tractor', 'equipment', '2025-04-02', '6,000', by('machinery-new'))
    hold('Greenhouse', 'building', '2025-03-15', '8,500', by('single-purpose-structure'))
    hold('Cooler', 'equipment', '2025-06-20', '2,400', by('machinery-used', '2,400'))
    hold('Deer fence', 'fence', '2023-05-10', '5,000', by('fence-or-grain-bin'))
  })

  test('Schedule F, line by line', () => {
    const { form } = booksYear(app.books, 2025).farm!
    // 31,240.55 + 4,118.20 + 12,600 on line 2.
    expect(dollarsOf(form.income)).toEqual({
      '2': '47958.75',
      '3a': '212.40',
      '4a': '1500.00',
      '7': '380.00',
      '8': '96.15',
    })
    expect(form.grossIncomeCents).toBe(5_014_730)
    // Line 14: 1,200 + 850 + 2,400 + 874.50.
    expect(dollarsOf(form.expenses)).toEqual({
      '10': '1911.00',
      '11': '240.75',
      '14': '5324.50',
      '17': '1386.20',
      '19': '902.33',
      '20': '1245.00',
      '21b': '318.44',
      '22': '6480.00',
      '24b': '900.00',
      '25': '733.18',
      '26': '3652.90',
      '28': '4221.07',
      '29': '611.32',
      '30': '1166.90',
      '32a': '2340.00',
      '32b': '1078.66',
      '32c': '655.41',
    })
    expect(form.totalExpensesCents).toBe(3_316_766)
    expect(form.netProfitCents).toBe(1_697_964)
  })

  test('Form 4562, part by part', () => {
    const { depreciation } = booksYear(app.books, 2025).farm!
    expect(depreciation.section179).toEqual({
      // Line 6 lists each thing with its cost and what is elected of it.
      things: [{ name: 'Cooler', costCents: 240_000, electedCents: 240_000 }],
      electedCents: 240_000,
      // Profit without the deduction: 16,979.64 + 2,400.
      businessIncomeCents: 1_937_964,
      deductedCents: 240_000,
      carriedCents: 0,
    })
    expect(
      depreciation.placedThisYear
        .filter(({ basisCents }) => basisCents > 0)
        .map(({ years, method, convention, basisCents, deductedCents }) => [
          years,
          method,
          convention,
          basisCents,
          deductedCents,
        ]),
    ).toEqual([
      [5, '200 % declining balance', 'half-year', 600_000, 120_000],
      [10, '200 % declining balance', 'half-year', 850_000, 85_000],
    ])
    // Third year of 7-year property: 17.49 percent.
    expect([depreciation.earlierCents, depreciation.bonusCents, depreciation.totalCents]).toEqual([
      87_450, 0, 532_450,
    ])
  })

  test('the printed lines add up to line 22, listed things and their section 179 too; what is elected by leaving bonus out is said', async () => {
    hold('Pickup', 'equipment', '2025-05-01', '20,000', by('pickup', '4,000'))
    const { depreciation } = booksYear(app.books, 2025).farm!
    const rows = depreciationRows(depreciation)
    expect(rows.reduce((sum, { amountCents }) => sum + amountCents, 0)).toBe(depreciation.totalCents)
    // 5,324.50 and the pickup: 4,000 of section 179, in Part I, and a fifth of the 16,000 left.
    expect(depreciation.totalCents).toBe(532_450 + 400_000 + 320_000)
    expect(rows.find(({ label }) => label === 'Pickup')!.amountCents).toBe(320_000)
    expect(rows.find(({ label }) => label === 'Section 179, deducted')!.amountCents).toBe(640_000)
    const sheet = await (await app.get('/year-pack/sheets/depreciation?year=2025')).text()
    expect(sheet).toContain('Bonus depreciation is not taken for 5-year, 10-year property of this year')
  })

  test('Schedule SE', () => {
    // 16,979.64 × 0.9235 = 15,680.70; 1,944.41 + 454.74.
    expect(filed().selfEmploymentTax).toBe(2399.15)
    expect(filed().adjustedGrossIncome).toBeCloseTo(16_979.64 - 1199.58, 2)
  })

  // Standard deduction of one, 2025: 15,750 (P.L. 119-21). Business income deduction: 26 USC 199A, a fifth of what is left. Earned income
  // credit of 2025 without children: 649, less 7.65 percent over 10,620 (Rev. Proc. 2024-40, from memory).
  test('the worksheet to its last line', () => {
    // 15,780.06 − 15,750 = 30.06; a fifth, 6.01; 24.05 at 10 percent. 649 − 0.0765 × 5,160.06 = 254.26.
    expect(filed()).toMatchObject({
      adjustedGrossIncome: 15_780.06,
      deduction: 15_750,
      qbiDeduction: 6.01,
      taxableIncome: 24.05,
      incomeTax: 2.41,
      selfEmploymentTax: 2399.15,
      totalTax: 2401.56,
      earnedIncomeCredit: 254.26,
      totalPayments: 254.26,
      balanceDue: 2147.3,
    })
  })

  test('section 179 beyond what the business earned is left to later years (26 USC 179(b)(3))', () => {
    hold('Baler', 'equipment', '2025-07-01', '30,000', by('machinery-used', '30,000'))
    const { form, depreciation } = booksYear(app.books, 2025).farm!
    // Elected 32,400 against 19,379.64 of business income: 13,020.36 waits, and nothing is left to tax.
    expect(depreciation.section179).toMatchObject({
      electedCents: 3_240_000,
      deductedCents: 1_937_964,
      carriedCents: 1_302_036,
    })
    expect(form.netProfitCents).toBe(0)
    expect(filed().carried.section179).toBe(13_020.36)
    expect(filed().selfEmploymentTax).toBe(0)
  })
})

describe('a livestock farm with raised and bought stock', () => {
  beforeEach(() => {
    book(
      {
        'Livestock bought for resale, sold': '9,800',
        'Raised livestock and meat sold': '22,415.30',
        'Eggs and poultry sold': '3,900',
        'Breeding stock and equipment sold': '2,250',
      },
      {
        'Cost of livestock bought for resale': '6,150',
        Feed: '8,420.11',
        'Veterinary, breeding, medicine': '1,214.60',
        'Freight and trucking': '640',
        Supplies: '980.45',
        'Repairs and upkeep': '512.30',
        'Farm insurance': '1,400',
        'Land rent': '1,800',
      },
    )
    hold('New ram', 'breeding_stock', '2025-03-01', '900', by('sheep-or-goats'))
    hold('Old ram', 'breeding_stock', '2022-03-10', '800', {
      ...by('sheep-or-goats'),
      ...sold('2025-09-01', '300'),
    })
    hold('Five ewes', 'breeding_stock', '2022-04-01', '0', { raised: true, ...sold('2025-10-01', '1,050') })
    hold('Trailer', 'equipment', '2024-05-01', '2,000', {
      ...by('heavy-truck-or-trailer'),
      ...sold('2025-10-10', '900'),
    })
    // Five of the twenty steers bought in the year are still there.
    hold('Five steers', 'market_stock', '2025-05-01', '1,537.50')
  })

  test('Schedule F: bought stock is deducted in the year of sale (IRS Pub. 225)', () => {
    const { form } = booksYear(app.books, 2025).farm!
    expect(dollarsOf(form.income)).toEqual({ '1a': '9800.00', '1b': '4612.50', '2': '26315.30' })
    // 9,800 − 4,612.50 + 26,315.30.
    expect(form.grossIncomeCents).toBe(3_150_280)
    // 14,967.46 of costs, and depreciation of 180 + 46.08 + 320.
    expect(dollarsOf(form.expenses)).toEqual({
      '14': '546.08',
      '16': '8420.11',
      '18': '640.00',
      '20': '1400.00',
      '24b': '1800.00',
      '25': '512.30',
      '28': '980.45',
      '31': '1214.60',
    })
    expect(form.totalExpensesCents).toBe(1_551_354)
    expect(form.netProfitCents).toBe(1_598_926)
  })

  test('the steers left are deducted in the next year, when they are sold', () => {
    const { form } = booksYear(app.books, 2026).farm!
    expect(form.grossIncomeCents).toBe(0)
    const steers = booksYear(app.books, 2026).farm!.inventory.rows.find(
      ({ holding }) => holding.name === 'Five steers',
    )!
    const { id: _, ...draft } = steers.holding
    done(
      saveHolding(app.books, act(), 'farm', { ...draft, ...sold('2026-02-01', '2,600') }, steers.holding.id),
    )
    expect(dollarsOf(booksYear(app.books, 2026).farm!.form.income)).toEqual({ '1b': '1537.50' })
    expect(dollarsOf(booksYear(app.books, 2025).farm!.form.income)['1b']).toBe('4612.50')
  })

  test('Form 4797, a sale a line', () => {
    const { sales } = booksYear(app.books, 2025).farm!
    const rows = Object.fromEntries(
      sales.sales.map((sale) => [
        sale.name,
        [
          sale.part,
          sale.priceCents,
          sale.costCents,
          sale.deductedCents,
          sale.gainCents,
          sale.ordinaryCents,
          sale.section1231Cents,
        ],
      ]),
    )
    expect(rows).toEqual({
      // 160 + 256 + 153.60, and half of 92.16; 184.32 left, so 115.68 of gain, all of it depreciation taken back.
      'Old ram': ['III', 30_000, 80_000, 61_568, 11_568, 11_568, 0],
      'Five ewes': ['I', 105_000, 0, 0, 105_000, 0, 105_000],
      // 400, and half of 640; 1,280 left: a loss of 380, in full.
      Trailer: ['I', 90_000, 200_000, 72_000, -38_000, 0, -38_000],
    })
    expect([sales.section1231Cents, sales.ordinaryCents]).toEqual([67_000, 11_568])
    expect([sales.bookedCents, sales.recordedCents]).toEqual([225_000, 225_000])
  })

  test('Schedule SE, and income with the sales beside it', () => {
    // 15,989.26 × 0.9235 = 14,766.08; 1,830.99 + 428.22; half of 2,259.21 is 1,129.61.
    expect(filed().selfEmploymentTax).toBe(2259.21)
    expect(filed().adjustedGrossIncome).toBeCloseTo(15_989.26 + 670 + 115.68 - 1129.61, 2)
    // Under the standard deduction. The credit by the larger, income with the sales: 649 − 0.0765 × 5,025.33.
    expect(filed()).toMatchObject({
      taxableIncome: 0,
      incomeTax: 0,
      totalTax: 2259.21,
      earnedIncomeCredit: 264.56,
      balanceDue: 1994.65,
    })
  })

  test('Form 4562: the new ram by class, the old ram and the trailer as property of earlier years', () => {
    const { depreciation } = booksYear(app.books, 2025).farm!
    // 900 at 20 percent; half of 92.16 and half of 640.
    expect(depreciation).toMatchObject({
      section179: { electedCents: 0, deductedCents: 0, carriedCents: 0 },
      bonusCents: 0,
      placedThisYear: [
        {
          years: 5,
          method: '200 % declining balance',
          convention: 'half-year',
          basisCents: 90_000,
          deductedCents: 18_000,
        },
      ],
      earlierCents: 36_608,
      listed: [],
      totalCents: 54_608,
    })
  })

  test('what never was there is taken off; what a closed month has is not', async () => {
    const steers = booksYear(app.books, 2025).farm!.inventory.rows.find(
      ({ holding }) => holding.name === 'Five steers',
    )!
    const path = `/year-pack/holdings/${steers.holding.id}/remove`
    const body = { formId: crypto.randomUUID() }
    expect([(await app.post(path, body)).status, (await app.post(path, body)).status]).toEqual([303, 303])
    expect(dollarsOf(booksYear(app.books, 2025).farm!.form.income)['1b']).toBe('6150.00')
    done(
      closeMonth(app.books, act(), { sideId: 'farm', month: month(2025, 12), note: '' }, day('2026-02-10')),
    )
    const { rows } = booksYear(app.books, 2025).farm!.inventory
    const trailer = rows.find(({ holding }) => holding.name === 'Trailer')!.holding
    const kept = await app.post(`/year-pack/holdings/${trailer.id}/remove`, { formId: crypto.randomUUID() })
    expect(kept.status).toBe(422)
    expect(await kept.text()).toContain('closed through December 2025')
  })
})
