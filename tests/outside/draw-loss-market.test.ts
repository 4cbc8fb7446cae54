// What a farm bears, a death, a farming loss and a market dropped, each against a published factor, worked example or form: the source
// stands beside each.
import { expect, test, vi } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { solveDraw } from '#solve/draw.ts'
import { solveDropMarket } from '#solve/drop-market.ts'
import { solveInsurance } from '#solve/insurance.ts'
import { solveWays } from '#solve/ways.ts'
import { quiet } from '../chance/plans.ts'
import { asking } from '../solve/asking.ts'

vi.setConfig({ testTimeout: 240_000 })

const still = { chance: { ...quiet, centre: 'plan' }, tax: { method: 'none' } } as const
const noSales = { id: 'rest', name: 'At rest', salesPerUnit: Array(12).fill(0), seasonSpread: 0 }

test('draw: a level that rises with prices out of a lump, by the published factor of a uniform series', async () => {
  // Uniform series, compound amount (F/A): 12.5779 for ten periods at 5 %, 11.0266 for nine (tables of every textbook of engineering
  // economy; from memory, (1.05¹⁰ − 1) ÷ 0.05). Cash in the farm earns nothing and each year's twelve draws are 5 % more than the last
  // year's: ten years of 1,000 a month at first take 12 × 1,000 × 12.5779 = 150,934.80.
  const plan = planSchema.parse({
    startMonth: '2027-01',
    years: 10,
    household: { floor: { kind: 'dollars', dollars: 0 } },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 1_000 }] },
    farm: { cash: 150_934.8, reserve: 0, enterprises: [noSales] },
    draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 800 }], withPrices: true },
    assumptions: { inflation: 0.05, farmPriceGrowth: 0, farmCostGrowth: 0 },
    ...still,
  } satisfies PlanInput)
  const { answer, starts, untilMonth } = await solveDraw(asking(plan, 20))
  if (answer.kind !== 'reached') throw new Error(answer.because)
  expect(untilMonth).toBe(120)
  expect(answer.fromMonth).toBe(0)
  expect(answer.level.value).toBeGreaterThan(999)
  expect(answer.level.value).toBeLessThan(1_001)
  // Begun a year later, told in first prices: 150,934.80 ÷ (12 × 1.05 × 11.0266).
  const later = starts.find(({ fromMonth }) => fromMonth === 12)!
  expect(later.level.value).toBeCloseTo(150_934.8 / (12 * 1.05 * 11.0266), -1)
})

test('a death: what replaces ten yearly payments at five percent, by the published factor', async () => {
  // Present value of an ordinary annuity of 1: 7.7217 for ten periods at 5 % (tables of every textbook of finance; from memory,
  // (1 − 1.05⁻¹⁰) ÷ 0.05). Ada's pay of 100,000 each January is what the same January's costs take, from January 2028 to 2037. If she
  // dies in January 2027, the sum that comes then and earns 5 % must pay all ten.
  const plan = planSchema.parse({
    startMonth: '2026-12',
    household: {
      people: [
        { id: 'ada', name: 'Ada', born: '1980-01-01', sex: 'female', planToAge: 58 },
        { id: 'bo', name: 'Bo', born: '1980-01-01', sex: 'male', planToAge: 58 },
      ],
      pay: Array.from({ length: 10 }, (_, k) => ({
        id: `pay-${k}`,
        name: 'Pay',
        person: 'ada',
        perMonth: 100_000,
        from: `${2028 + k}-01`,
        to: `${2028 + k}-01`,
      })),
      oneOffs: Array.from({ length: 10 }, (_, k) => ({
        id: `cost-${k}`,
        name: 'Cost',
        month: `${2028 + k}-01`,
        cost: 100_000,
      })),
      survivorShare: 1,
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 0, mix: { bills: 1 } }] },
    assumptions: { inflation: 0, bills: 0.05, timing: 'start', wageGrowth: 0 },
    ...still,
  } satisfies PlanInput)
  const { needs } = await solveInsurance(asking(plan, 20))
  const need = needs.find(({ person, event, month }) => person === 'ada' && event === 'dies' && month === 1)!
  // Found to within 2,500, from above.
  expect(need.neverShort!.value).toBeGreaterThan(772_170 - 10)
  expect(need.neverShort!.value).toBeLessThan(772_170 + 2_500)
  expect(needs.find(({ person, event }) => person === 'bo' && event === 'dies')!.neverShort!.value).toBe(0)
})

test('losses: the worked example of a loss year, carried back two years', async () => {
  // IRS Pub. 536 and the instructions of Form 1045, the single filer of the filled-in Schedule A (from memory): wages 1,225, interest 425,
  // gain on business property 2,000, business gross 67,000 less expenses 72,000, short-term loss on stock 1,000. The standard deduction
  // and the loss on stock make no operating loss: 5,000 − 2,000 − 1,225 = 1,775. A farming loss goes back two years, earliest first
  // (26 USC 172(b)(1)(B)): there a single return of 2024 taxed 12 % between 11,600 and 47,150 (Rev. Proc. 2023-34), so 213 comes back.
  const plan = planSchema.parse({
    startMonth: '2026-12',
    household: {
      people: [{ id: 'una', name: 'Una', born: '1986-02-01', sex: 'female', planToAge: 50 }],
      living: [{ id: 'all', name: 'Living', perMonth: 100 }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 40_000 }] },
    farm: { enterprises: [noSales] },
    tax: {
      soFar: {
        farmProfit: -5_000,
        farmGross: 67_000,
        wages: 1_225,
        otherIncome: 425,
        propertyGain: 2_000,
      },
      carried: { shortTermLoss: 1_000 },
      lastYear: { taxableIncome: 0, incomeTwoYearsBack: 35_000, taxableIncomeTwoYearsBack: 20_400 },
    },
    chance: { ...quiet, centre: 'plan' },
    assumptions: { inflation: 0 },
  } satisfies PlanInput)
  const ask = asking(plan, 20)
  expect(ask.project(plan).years[0]!.netOperatingLoss).toBeCloseTo(1_775, 2)
  const found = await solveWays('losses', ask)
  const back = found.ways.find(({ id }) => id === 'losses-back')!
  expect(back.leftMore).toBeCloseTo(1_775 * 0.12, 2)
  expect(found.answer).toMatchObject({ kind: 'reached', best: 'losses-back' })
})

test('which market to drop: the four boxes of a partial budget', async () => {
  // The partial budget of the farm management handbooks (Kay, Edwards and Duffy, Farm Management; Iowa State University Extension C1-50;
  // both from memory): net change = (added returns + reduced costs) − (added costs + reduced returns). Bread of 30,000 a year, 18,000 of it
  // at the quay in 50 trips of three hours that are hired by the day at 20 an hour. A third of its customers would come to the green.
  //   reduced returns  18,000 sold at the quay
  //   added returns     6,000 by those who follow to the green
  //   reduced costs     2,600 of fees, 50 × 52
  //                     3,000 of hired hours, 50 × 3 × 20
  //   added costs           0: the green's fees are by the trip, and it is gone to anyhow
  // Net: (6,000 + 5,600) − 18,000 = −6,400, for 150 hours.
  const { answer, markets } = await solveDropMarket(asking(bakery(), 20))
  const quay = markets.find(({ id }) => id === 'quay')!
  expect(answer.kind).toBe('reached')
  expect(quay.hours).toBeCloseTo(150, 6)
  expect(quay.lost).toBeCloseTo(18_000 - (6_000 + 2_600 + 3_000), 6)
  expect(quay.lostIfNone).toBeCloseTo(18_000 - (2_600 + 3_000), 6)
  expect(quay.lostIfHalf).toBeCloseTo(18_000 - (9_000 + 2_600 + 3_000), 6)
})

const bakery = () =>
  planSchema.parse({
    startMonth: '2026-01',
    years: 3,
    household: { floor: { kind: 'dollars', dollars: 0 } },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 50_000 }] },
    farm: {
      hired: { hourlyCost: 20, weeklyHours: 40, paid: 'only when needed' },
      enterprises: [
        {
          id: 'bread',
          name: 'Bread',
          salesPerUnit: Array(12).fill(2_500),
          seasonSpread: 0,
          markets: ['green', 'quay'],
        },
      ],
      markets: [
        { id: 'green', name: 'The green', trips: 4, salesPerTrip: 250, hoursPerTrip: 4, followShare: 0 },
        {
          id: 'quay',
          name: 'The quay',
          trips: 50 / 12,
          salesPerTrip: 360,
          hoursPerTrip: 3,
          hoursBy: { hired: 1 },
          feePerTrip: 52,
          followShare: 1 / 3,
        },
      ],
    },
    draw: { policy: 'sweep', from: '2026-01' },
    assumptions: { inflation: 0 },
    ...still,
  } satisfies PlanInput)
