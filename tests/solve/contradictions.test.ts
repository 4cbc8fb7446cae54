// No answer contradicts the plan’s own simulations on the same draws. Random plans: four here; `npm run fuzz -- questions` asks 100
// and the sample, `QUESTION_PATHS=40` makes more simulations of each. What brute force finds instead is held by `brute-force.test.ts`.
import { describe, expect, test, vi } from 'vitest'
import { startingSavings } from '#chance/dials.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { solveClaim } from '#solve/claim.ts'
import { solveCushion } from '#solve/cushion.ts'
import { solveDraw } from '#solve/draw.ts'
import { solveDropMarket } from '#solve/drop-market.ts'
import { solveFrontier, withPlowedBack } from '#solve/frontier.ts'
import { solveInsurance } from '#solve/insurance.ts'
import { type Amount, shownAt } from '#solve/question.ts'
import { solveSlowDown } from '#solve/slow-down.ts'
import { runOf, surerBy } from '#solve/standing.ts'
import { solveStartWith } from '#solve/start-with.ts'
import { takesOf } from '#solve/take.ts'
import { solveWays } from '#solve/ways.ts'
import {
  type Asked,
  askedPlans,
  asTaken,
  Reached,
  seed,
  seesSlowerYear,
  shareGood,
  shareHolding,
} from './asked-plans.ts'
import { saidOf } from './said-of.ts'

vi.setConfig({ testTimeout: 3_600_000 })

const paths = Number(process.env.QUESTION_PATHS ?? '16')
/** Eighty combinations of claim ages, or a dozen events with a search each: what holds of few holds of all. */
const fewPaths = Math.min(10, Math.ceil(paths / 4))
const plans = askedPlans(7, paths)
const reached = new Reached()

const standsOf = async ({ about }: Asked, plan: Plan) => (await runOf({ ...about, plan }, plan, {})).standing
const ownOf = async (asked: Asked) => (await asked.own()).standing

/** Holds with it and not with less, and says of the plan what its own simulations say. */
async function neededToday(asked: Asked): Promise<void> {
  const found = await solveStartWith(asked.about)
  const have = startingSavings(asked.compiled)
  const own = await ownOf(asked)
  for (const [amount, kind] of [
    [found.answer, 'held'],
    [found.aboveFloor, 'aboveFloor'],
  ] as const) {
    if (amount.kind !== 'reached') continue
    reached.add(`needed today ${kind}`)
    expect(await shareHolding(asked, { kind: 'savings' }, kind, amount.value)).toBeGreaterThanOrEqual(0.9)
    // A cliff of cover can spare a little less what a little more loses: then both sides of it hold, and only the answer is held to.
    const holds = own[kind].share >= 0.9
    const contradicts = have >= amount.value ? !holds : have > 0 && have < amount.value - 500 && holds
    if (contradicts) expect(await isSteady(asked, kind, amount), `${kind} ${own[kind].share}`).toBe(false)
  }
}

/** More savings never hold less often between half of the answer and twice it. */
async function isSteady(asked: Asked, kind: 'held' | 'aboveFloor', { value }: Amount): Promise<boolean> {
  const shares: number[] = []
  for (const part of [0.5, 0.75, 0.9, 0.99, 1, 1.01, 1.1, 1.5, 2])
    shares.push(await shareHolding(asked, { kind: 'savings' }, kind, value * part))
  return shares.every((share, k) => k === 0 || share >= shares[k - 1]!)
}

/** What the plan does is never out of reach, and nothing best is worse than it. */
async function plowBack(asked: Asked): Promise<void> {
  const found = await solveFrontier(asked.about)
  const own = await ownOf(asked)
  expect(found.today.held.share).toBeCloseTo(own.held.share, 12)
  expect(found.today.carries.share).toBeCloseTo(own.carries.share, 12)
  if (!asked.compiled.farm.described) {
    reached.add('plow back without a farm')
    expect(saidOf(found)).toMatch(/the plan does not describe the farm yet/)
    return
  }
  const doesIt = Number.isFinite(found.today.carryMonth.value) && found.today.lowestSavings.value > 0
  if (found.answer.kind !== 'reached') {
    reached.add('plow back out of reach')
    expect(doesIt).toBe(false)
    return
  }
  reached.add('plow back')
  const { best } = found.answer
  if (doesIt) {
    expect(best.worse).toBe(false)
    expect(best.carryMonth.value).toBeLessThanOrEqual(found.today.carryMonth.value)
  }
  if (best.plowedBack !== null) {
    reached.add('plow back a share')
    const taken = await standsOf(asked, withPlowedBack(asked.plan, best.plowedBack))
    expect(taken.held.share).toBeCloseTo(best.held.share, 12)
    expect(taken.aboveFloor.share).toBeCloseTo(best.aboveFloor.share, 12)
  }
  if (best.worse) expect(saidOf(found)).toMatch(/^Not so sure as today’s plan/)
}

/** Each draw taken stands as told, as many courses bear the level as asked, and a worse one says so first. */
async function draw(asked: Asked): Promise<void> {
  const found = await solveDraw(asked.about, 2)
  if (found.answer.kind !== 'reached') return
  reached.add('draw')
  expect(found.compared[0]!.standing.held.share).toBeCloseTo((await ownOf(asked)).held.share, 12)
  for (const take of takesOf(found)) {
    const row = found.compared.find((one) => one.as === take.id)!
    const taken = await standsOf(asked, { ...asked.plan, draw: row.draw })
    expect(row.standing.held.share).toBeCloseTo(taken.held.share, 12)
    expect(row.standing.aboveFloor.share).toBeCloseTo(taken.aboveFloor.share, 12)
  }
  const worse = found.compared.filter((row) => row.worse)
  if (worse.length > 0) expect(found.more[0]).toMatch(/^Not so well as today’s plan/)
  if (worse.some(({ as }) => as === 'level') && found.answer.level.value > 0)
    expect(found.sentence).toMatch(/today’s plan does better/)
  const { fromMonth, level } = found.answer
  const taken = asTaken(asked, level, fromMonth)
  if (taken < 1) return
  reached.add('draw a level')
  const window = { fromMonth, toMonth: found.untilMonth }
  const bearing = await shareGood(asked, { kind: 'draw', ...window }, { kind: 'drawsMet', ...window }, taken)
  expect(bearing).toBeGreaterThanOrEqual(0.9)
}

/** Brought to it, as many of the courses that see the slower year last from then on as asked; so with what can be spent and the floor. */
async function cushion(asked: Asked): Promise<void> {
  const found = await solveCushion(asked.about)
  if (found.answer.kind !== 'reached') return
  const { month, value, aboveFloor, medianThen } = found.answer
  const shown = shownAt(asked.about, month - 1)
  const counts = await seesSlowerYear(asked)
  const lasting = (kind: 'cushion' | 'spendable', sum: number) =>
    shareGood(
      asked,
      { kind, month },
      { kind: kind === 'cushion' ? 'held' : 'aboveFloor', fromMonth: month },
      sum / shown,
      { counts },
    )
  reached.add(value > 0 ? 'cushion' : 'cushion of nothing')
  expect(await lasting('cushion', value + 1)).toBeGreaterThanOrEqual(0.9)
  if (aboveFloor !== null) {
    reached.add('cushion for the floor')
    expect(await lasting('spendable', aboveFloor.value + 1)).toBeGreaterThanOrEqual(0.9)
  }
  expect(Number.isFinite(medianThen)).toBe(true)
}

/** Each stands as its plan does, and the best is never worse than today’s, nor behind one that leaves more as surely. */
async function ways(asked: Asked, question: 'account-order' | 'losses'): Promise<void> {
  const found = await solveWays(question, asked.about)
  if (found.answer.kind !== 'reached') return
  reached.add(question)
  const { best } = found.answer
  const chosen = found.ways.find((way) => way.id === best)!
  expect(chosen.worse).toBe(false)
  expect(found.ways[0]!.held.share).toBeCloseTo((await ownOf(asked)).held.share, 12)
  for (const take of takesOf(found)) {
    reached.add(`${question} taken`)
    const way = found.ways.find((one) => one.id === take.id)!
    const taken = await standsOf(asked, take.change(asked.plan)!)
    expect(way.held.share).toBeCloseTo(taken.held.share, 12)
    expect(way.aboveFloor.share).toBeCloseTo(taken.aboveFloor.share, 12)
  }
}

/** Each stands as its plan does, and none named leaves the plan worse. */
async function dropMarket({ plan: random, about: alone, followShare }: Asked): Promise<void> {
  const plan = withMarkets(random, followShare)
  const about = { ...alone, plan }
  const found = await solveDropMarket(about)
  if (found.answer.kind !== 'reached') return
  reached.add('drop market')
  const { market } = found.answer
  const stands = async (of: Plan) => (await runOf(about, of, {})).standing
  expect(found.today.held.share).toBeCloseTo((await stands(plan)).held.share, 12)
  const named = found.markets.find(({ id }) => id === market)
  if (named) expect(named.worse).toBe(false)
  else expect(saidOf(found)).toMatch(/^No market can be dropped/)
  for (const take of takesOf(found)) {
    reached.add('drop market taken')
    const row = found.markets.find(({ id }) => id === take.id)!
    const taken = await stands(take.change(plan)!)
    expect(row.held.share).toBeCloseTo(taken.held.share, 12)
    expect(row.aboveFloor.share).toBeCloseTo(taken.aboveFloor.share, 12)
  }
}

/** All that grows is sold at two markets, where the plan names none. */
const withMarkets = (plan: Plan, followShare: number): Plan =>
  plan.farm.markets.length > 0
    ? plan
    : planSchema.parse({
        ...plan,
        farm: {
          ...plan.farm,
          markets: [
            { id: 'near', name: 'Near', trips: 4, salesPerTrip: 400, hoursPerTrip: 6, followShare },
            {
              id: 'far',
              name: 'Far',
              trips: 2,
              salesPerTrip: 600,
              hoursPerTrip: 9,
              feePerTrip: 30,
              followShare,
            },
          ],
          enterprises: plan.farm.enterprises.map((one) => ({ ...one, markets: ['near', 'far'] })),
        },
      })

/** The January found holds and the one before it does not, and each stands as its plan does. */
async function slowDown({ plan: random, about: alone, weeklyHours }: Asked): Promise<void> {
  const crew = random.household.people.slice(0, 1).map(({ id }) => ({ who: id, weeklyHours: 40 }))
  const plan = planSchema.parse({ ...random, farm: { ...random.farm, crew } })
  const about = { ...alone, plan }
  const found = await solveSlowDown({ ...about, weeklyHours })
  if (found.answer.kind !== 'reached') return
  reached.add('slow down')
  const { months } = found.answer
  const [at, before] = [months, months - 12].map((by) => found.tried.find((one) => one.months === by))
  expect(at!.held.share).toBeGreaterThanOrEqual(0.9)
  if (before) {
    reached.add('slow down not a year before')
    expect(before.held.share).toBeLessThan(0.9)
  }
  const taken = takesOf(found).find(({ id }) => id === 'phases')
  if (taken === undefined) return
  reached.add('slow down taken')
  const { standing } = await runOf(about, taken.change(plan)!, {})
  expect(at!.held.share).toBeCloseTo(standing.held.share, 12)
}

/** The plan’s own row is the plan, the strongest ages hold no less often by more than chance, and taken they stand as told. */
async function claim(asked: Asked): Promise<void> {
  const about = { ...asked.about, paths: fewPaths }
  const found = await solveClaim(about)
  if (found.answer.kind !== 'reached') return
  reached.add('claim')
  const own = await runOf(about, asked.plan, {}, asked.compiled)
  const { planned, strongest } = found.answer
  expect(planned.held.share).toBeCloseTo(own.standing.held.share, 12)
  expect(planned.medianAtEnd).toBeCloseTo(own.standing.atEnd.median, 6)
  const [take] = takesOf(found)
  if (take === undefined) return
  reached.add('claim taken')
  const ran = await runOf(about, take.change(asked.plan)!, {})
  expect(strongest.held.share).toBeCloseTo(ran.standing.held.share, 12)
  expect(strongest.medianAtEnd).toBeCloseTo(ran.standing.atEnd.median, 6)
  expect(surerBy(ran.heldBy, own.heldBy).high).toBeGreaterThanOrEqual(0)
}

/** What would have to be paid is enough. */
async function insurance(asked: Asked): Promise<void> {
  const about = { ...asked.about, paths: fewPaths }
  const found = await solveInsurance(about)
  const [need] = found.needs.filter(({ neverShort }) => neverShort !== null && neverShort.value > 0)
  if (need === undefined) return
  reached.add('insurance')
  const { event, month } = need
  const person = asked.compiled.people.findIndex(({ id }) => id === need.person)
  const toMonth = asked.compiled.people[person]!.month65 + 24
  const what =
    event === 'dies'
      ? { kind: 'lump' as const, month }
      : { kind: 'setAside' as const, fromMonth: month, toMonth }
  const paid = (sum: number) =>
    shareGood(asked, what, { kind: 'held', fromMonth: month }, sum / shownAt(about, month), {
      strike: { person, month, event },
      paths: fewPaths,
    })
  expect(await paid(need.neverShort!.value + 1)).toBeGreaterThanOrEqual(0.9)
}

const checks: Readonly<Record<string, (asked: Asked) => Promise<void>>> = {
  'needed today': neededToday,
  'plow back or draw': plowBack,
  draw,
  cushion,
  'account order': (asked) => ways(asked, 'account-order'),
  losses: (asked) => ways(asked, 'losses'),
  'which market to drop': dropMarket,
  'slowing down': slowDown,
  claim,
  insurance,
}

for (const asked of plans)
  describe(asked.name, () => {
    for (const [question, check] of Object.entries(checks)) test(question, () => check(asked))
  })

/**
 * Of how many plans in a hundred at least, and of one: about half of what a dozen of them come to. A share to plow back is the answer in none
 * of them, since no random farm carries its household so surely: `coarse-to-fine.test.ts` and `answers-hold.test.ts` hold that side.
 */
const least: Readonly<Record<string, number>> = {
  'needed today held': 50,
  'needed today aboveFloor': 50,
  draw: 40,
  'draw a level': 30,
  cushion: 20,
  'cushion for the floor': 50,
  'account-order': 50,
  'account-order taken': 20,
  losses: 50,
  'losses taken': 20,
  'drop market': 50,
  'drop market taken': 50,
  // Plans in which no work has hours are told so in place of an answer.
  'slow down': 30,
  'slow down taken': 30,
  claim: 30,
  'claim taken': 20,
  insurance: 10,
}

test('every question came to its check often enough to hold something', () => {
  console.log(`${plans.length} plans of seed ${seed}: ${reached}`)
  for (const [what, share] of Object.entries(least))
    expect(reached.of(what), what).toBeGreaterThanOrEqual(
      Math.max(1, Math.floor((share * plans.length) / 100)),
    )
})
