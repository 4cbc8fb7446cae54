// Farm income averaging (26 USC 1301; Schedule J, its lines as the form has them): by hand, against every other election, and between years.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import { lawFor, rateLawFor } from '#rules/law.ts'
import { averageFarmIncome, type BaseYear, type FarmAveraging } from '#rules/return/farm-averaging.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { scheduleTax } from '#rules/return/income-tax.ts'
import { project } from '#runway/project.ts'

const indexing = steadyIndexing(0.025)
const law = lawFor(2026, indexing)

const base = (year: number, status: number, taxable: number, preferred = 0): BaseYear => ({
  law: rateLawFor(year, indexing),
  status,
  taxable,
  preferred,
  ratio: 1,
})

const averaged = (taxable: number, farmIncome: number, averaging: FarmAveraging, preferred = 0) => {
  const out = { elected: 0, tax: 0 }
  const year = { status: 0, taxable: taxable * 100, preferred: preferred * 100, farmIncome: farmIncome * 100 }
  averageFarmIncome(law, year, averaging, out)
  return { elected: out.elected / 100, tax: out.tax / 100 }
}

test('by hand: single, 90,000 in 2026 of which 60,000 is averaged over 10,000, 5,000 and nothing', () => {
  // Line 4, 2026 on 30,000: 1,240 + 12 % of 17,600 = 3,352.
  // 2025, 10,000 + 20,000: 1,192.50 + 12 % of 18,075 = 3,361.50, less 1,000 on 10,000.
  // 2024, 5,000 + 20,000: 1,160 + 12 % of 13,400 = 2,768, less 500. 2023, 20,000: 1,100 + 12 % of 9,000 = 2,180.
  const years: FarmAveraging['years'] = [base(2025, 0, 10_000), base(2024, 0, 5000), base(2023, 0, 0)]
  const told = averaged(90_000, 80_000, { years, elected: 60_000 })
  expect(told).toEqual({ elected: 60_000, tax: 3352 + 2361.5 + 2268 + 2180 })
  // Without it: 5,800 + 22 % of 39,600 = 14,512.
  expect(scheduleTax(law, 0, 90_000_00) / 100).toBe(14_512)
  // All of it is taxed at 12 % by then: nothing else costs less.
  expect(averaged(90_000, 80_000, { years, elected: -1 }).tax).toBe(told.tax)
})

test('what deductions left unused in a base year takes farm income free of tax', () => {
  // 12,000 below zero in 2025: a third of 36,000 goes there untaxed; the others bear 10 % of 12,000 at most of 11,600 and 11,000.
  const years: FarmAveraging['years'] = [base(2025, 0, -12_000), base(2024, 0, 0), base(2023, 0, 0)]
  const { tax } = averaged(80_000, 36_000, { years, elected: 36_000 })
  // 44,000 in 2026: 1,240 + 12 % of 31,600 = 5,032; 2024: 1,160 + 12 % of 400; 2023: 1,100 + 12 % of 1,000.
  expect(tax).toBeCloseTo(5032 + 1160 + 48 + 1100 + 120, 2)
})

test('no more than the farm’s ordinary taxable income, nothing where a base year is not known', () => {
  const years: FarmAveraging['years'] = [base(2025, 0, 0), base(2024, 0, 0), base(2023, 0, 0)]
  expect(averaged(90_000, 20_000, { years, elected: 50_000 }).elected).toBe(20_000)
  expect(averaged(90_000, 80_000, { years, elected: 85_000 }, 30_000).elected).toBe(60_000)
  const unknown: FarmAveraging['years'] = [years[0], years[1], { ...years[2], law: null }]
  expect(averaged(90_000, 80_000, { years: unknown, elected: -1 })).toEqual({ elected: 0, tax: 14_512 })
})

test('the least is the least: no other election costs less', () => {
  const amount = fc.integer({ min: -30_000, max: 250_000 })
  const status = fc.integer({ min: 0, max: 4 })
  fc.assert(
    fc.property(
      fc.tuple(status, amount, status, amount, status, amount),
      fc.integer({ min: 0, max: 400_000 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      ([s1, b1, s2, b2, s3, b3], taxable, farmPart, other) => {
        const years: FarmAveraging['years'] = [base(2025, s1, b1), base(2024, s2, b2), base(2023, s3, b3)]
        const farmIncome = Math.floor(taxable * farmPart)
        const best = averaged(taxable, farmIncome, { years, elected: -1 })
        const one = averaged(taxable, farmIncome, { years, elected: Math.floor(farmIncome * other) })
        expect(best.tax).toBeLessThanOrEqual(one.tax + 0.05)
        expect(best.tax).toBeLessThanOrEqual(scheduleTax(law, 0, taxable * 100) / 100)
      },
    ),
    { seed: 20261129, numRuns: 500 },
  )
})

test('on the return it lowers income tax alone: self-employment tax, income and credits by income stay', () => {
  const household = { ...emptyHouseholdYear(), farmProfit: [120_000, 0] }
  const years: FarmAveraging['years'] = [base(2025, 0, 0), base(2024, 0, 0), base(2023, 0, 0)]
  const plain = fileReturn(law, household).figures
  const with3 = fileReturn(law, { ...household, averaging: { years, elected: -1 } }).figures
  expect(with3.incomeTax).toBeLessThan(plain.incomeTax - 3000)
  expect(with3.selfEmploymentTax).toBe(plain.selfEmploymentTax)
  expect(with3.adjustedGrossIncome).toBe(plain.adjustedGrossIncome)
  expect(with3.totalTax - with3.incomeTax).toBeCloseTo(plain.totalTax - plain.incomeTax, 6)
})

test('in a plan: a good year after three lean ones is averaged, and what it filled is full for the next', () => {
  const yearsOf = (averageFarmIncome: boolean) =>
    project(
      planSchema.parse({
        startMonth: '2027-01',
        household: { people: [{ id: 'ann', name: 'Ann', born: '1980-03-10', planToAge: 50 }] },
        savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 100_000 }] },
        draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 10_000 }] },
        tax: { averageFarmIncome },
        assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
      }),
    ).years.map(({ tax }) => tax)
  const [plain, average] = [yearsOf(false), yearsOf(true)]
  const saved = plain.map((tax, y) => tax - average[y]!)
  expect(saved[0]).toBeGreaterThan(2000)
  expect(saved[1]).toBeLessThan(saved[0]!)
  expect(saved[2]!).toBeGreaterThanOrEqual(0)
})
