// What was put into retirement and health savings by the books, in the year's worksheet: a year worked by hand, asked where two years fit.
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { savingMoves } from '#db/tax/saving-moves.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { filledForm } from './browser-form.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const planWith = (heldAs: 'ira' | 'sep' | 'workPlan') =>
  planSchema.parse({
    startMonth: '2025-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1982-04-01' }],
      living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Savings', kind: 'cash', balance: 60_000 },
        {
          id: 'old',
          name: 'Retirement, traditional',
          kind: 'traditional',
          owner: 'ann',
          balance: 0,
          heldAs,
        },
      ],
    },
  } satisfies PlanInput)

const post = (side: string, on: string, amounts: Record<string, number>, memo = '') =>
  postByName(app.books, side, on, amounts, { memo })
const putIn = (on: string, into: string, dollars: number, words = '') =>
  post('household', on, { [into]: dollars, Savings: -dollars }, words)

/**
 * 2025 of one person by hand: pay 14,400, farm profit 26,720.96. Schedule SE: 26,720.96 × 0.9235 = 24,676.81, tax 3,775.55, half of
 * it 1,887.78. Adjusted gross income 41,120.96 − 1,887.78 = 39,233.18.
 */
const income = 39_233.18
beforeEach(() => {
  app = testApp({ today: '2026-03-10' })
  app.openSides()
  post('household', '2024-12-31', { Savings: 60_000, 'Opening balances': -60_000 })
  post('farm', '2025-06-10', { 'Farm checking': 26_720.96, 'Vegetables and fruit sold': -26_720.96 })
  post('household', '2025-09-30', { 'Household checking': 14_400, 'Off-farm pay': -14_400 })
  app.savePlan(planWith('ira'))
})
afterEach(() => app.close())

interface Pack {
  tax: {
    worksheet: {
      figures: Record<string, number>
      inputs: { label: string; dollars: number }[]
      assumed: string[]
    }
  }
  gaps: { says: string; href: string }[]
}
const pack = async (year = 2025) => (await (await app.get(`/year-pack.json?year=${year}`)).json()) as Pack
const agi = async (year = 2025) => (await pack(year)).tax.worksheet.figures.adjustedGrossIncome

test('an IRA and health savings lower the year’s income, a Roth IRA does not; what an account earned is none', async () => {
  expect(await agi()).toBeCloseTo(income, 2)
  putIn('2025-08-01', 'Retirement, traditional', 2000)
  expect(await agi()).toBeCloseTo(income - 2000, 2)
  putIn('2025-08-02', 'Health savings', 1500)
  expect(await agi()).toBeCloseTo(income - 3500, 2)
  putIn('2025-08-03', 'Retirement, Roth', 1000)
  post('household', '2025-12-31', {
    'Retirement, traditional': 900,
    'Change in value of investments': -900,
  })
  post('household', '2025-12-31', { 'Retirement, Roth': 400, 'Retirement, traditional': -400 })
  // No contribution, but from the one kind into the other it is taxed (26 USC 408A(d)(3)(A)).
  expect(await agi()).toBeCloseTo(income - 3500 + 400, 2)
  const { inputs, assumed } = (await pack()).tax.worksheet
  expect(assumed.join(' ')).toContain('if that lasts to the end of the next December')
  const of = (word: string) => inputs.find(({ label }) => label.startsWith(word))!.dollars
  expect([of('Traditional IRAs'), of('Health savings'), of('Roth IRAs')]).toEqual([2000, 1500, 1000])
})

// A fifth of 26,720.96 less 1,887.78 (26 USC 404(a)(8); Pub. 560; from memory): 4,966.64.
test('a SEP of the plan’s account of that name: as far as the profit allows, and what is more is told', async () => {
  app.savePlan(planWith('sep'), { basedOn: 1 })
  putIn('2025-08-01', 'Retirement, traditional', 4000)
  expect(await agi()).toBeCloseTo(income - 4000, 2)
  putIn('2025-11-01', 'Retirement, traditional', 2000)
  expect(await agi()).toBeCloseTo(income - 4966.64, 2)
  const { assumed } = (await pack()).tax.worksheet
  expect(assumed.join(' ')).toContain('SEP: $6,000.00 is booked and $4,966.64 is the most for 2025')
})

// 26 USC 402(e)(3): of 1,000.00 earned 100.00 is no income. Whatever the plan calls the account, pay put it into a plan at work.
test.for(['workPlan', 'ira'] as const)(
  'a deferral from pay, into what the plan calls %s, is in no wages',
  async (heldAs) => {
    app.savePlan(planWith(heldAs), { basedOn: 1 })
    post('household', '2025-10-31', {
      'Household checking': 900,
      'Retirement, traditional': 100,
      'Off-farm pay': -1000,
    })
    expect(await agi()).toBeCloseTo(income + 900, 2)
  },
)

// 26 USC 219(f)(3), 408A(c)(7): up to the day of the return it may be for the year before.
test('what went in before the day of the return is asked for which year, and said on its page', async () => {
  putIn('2026-02-10', 'Retirement, traditional', 1200)
  expect(await agi()).toBeCloseTo(income, 2)
  const { gaps } = await pack()
  expect(gaps.map(({ says }) => says).join(' ')).toContain(
    '1 contribution to retirement or health savings may be for this year or another',
  )
  const path = '/year-pack/contributions?year=2025'
  expect(await (await app.get(path)).text()).toContain('For 2026 or 2025: both fit')
  const { postingId } = savingMoves(app.books)[0]!
  const said = await app.post(path, await filledForm(app, path, { [`s.m${postingId}.year`]: '2025' }))
  expect(said.status).toBe(303)
  expect(await agi()).toBeCloseTo(income - 1200, 2)
  expect((await pack()).gaps.map(({ says }) => says).join(' ')).not.toContain('contribution to retirement')
  // A word of the payment tells it as well, and a rollover is none.
  putIn('2026-02-11', 'Retirement, traditional', 300, 'prior year 2025')
  expect(await agi()).toBeCloseTo(income - 1500, 2)
  const second = savingMoves(app.books)[1]!.postingId
  await app.post(path, await filledForm(app, path, { [`s.m${second}.use`]: 'rollover' }))
  expect(await agi()).toBeCloseTo(income - 1200, 2)
})

test('a form that is no year is refused at its field with what was typed', async () => {
  putIn('2025-08-01', 'Retirement, traditional', 1200)
  const path = '/year-pack/contributions?year=2025'
  const { postingId } = savingMoves(app.books)[0]!
  const refused = await app.post(path, await filledForm(app, path, { [`s.m${postingId}.year`]: 'soon' }))
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain(`href="#f-s.m${postingId}.year"`)
})

test('the county’s published premiums stand in the worksheet where none are typed', async () => {
  const plan = planWith('ira')
  app.savePlan(
    {
      ...plan,
      household: { ...plan.household, place: { state: 'PA', county: 'Huntingdon County' } },
      health: { ...plan.health, marketplace: { ...plan.health.marketplace, members: [{ person: 'ann' }] } },
    },
    { basedOn: 1 },
  )
  for (let month = 1; month <= 12; month += 1)
    post('household', `2025-${String(month).padStart(2, '0')}-03`, {
      'Health premiums': 120,
      'Household checking': -120,
    })
  // Rating area 5 of 2025: 256 a month at the child’s factor of 0.765; hers at 43 is 1.357 times that of 21.
  const { assumed, figures } = (await pack()).tax.worksheet
  expect(assumed.join(' ')).toContain('published for its county')
  expect(figures.premiumTaxCredit).toBeGreaterThan(500)
})

describe('two people on one return', () => {
  const couple = (heldAs: 'ira' | 'sep') =>
    planSchema.parse({
      ...planWith(heldAs),
      household: {
        people: [
          { id: 'ann', name: 'Ann', born: '1982-04-01' },
          { id: 'ben', name: 'Ben', born: '1980-02-01' },
        ],
        living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
      },
      savings: {
        accounts: [
          { id: 'cash', name: 'Savings', kind: 'cash', balance: 60_000 },
          {
            id: 'old',
            name: 'Retirement, traditional',
            kind: 'traditional',
            owner: 'ben',
            balance: 0,
            heldAs,
          },
        ],
      },
    } satisfies PlanInput)

  // Ben's 30 percent of the farm: 8,016.29; Schedule SE 7,403.04, tax 1,132.67, half 566.34. A fifth of the rest: 1,489.99 (26 USC
  // 401(c)(2), 404(a)(8); IRS Pub. 560, rate worksheet; from memory). Ann's profit is hers.
  test('a SEP goes by its owner’s profit, and what is too much is an open point', async () => {
    app.savePlan(couple('sep'), { basedOn: 1 })
    const said = { basedOn: '0', ownership: 'joint', firstShare: '70', 'weather.0.what': '' }
    expect((await app.post('/year-pack/schedule-f?year=2025', said)).status).toBe(303)
    const before = (await agi())!
    putIn('2025-08-01', 'Retirement, traditional', 1400)
    expect(await agi()).toBeCloseTo(before - 1400, 2)
    putIn('2025-11-01', 'Retirement, traditional', 1600)
    expect(await agi()).toBeCloseTo(before - 1489.99, 2)
    const { tax, gaps } = await pack()
    const words = 'SEP of Ben: $3,000.00 is booked and $1,489.99 is the most for 2025'
    expect(tax.worksheet.assumed.join(' ')).toContain(words)
    expect(gaps.find(({ says }) => says.startsWith(words))?.href).toBe('/year-pack/contributions?year=2025')
  })

  // 34,400 of pay: income 59,233.18, a tenth of at most 2,000 of each person's (26 USC 25B(a), (b); Rev. Proc. 2024-40 and Notice
  // 2024-80 for the limits of 2025; all from memory).
  test('the saver’s credit counts no more than 2,000 of what one of them put in', async () => {
    app.savePlan(couple('ira'), { basedOn: 1 })
    post('household', '2025-10-30', { 'Household checking': 20_000, 'Off-farm pay': -20_000 })
    putIn('2025-08-03', 'Retirement, Roth', 3000)
    expect((await pack()).tax.worksheet.figures.saversCredit).toBe(200)
  })
})
