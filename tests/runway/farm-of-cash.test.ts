// A farm told by its cash, a loan and a purchase alone, and a venture that begins late: every headline figure worked by hand.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { whySentences } from '#runway/why.ts'

/**
 * April 2027, two rooms of living at 1,500 a month, prices up 4% each January, 40,000 saved. The farm sells nothing the plan
 * knows of: it has 20,000, a loan of 6,030 at 12% with two payments left, and buys a cart for 4,879.40 in August.
 */
const cashOnly = planSchema.parse({
  startMonth: '2027-04',
  years: 3,
  household: { living: [{ id: 'home', name: 'Home', perMonth: 1500 }] },
  savings: { accounts: [{ id: 'bank', name: 'Bank', kind: 'cash', balance: 40_000 }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0.04 },
  farm: {
    cash: 20_000,
    loans: [{ id: 'note', name: 'Note', principal: 6030, yearlyRate: 0.12, months: 2, start: '2027-03' }],
    purchases: [{ id: 'cart', name: 'Cart', cost: 4879.4, month: '2027-08' }],
  },
  draw: { policy: 'steps', steps: [{ from: '2027-04', perMonth: 1000 }] },
})

test('a farm of cash alone pays its loan, its purchase and the draws that are left, to the dollar', () => {
  const { months, milestones } = project(cashOnly)
  const at = (month: string) => months.find((one) => one.month === month)!
  // 6,030 × 0.01 ÷ (1 − 1.01⁻²) = 60.30 × 1.0201 ÷ 0.0201 = 3,060.30 in April and May.
  expect(months.slice(0, 3).map((one) => one.farmLoans)).toEqual([
    expect.closeTo(-3060.3, 6),
    expect.closeTo(-3060.3, 6),
    0,
  ])
  // 20,000 − 6,120.60 − 4,879.40 = 9,000 can be spared: nine draws, April to December.
  expect(months.map((one) => one.draw).slice(0, 10)).toEqual([
    ...Array.from({ length: 9 }, () => expect.closeTo(1000, 6)),
    expect.closeTo(0, 6),
  ])
  expect(at('2027-12').farmCash).toBeCloseTo(0, 6)
  expect(at('2027-12').spendable).toBeCloseTo(40_000 + 9 * (1000 - 1500), 6)
  expect(at('2027-12').coverRatio).toBeCloseTo(9000 / 13_500, 9)
  // The first January counts nine months of 4%: 1,500 × 1.04^0.75 = 1,544.78; the next 1,606.57.
  expect(at('2028-01').living).toBeCloseTo(1544.78, 2)
  expect(at('2028-03').coverRatio).toBeCloseTo(9000 / (13_500 + 3 * 1544.78), 5)
  expect(at('2028-12').spendable).toBeCloseTo(35_500 - 12 * 1544.78, 1)
  // The floor of 2029 is 6 × 1,606.57 = 9,639.42: 16,962.64 less four months is 10,536.36, less five 8,929.79.
  expect(at('2029-05').floor).toBeCloseTo(9639.42, 1)
  expect(milestones).toMatchObject({
    monthsLeft: 25,
    floorMonth: '2029-05',
    firstDraw: '2027-04',
    carryMonth: null,
    runsShort: '2029-11',
  })
  // Eleven months of 1,606.57 are 709.63 more than 16,962.64; then December, and three months of 1,670.83.
  expect(milestones.unmetNeed).toBeCloseTo(709.63 + 1606.57 + 3 * 1670.83, 0)
  // Three years are told as what they are: 36 draws planned, nine paid.
  expect(whySentences(cashOnly, project(cashOnly)).join(' ')).toContain(
    'The farm does not carry the household for good before the end of the plan: the plan names nothing that the farm sells, so $27,000 of the planned draws cannot be paid.',
  )
})

test('a venture that begins later brings what it says in its first month, and grows from there', () => {
  const { months, milestones } = project(
    planSchema.parse({
      startMonth: '2028-03',
      years: 4,
      household: {
        living: [{ id: 'home', name: 'Home', perMonth: 900 }],
        sideVentures: [
          {
            id: 'chairs',
            name: 'Chairs',
            perMonth: 600,
            costShare: 0.25,
            costPerMonth: 50,
            growth: 0.1,
            from: '2029-09',
          },
        ],
      },
      savings: { accounts: [{ id: 'bank', name: 'Bank', kind: 'cash', balance: 30_000 }] },
      tax: { method: 'none' },
      assumptions: { inflation: 0 },
    }),
  )
  const at = (month: string) => months.find((one) => one.month === month)!
  // 600 × 0.75 − 50 = 400; a year later 660 × 0.75 − 50 = 445.
  expect(at('2029-08').side).toBe(0)
  expect(at('2029-09').side).toBeCloseTo(400, 6)
  expect(at('2030-09').side).toBeCloseTo(445, 6)
  // 30,000 less 18 × 900, then twelve months of 450 × 1.1^(k/12) − 50 − 900: 450 × 0.1 ÷ 0.00797414 = 5,643.24.
  expect(at('2029-08').spendable).toBeCloseTo(13_800, 6)
  expect(at('2030-08').spendable).toBeCloseTo(13_800 + 5643.24 - 12 * 950, 1)
  // Above 5,400 after 17 months (13,800 + 8,158.1 − 16,150 = 5,808.1), below it after 18 (+ 8,673.1 − 17,100 = 5,373.1).
  expect(at('2031-01').spendable).toBeCloseTo(5808.1, 0)
  expect(milestones).toMatchObject({
    monthsLeft: 35,
    floorMonth: '2031-02',
    firstDraw: null,
    carryMonth: null,
  })
})
