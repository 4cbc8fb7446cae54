// Ways of doing one thing, when to slow down, and what a death or an injury would cost: worked by hand where the world does not stray.
import { expect, test, vi } from 'vitest'
import { chanceOfDying, monthsOfLifeAt } from '#chance/draws/life-draws.ts'
import { lifeTable2023 } from '#chance/draws/life-table.ts'
import type { PlanInput } from '#plan/plan.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { solveInsurance } from '#solve/insurance.ts'
import { askQuestion, sayMoves, type Told } from '#solve/questions.ts'
import { solveSlowDown } from '#solve/slow-down.ts'
import { takesOf } from '#solve/take.ts'
import { laterYears } from '#solve/ways/conversions.ts'
import { changeOf, solveWays } from '#solve/ways.ts'
import { farmPlan, quiet, savingsPlan } from '../chance/plans.ts'
import { asking } from './asking.ts'
import { saidOf } from './said-of.ts'

vi.setConfig({ testTimeout: 180_000 })

const still = { chance: quiet, tax: { method: 'none' }, assumptions: { inflation: 0 } } as const

/** Both born on the first of 1980 and planned to 50: 49 months from January 2026. Ada brings 3,000 a month, 2,000 are lived on. */
const couple = (rest: Partial<PlanInput> = {}) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        { id: 'ada', name: 'Ada', born: '1980-01-01', sex: 'female', planToAge: 50 },
        { id: 'bo', name: 'Bo', born: '1980-01-01', sex: 'male', planToAge: 50 },
      ],
      pay: [{ id: 'job', name: 'Job', person: 'ada', perMonth: 3_000 }],
      living: [{ id: 'all', name: 'Living', perMonth: 2_000 }],
      survivorShare: 1,
      floor: { kind: 'dollars', dollars: 5_000 },
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 50_000 }] },
    ...still,
    ...rest,
  })

test('insurance pays what is missing after a death, and each month after an injury', async () => {
  const found = await solveInsurance(asking(couple(), 50))
  const of = (person: string, event: string) =>
    found.needs.find((need) => need.person === person && need.event === event && need.month === 12)!
  // 62,000 by January 2027, 37 months of 2,000 from then on: 12,000 are missing, 17,000 with the floor.
  const dies = of('ada', 'dies')
  expect(dies.neverShort!.value).toBeGreaterThanOrEqual(12_000)
  expect(dies.neverShort!.value).toBeLessThanOrEqual(14_500)
  expect(dies.aboveFloor!.value).toBeGreaterThanOrEqual(17_000)
  expect(dies.aboveFloor!.value).toBeLessThanOrEqual(19_500)
  // After an injury the same by the month: 2,000 − 62,000 ÷ 37 = 324.
  const hurt = of('ada', 'hurt')
  expect(hurt.neverShort!.value).toBeGreaterThanOrEqual(324)
  expect(hurt.neverShort!.value).toBeLessThanOrEqual(350)
  expect(of('bo', 'dies').neverShort!.value).toBe(0)
  expect(saidOf(found)).toContain('If Bo died in any of the years tried, no insurance would be needed.')
})

test('the chance of dying is that of the table', () => {
  // Within a year at the exact age of 46: the table's own figure; over two years what is left of those who are.
  const { male } = lifeTable2023
  expect(chanceOfDying(46 * 12, 12, 'male')).toBeCloseTo(male[46]!, 12)
  expect(chanceOfDying(46 * 12, 24, 'male')).toBeCloseTo(1 - (1 - male[46]!) * (1 - male[47]!), 12)
  // As drawn: who dies last of that share has lived so long.
  expect(monthsOfLifeAt(chanceOfDying(46 * 12, 120, 'male'), 46 * 12, 'male')).toBe(120)
})

/** 2,000 a month from bees until the phase, then half; 2,000 to live on; 120 months. */
const bees = (from: string, savings: number) =>
  planSchema.parse({
    startMonth: '2026-01',
    years: 10,
    household: {
      living: [{ id: 'all', name: 'Living', perMonth: 2_000 }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: savings }] },
    farm: {
      enterprises: [{ id: 'bees', name: 'Bees', salesPerUnit: Array(12).fill(2_000), seasonSpread: 0 }],
      phases: [{ from, name: 'Half the hives', scales: [{ enterprise: 'bees', value: 0.5 }] }],
    },
    draw: { policy: 'sweep', from: '2026-01' },
    ...still,
  })

test('slowing down begins in the earliest January that savings carry', async () => {
  // Each slower month costs 1,000: 50,000 carry 50 of them, so from month 70 on; the Januaries there are 60 and 72.
  const plan = bees('2034-01', 50_000)
  const found = await solveSlowDown(asking(plan, 50))
  expect(found.answer).toMatchObject({ kind: 'reached', fromMonth: 72, months: -24 })
  // The Januaries beside it were tried on the same draws: the one before does not hold.
  expect(found.tried.find((one) => one.fromMonth === 60)!.held.share).toBe(0)
  expect(saidOf(found)).toContain('and not a year before')
  // 120,000 carry more than the ten years: the first January after the plan begins is the earliest that is tried.
  const rich = await solveSlowDown(asking(bees('2034-01', 120_000), 50))
  expect(rich.answer).toMatchObject({ kind: 'reached', fromMonth: 12 })
  expect(saidOf(rich)).toContain('From January 2027 on the hours of the slower phases hold in')
  expect(saidOf(rich)).toContain('of simulations, and no earlier month was tried: ')
  const [take] = takesOf(found)
  expect(take!.change(plan)!.farm.phases[0]!.from).toBe('2032-01')
  // Planned too soon: 30 months is all that 30,000 carry, from month 90 on, the second January after 2032-01.
  const late = await solveSlowDown(asking(bees('2032-01', 30_000), 50))
  expect(late.answer).toMatchObject({ kind: 'reached', fromMonth: 96, months: 24 })
})

/** One of 62 to 66 without income who lives on 1,500 a month from these accounts. */
const unaWith = (accounts: NonNullable<PlanInput['savings']>['accounts']) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        {
          id: 'una',
          name: 'Una',
          born: '1963-12-01',
          sex: 'female',
          planToAge: 66,
          claimAge: { years: 70, months: 0 },
        },
      ],
      living: [{ id: 'all', name: 'Living', perMonth: 1_500 }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: { accounts },
    chance: quiet,
    assumptions: { inflation: 0 },
  })

test('an order of accounts that uses the deduction of poor years beats one that keeps what is not yet taxed', async () => {
  // One of 62 without other income: 1,500 a month for five years, 100,000 taxed already and 100,000 not. 18,000 a year out of the
  // traditional account is 1,900 above the deduction of 2026 (16,100): some 190 of tax a year. What is left there counts 88 %.
  const plan = unaWith([
    { id: 'jar', name: 'Checking', kind: 'cash', balance: 0 },
    { id: 'fund', name: 'Fund', kind: 'taxable', balance: 100_000, basis: 100_000 },
    { id: 'old', name: 'Old plan', kind: 'traditional', owner: 'una', balance: 100_000 },
  ])
  const found = await solveWays('account-order', asking(plan, 50))
  if (found.answer.kind !== 'reached') throw new Error(found.sentence)
  const [own, ...others] = found.ways
  const best = others.find((way) => way.id === 'traditional-first')!
  expect(own!.tax).toBe(0)
  expect(best.tax).toBeGreaterThan(3 * 150)
  expect(best.tax).toBeLessThan(5 * 250)
  // To December 2029, when 66 are reached: 72,000 and 3,900 of Medicare premiums from 65 on come out of the old plan in place of the
  // fund, 12 % of them saved. 190 and 159 of tax come out of it too, at 88 cents; 267 of the last year are owed: 8,534.
  expect(best.leftMore).toBeGreaterThan(8_484)
  expect(best.leftMore).toBeLessThan(8_584)
  // What the deduction leaves of a year goes into a Roth account besides: the best of those tried does both.
  expect(found.answer.best).toBe('traditional-first+convert-bracket-0')
  expect(
    found.ways.find((way) => way.id === 'traditional-first+convert-bracket-0')!.leftMore,
  ).toBeGreaterThan(best.leftMore)
  const taken = takesOf(found)[0]!.change(plan)!.savings
  expect(taken.conversions.map(({ upTo, rate }) => [upTo, rate])).toEqual([['bracket', 0]])
  expect(taken.spendOrder).toEqual(['cash', 'traditional', 'taxable', 'roth'])
})

test('conversions in years without income save the rate of later years, and the rate is the household’s to say', async () => {
  // Una lives on cash from 62 to 66 and has 200,000 untaxed. Each year the deduction (16,100; from 65 on 2,050 more, in 2028 6,000 more,
  // 26 USC 63, 151(d)(5)(C)) and the band of 10 % (12,400) stand empty: 11 % of the one and 1 % of the other are saved, at 11 % later.
  // 4 × 1,895 + 886 + 226 = 8,692; bands of 2027 on follow prices that do not rise.
  const plan = unaWith([
    { id: 'jar', name: 'Checking', kind: 'cash', balance: 150_000 },
    { id: 'old', name: 'Old plan', kind: 'traditional', owner: 'una', balance: 200_000 },
  ])
  const found = await solveWays('account-order', asking(plan, 50, { laterRate: 0.11 }))
  expect(found.answer).toMatchObject({ kind: 'reached', best: 'convert-bracket-10' })
  expect(found.why).toContain('counts less 11%')
  const best = found.ways.find((way) => way.id === 'convert-bracket-10')!
  expect(best.leftMore).toBeGreaterThan(8_450)
  expect(best.leftMore).toBeLessThan(8_950)
  expect(found.years.find(({ year }) => year === 2026)!.other).toMatchObject({
    converted: 28_500,
    tax: 1_240,
  })
  // Year by year what is ahead is that saving: 11 % of 28,500 less its tax of 1,240 by the end of 2026, all of it at the end, in every
  // simulation, since nothing strays.
  const [first] = found.years
  expect(first!.more).toMatchObject({ ahead: { share: 1, of: 50 } })
  expect(first!.more!.middle).toBeCloseTo(0.11 * 28_500 - 1_240, 0)
  expect(first!.more!.low).toBeCloseTo(first!.more!.high, 4)
  expect(found.years.at(-1)!.more!.middle).toBeCloseTo(best.leftMore, 4)
  // A Roth account is opened for her, and the plan that takes it in is a plan.
  const taken = planSchema.parse(takesOf(found)[0]!.change(plan))
  expect(taken.savings.accounts.at(-1)).toMatchObject({ kind: 'roth', owner: 'una', balance: 0 })
  // Left untaxed for good, nothing is gained by paying now: the best is what costs nothing.
  const free = await solveWays('account-order', asking(plan, 50, { laterRate: 0 }))
  expect(free.answer).toMatchObject({ kind: 'reached', best: 'plan' })
  expect(free.why).toContain('counts less 0%')
}, 240_000)

test('what becomes of losses is tried both ways with every speed of writing off, and the plan itself never loses to a worse way', async () => {
  const found = await solveWays('losses', asking(farmPlan(), 30))
  expect(found.ways[0]!.id).toBe('plan')
  expect(found.ways.map((way) => way.id)).toContain('losses-back')
  if (found.answer.kind !== 'reached') throw new Error(found.sentence)
  const { best } = found.answer
  expect(found.ways.find((way) => way.id === best)!.worse).toBe(false)
})

test('an answer comes first from few simulations, then whole, then with what moves it', async () => {
  const plan = savingsPlan({ savings: 400_000, perMonth: 2_500, years: 25 })
  const heard: Told[] = []
  const whole = await askQuestion('start-with', asking(plan, 300), (told) => heard.push(told))
  expect(heard.map((told) => told.answer.paths)).toEqual([60, 300])
  expect(whole.answer).toEqual(heard[1]!.answer)
  // More to live on takes more savings, by a tenth: everything here is that cost.
  const living = whole.moves!.moves.find((one) => one.assumption === 'Living costs')!
  expect(living.more / whole.moves!.own).toBeCloseTo(1.1, 1)
  expect(living.less / whole.moves!.own).toBeCloseTo(0.9, 1)
  // Of markets, prices and costs the widest apart stands first, and is told.
  const { own, moves } = whole.moves!
  const apart = moves.map(({ less, more }) => Math.max(Math.abs(more - own), Math.abs(less - own)))
  expect([...apart].sort((one, two) => two - one)).toEqual(apart)
  expect(sayMoves(whole.moves)).toMatch(
    /^It turns most on .* less (lowers|raises) savings needed today by \$[\d,]+; .* more (lowers|raises) it by \$[\d,]+\.$/,
  )
})

/** The same Una, not taxed, from 45 to an age, who leaves what is for later alone until 59½. */
const youngUna = (planToAge: number, old: number): Plan => {
  const plan = unaWith([
    { id: 'jar', name: 'Checking', kind: 'cash', balance: 30_000 },
    { id: 'old', name: 'Old plan', kind: 'traditional', owner: 'una', balance: old },
  ])
  const [person] = plan.household.people
  return planSchema.parse({
    ...plan,
    household: { ...plan.household, people: [{ ...person, born: '1980-12-01', planToAge }] },
    savings: { ...plan.savings, spendRetirementBeforeAge: false },
    assumptions: { ...plan.assumptions, stocks: 0, bonds: 0, bills: 0, premiumGrowth: 0 },
    tax: { ...plan.tax, method: 'none' },
  })
}

test('where nothing goes unpaid only with retirement money used earlier, that is the answer', async () => {
  // 1,500 a month from January 2026 on: 30,000 end after 20 months, and what follows would go unpaid until 2040. With 200,000 more it lasts
  // 153 months; she is 55 in December 2035, the 120th.
  const found = await solveWays('account-order', asking(youngUna(55, 200_000), 50))
  expect(found.answer).toMatchObject({ kind: 'reached', best: 'before-59' })
  const best = found.ways.find(({ id }) => id === 'before-59')!
  expect([found.ways[0]!.held.share, best.held.share]).toEqual([0, 1])
  expect(best.unpaid).toBe(0)
  expect(found.ways[0]!.unpaid).toBeCloseTo(1_500 * 100, 2)
  const taken = planSchema.parse(takesOf(found)[0]!.change(youngUna(55, 200_000)))
  expect(taken.savings.spendRetirementBeforeAge).toBe(true)
  expect(found.why).toMatch(/^The plan counts no tax/)
  // With 60,000 it lasts no more than 60 months: all go short whatever is done, 40 months later with it.
  const short = await solveWays('account-order', asking(youngUna(55, 60_000), 50))
  expect(short.answer).toMatchObject({ best: 'before-59' })
  const [own, sooner] = ['plan', 'before-59'].map((id) => short.ways.find((way) => way.id === id)!)
  expect(own!.unpaid - sooner!.unpaid).toBeCloseTo(60_000, 2)
  expect(saidOf(short)).toContain('goes unpaid in the middle simulation instead of')
})

test('where no tax is paid nothing of the order matters, and the answer says so', async () => {
  const plan = youngUna(55, 500_000)
  plan.savings.spendRetirementBeforeAge = true
  const found = await solveWays('account-order', asking(plan, 50))
  expect(found.answer).toMatchObject({ kind: 'reached', best: 'plan' })
  expect(found.laterRate).toBe(0)
  // Bound to even payments the old plan pays nothing beyond them: the two ways with them are worse.
  expect(saidOf(found)).toMatch(
    /^Nothing of this matters here, because no tax is paid: 9 of the 11 other ways tried pay and leave the same as today’s plan, and none does better\./,
  )
})

test('a conversion may begin later, and two ways are found again by their short names', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'una', name: 'Una', born: '1976-12-01', sex: 'female', planToAge: 66 }],
      living: [{ id: 'all', name: 'Living', perMonth: 1_500 }],
    },
    savings: {
      accounts: [
        { id: 'jar', name: 'Checking', kind: 'cash', balance: 150_000 },
        { id: 'fund', name: 'Fund', kind: 'taxable', balance: 20_000 },
        { id: 'old', name: 'Old plan', kind: 'traditional', owner: 'una', balance: 200_000 },
      ],
    },
    farm: { phases: [{ from: '2031-01' }] },
  })
  // The first slower year, and the year in which she turns 60.
  expect(laterYears(plan)).toEqual([2031, 2036])
  const changed = changeOf('account-order', 'traditional-first+convert-bracket-12-from-2031')(plan)!
  expect(changed.savings.conversions).toMatchObject([{ upTo: 'bracket', rate: 0.12, fromYear: 2031 }])
  expect(changed.savings.spendOrder).toEqual(['cash', 'traditional', 'taxable', 'roth'])
  expect(planSchema.parse(changed)).toEqual(changed)
})

test('a way that this plan does not have is none, be it one part of two', () => {
  const plan = unaWith([
    { id: 'jar', name: 'Checking', kind: 'cash', balance: 50_000 },
    { id: 'old', name: 'Old plan', kind: 'traditional', owner: 'una', balance: 100_000 },
  ])
  for (const id of [
    '',
    'plan',
    'no-such',
    'traditional-first+no-such',
    'convert-bracket-12-from-soon',
    'losses-back',
  ])
    expect(changeOf('account-order', id)(plan), id).toBeNull()
  for (const id of ['no-such', 'bonus-sideways', 'convert-bracket-12', 'traditional-first'])
    expect(changeOf('losses', id)(plan), id).toBeNull()
  // Without anything to convert or to pay evenly there is no such way; an order that is the plan’s own changes nothing, and is one.
  const poor = unaWith([{ id: 'jar', name: 'Checking', kind: 'cash', balance: 50_000 }])
  for (const id of ['convert-bracket-12', 'taxable-first+convert-bracket-12', 'even-payments'])
    expect(changeOf('account-order', id)(poor), id).toBeNull()
  const first = changeOf('account-order', 'taxable-first')(plan)!
  expect(changeOf('account-order', 'taxable-first')(first)).toEqual(first)
  expect(changeOf('losses', 'slow-forward')(plan)!.tax.farmLosses).toBe('forward')
})

test('where hardly one simulation is on the other side of the floor, what moves the answer is told of what is left at the end', async () => {
  // One of 45 lives on 1,500 a month of 500,000: never near the floor of nothing, so that no assumption moves how often it is kept.
  const rich = youngUna(55, 400_000)
  rich.savings.accounts[0]!.balance = 500_000
  const { moves } = await askQuestion('account-order', asking(rich, 30))
  expect(moves).toMatchObject({
    of: 'savings left at the end in the middle simulation',
    unit: 'dollars',
    taken: true,
  })
  // A tenth of it is 150, in each of the 120 months until she is 55 in December 2035; savings earn nothing.
  const living = moves!.moves.find(({ assumption }) => assumption === 'Living costs')!
  expect(moves!.own - living.more).toBeCloseTo(150 * 120, 2)
  expect(living.less - moves!.own).toBeCloseTo(150 * 120, 2)
  expect(sayMoves(moves)).toMatch(
    /^With the answer taken, it turns most on .* less (lowers|raises) savings left at the end in the middle simulation by \$[\d,]+; /,
  )
})
