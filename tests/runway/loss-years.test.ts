// Losses between the years of a plan: forward to later returns, or a farming loss back to the two before (26 USC 172).
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { farmLossYearsBack } from '#rules/data/income-tax.ts'
import { inForce } from '#rules/in-force.ts'
import { noLosses } from '#runway/loss-state.ts'
import { project } from '#runway/project.ts'

/** A single farmer who spends 70,000 on supplies in March 2026 beside yearly sales of 30,000: a loss of 40,000, then profits. */
const farm = (tax: Record<string, unknown>, change: { startMonth?: string; sales?: number } = {}) => {
  const plan = planSchema.parse({
    startMonth: change.startMonth ?? '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 }],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 100_000 }] },
    farm: {
      cash: 90_000,
      enterprises: [{ id: 'beds', name: 'Beds', salesPerUnit: change.sales ?? 30_000 }],
      purchases: [
        { id: 'soil', name: 'Soil and seed', cost: 70_000, month: '2026-03', assetClass: 'supplies' },
      ],
    },
    tax,
    assumptions: { inflation: 0, wageGrowth: 0, farmPriceGrowth: 0, farmCostGrowth: 0 },
  })
  return project(plan)
}

test('as many returns are remembered as the law lets a farming loss go back to', () => {
  expect(noLosses().returns).toHaveLength(inForce(farmLossYearsBack, 2026))
})

test('a loss goes forward and lowers the tax of the next years until it is used up', () => {
  const { years } = farm({})
  expect(years[0]!.farmProfit).toBeCloseTo(-40_000, 6)
  expect(years.slice(0, 2).map((year) => year.netOperatingLoss)[0]).toBeCloseTo(40_000, 2)
  expect(years[0]!.qualifiedBusinessLoss).toBeCloseTo(40_000, 2)
  // 30,000 less half of 4,238.87 is 27,880.57; less 16,600 of 2027 are 11,280.57, of which 80 % go: the tax is on 2,256.11.
  expect(years[1]!.netOperatingLoss).toBeCloseTo(40_000 - 9024.46, 1)
  const without = farm({}, { startMonth: '2027-01' })
  expect(years[1]!.incomeTax).toBeLessThan(without.years[0]!.incomeTax)
  const paid = (list: typeof years) => list.slice(-12).reduce((sum, year) => sum + year.incomeTax, 0)
  expect(paid(years)).toBeCloseTo(paid(without.years), 1)
  for (let y = 1; y < years.length; y += 1)
    expect(years[y]!.netOperatingLoss).toBeLessThanOrEqual(years[y - 1]!.netOperatingLoss)
  expect(years.at(-1)!.netOperatingLoss).toBe(0)
})

test('carried back to two salaried years it comes back in May: the tax of the earlier one first', () => {
  const lastYear = {
    tax: 8000,
    adjustedGrossIncome: 60_000,
    taxableIncome: 44_250,
    incomeTwoYearsBack: 35_000,
    taxableIncomeTwoYearsBack: 20_400,
  }
  const { years, months } = farm({ farmLosses: 'back', lastYear })
  // 2024, single: 20,400 taxed 1,160 + 12 % of 8,800 = 2,216; the loss takes 80 %, 16,320, and leaves 4,080: 408.
  // 2025: 23,680 are left of it; 44,250 taxed 1,192.50 + 12 % of 32,325 = 5,071.50, less them 20,570: 1,192.50 + 1,037.40.
  const refund = 2216 - 408 + (5071.5 - 2229.9)
  expect(years[0]!.lossRefund).toBeCloseTo(refund, 2)
  expect(years[0]!.netOperatingLoss).toBe(0)
  const forward = farm({ lastYear })
  const may = (list: typeof months) => list.find((one) => one.month === '2027-05')!
  expect(may(months).taxes - may(forward.months).taxes).toBeCloseTo(-refund, 2)
  // What is left of business income below zero goes forward all the same.
  expect(years[0]!.qualifiedBusinessLoss).toBeCloseTo(40_000, 2)
})

test('what the two years before cannot use goes forward', () => {
  const lastYear = { tax: 500, adjustedGrossIncome: 21_000, taxableIncome: 5250 }
  const { years } = farm({ farmLosses: 'back', lastYear })
  // 80 % of 5,250 in 2025, nothing in 2024.
  expect(years[0]!.netOperatingLoss).toBeCloseTo(40_000 - 4200, 2)
  expect(years[0]!.lossRefund).toBeCloseTo(525 - 105, 2)
})

test('losses that earlier returns left lower the tax of the plan’s first years', () => {
  const carried = { netOperatingLoss: 6000, longTermLoss: 9000, qualifiedBusiness: 1000, section179: 2000 }
  const [first, second] = farm({ carried }, { startMonth: '2027-01' }).years
  // 28,000 less half of 3,956.27, less 3,000 of capital loss, less 16,600 are 6,421.86: 80 % of them go.
  expect(first!.netOperatingLoss).toBeCloseTo(6000 - 5137.49, 2)
  expect([first!.longTermLoss, second!.longTermLoss]).toEqual([6000, 3000])
  expect(first!.farmProfit).toBeCloseTo(28_000, 6)
  const plain = farm({}, { startMonth: '2027-01' }).years[0]!
  expect(plain.adjustedGrossIncome - first!.adjustedGrossIncome).toBeGreaterThan(9900)
})
