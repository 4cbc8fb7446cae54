// What is tried on few simulations first must come to the answer that all simulations give: held against running everything on all.
import { expect, test, vi } from 'vitest'
import { solveFrontier, withPlowedBack } from '#solve/frontier.ts'
import { isWorse, runOf, surerBy } from '#solve/standing.ts'
import { changeOf, solveWays, usualLaterRate } from '#solve/ways.ts'
import { farmPlan } from '../chance/plans.ts'
import { asking } from './asking.ts'

vi.setConfig({ testTimeout: 300_000 })

const paths = 220
const pathsOfWays = 120

test('plow back or draw: the share found on few and then all is the best of all on all', async () => {
  const plan = farmPlan()
  const about = asking(plan, paths, { confidence: 0.6 })
  const found = await solveFrontier(about)
  expect(found.points.some((point) => point.paths < paths)).toBe(true)
  const own = await runOf(about, plan, {})
  const whole = await Promise.all(
    found.points.map(async ({ plowedBack }) => {
      const ran = await runOf(about, withPlowedBack(plan, plowedBack!), {})
      return { plowedBack, ran, worse: isWorse(ran, own) }
    }),
  )
  const all = [{ plowedBack: null, ran: own, worse: false }, ...whole]
  const carrying = all.filter(({ ran, worse }) => {
    const { carryMonth, lowestSavings } = ran.standing
    return !worse && Number.isFinite(carryMonth.value) && lowestSavings.value > 0
  })
  if (found.answer.kind !== 'reached') {
    expect(carrying).toEqual([])
    return
  }
  const { best } = found.answer
  // Within the margin that is stated with its month.
  const soonest = Math.min(...carrying.map(({ ran }) => ran.standing.carryMonth.value))
  expect(best.carryMonth.value).toBeGreaterThanOrEqual(soonest)
  expect(best.carryMonth.low).toBeLessThanOrEqual(soonest)
})

test('account order: no way left out on few leaves more on all without being worse', async () => {
  const plan = farmPlan()
  const about = asking(plan, pathsOfWays)
  const found = await solveWays('account-order', about)
  const fewer = found.ways.filter((way) => way.paths < pathsOfWays)
  expect(fewer.length).toBeGreaterThan(0)
  if (found.answer.kind !== 'reached') throw new Error(found.sentence)
  const { best } = found.answer
  const chosen = found.ways.find((way) => way.id === best)!
  const own = await runOf(about, plan, {})
  const after = ({ atEndBy, untaxedBy }: typeof own) =>
    atEndBy.map((each, path) => each - usualLaterRate * untaxedBy[path]!)
  for (const { id } of fewer) {
    const ran = await runOf(about, changeOf('account-order', id)(plan)!, {})
    const more = after(ran).map((each, path) => each - after(own)[path]!)
    const leftMore = more.slice().sort()[Math.floor(pathsOfWays / 2)]!
    const surely = surerBy(after(ran), after(own)).low > 0
    if (isWorse(ran, own) || !surely || leftMore <= 1) continue
    // Among those that are both good a difference of a fiftieth of what is gained is chance.
    expect(leftMore).toBeLessThanOrEqual(Math.max(1, chosen.leftMore) * 1.02)
  }
})
