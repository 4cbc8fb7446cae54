import { describe, expect, test } from 'vitest'
import { courseMemory, figureCount, figureOf } from '#chance/course-run.ts'
import { makeWorkspace, runPaths, takePaths } from '#chance/paths.ts'
import { prepareChance } from '#chance/prepare.ts'
import type { Plan } from '#plan/plan.ts'
import { makeBuffers } from '#runway/course-buffers.ts'
import { inDollars } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { runCourse } from '#runway/run-course.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { savingsAtEnd } from '#solve/slower-years.ts'
import { farmPlan, quiet, savingsPlan } from './plans.ts'

function run(plan: Plan, paths: number, seed = 5) {
  const prepared = prepareChance(plan, publishedRules(plan), { seed, paths })
  const memory = courseMemory(prepared)
  takePaths(prepared, memory, makeWorkspace(prepared))
  return { prepared, memory }
}

describe('courses without spread', () => {
  test('are the expected course exactly, in every month', () => {
    const plan = farmPlan({ chance: quiet })
    const { prepared, memory } = run(plan, 2)
    const buffers = makeBuffers(prepared.plan, ['spendable'])
    runCourse(prepared.plan, expectedShocks(prepared.plan.shape), buffers)
    const width = prepared.plan.months
    const expected = Float32Array.from(buffers.months.spendable)
    expect(memory.months.slice(0, width)).toEqual(expected)
    expect(memory.months.slice(width)).toEqual(expected)
  })

  test('have the milestones that the projection tells', () => {
    const plan = farmPlan({ chance: quiet })
    const { memory } = run(plan, 1)
    const { milestones, months } = project(plan)
    const of = (figure: Parameters<typeof figureOf>[1]) => figureOf(memory.figures, figure)[0]!
    const at = (text: string | null) =>
      text === null ? Number.POSITIVE_INFINITY : months.findIndex((month) => month.month === text)
    expect(of('monthsLeft')).toBe(milestones.monthsLeft ?? Number.POSITIVE_INFINITY)
    expect(of('lowestSavings')).toBe(milestones.lowestSpendable)
    expect(of('lowestMonth')).toBe(at(milestones.lowestMonth))
    expect(of('firstDraw')).toBe(at(milestones.firstDraw))
    expect(of('carryMonth')).toBe(at(milestones.carryMonth))
    expect(of('firstShortMonth')).toBe(at(milestones.runsShort))
    expect(of('unmetNeed')).toBe(milestones.unmetNeed)
    expect(of('atSlowerYear')).toBe(milestones.savingsAtFirstSlower)
    const atFirst = inDollars(project(plan), { of: 'today', month: plan.startMonth })
    expect(of('lowestAtFirstPrices')).toBeCloseTo(atFirst.milestones.lowestSpendable, 2)
    expect(of('unmetAtFirstPrices')).toBeCloseTo(atFirst.milestones.unmetNeed, 2)
    expect(of('atEnd')).toBeCloseTo(savingsAtEnd(atFirst.months), 2)
    expect(of('atEnd') * of('pricesAtEnd')).toBeCloseTo(savingsAtEnd(months), 2)
    const spendable = atFirst.months.map((one) => Math.fround(one.spendable))
    expect(Array.from(memory.atFirstPrices.slice(0, months.length))).toEqual(
      spendable.map((one) => expect.closeTo(one, 1)),
    )
  })
})

test('a course leaves in the farm, and untaxed in retirement accounts, what the projection does, at first prices', () => {
  const plan = farmPlan({ chance: quiet }, 60)
  const { memory } = run(plan, 1)
  const last = inDollars(project(plan), { of: 'today', month: plan.startMonth }).months.at(-1)!
  // Some fifteen years of rising prices: told at those of its end, either would be half as much again.
  expect(last.traditional).toBeGreaterThan(10_000)
  expect(last.farmCash).toBeGreaterThan(1000)
  expect(figureOf(memory.figures, 'untaxedAtEnd')[0]).toBeCloseTo(last.traditional, 2)
  expect(figureOf(memory.figures, 'farmAtEnd')[0]).toBeCloseTo(last.farmCash, 2)
})

describe('drawn courses', () => {
  test('are what they are whichever paths run before or abreast of them', () => {
    const plan = farmPlan()
    const { prepared, memory } = run(plan, 12)
    const alone = courseMemory(prepared)
    runPaths(prepared, 7, makeWorkspace(prepared).courses.slice(0, 1), alone)
    const place = 7 * figureCount
    expect(alone.figures.slice(place, place + figureCount)).toEqual(
      memory.figures.slice(place, place + figureCount),
    )
  })

  test('end with the longer life, and no cell of the bands is left from another path', () => {
    const plan = farmPlan()
    const { prepared, memory } = run(plan, 60)
    const months = figureOf(memory.figures, 'months')
    for (let path = 0; path < 60; path += 1) {
      const row = memory.months.subarray(path * prepared.plan.months, (path + 1) * prepared.plan.months)
      expect(row.findIndex((cell) => Number.isNaN(cell))).toBe(
        months[path] === prepared.plan.months ? -1 : months[path],
      )
    }
    expect(new Set(months).size).toBeGreaterThan(30)
  })

  test('never hold less often with more savings: on no path of a plan without taxes does more money fail', () => {
    const rich = (savings: number) => savingsPlan({ savings, perMonth: 3_500, years: 30 })
    const outcomes = [500_000, 600_000, 700_000, 800_000].map(
      (savings) => run(rich(savings), 300).memory.figures,
    )
    for (let step = 1; step < outcomes.length; step += 1) {
      const [less, more] = [outcomes[step - 1]!, outcomes[step]!]
      const short = figureOf(less, 'firstShortMonth')
      figureOf(more, 'firstShortMonth').forEach((month, path) => {
        expect(month).toBeGreaterThanOrEqual(short[path]!)
      })
    }
    const shares = outcomes.map((figures) => figureOf(figures, 'held').reduce((sum, each) => sum + each, 0))
    expect(shares[3]).toBeGreaterThan(shares[0]! + 20)
  })

  // Not path by path: money that earns more is more income, and one dollar over a credit's line can cost thousands, so that a path that
  // just came through may not. Of 120 paths at most one does so at a step, and over all of them more savings hold as often or more.
  test('never hold less often with more savings: nor under the whole law, but for a path at the line of a credit', () => {
    const plan = farmPlan()
    const [cash, ...all] = plan.savings.accounts
    const others = all.map((one) => ({ ...one, balance: one.balance / 5, basis: one.balance / 5 }))
    const withCash = (more: number): Plan => ({
      ...plan,
      savings: { ...plan.savings, accounts: [{ ...cash!, balance: cash!.balance + more }, ...others] },
    })
    const held = [0, 25_000, 50_000, 100_000, 200_000].map((more) =>
      figureOf(run(withCash(more), 120).memory.figures, 'held'),
    )
    const often = held.map((paths) => paths.reduce((sum, each) => sum + each, 0))
    for (let step = 1; step < held.length; step += 1) {
      const turned = [...held[step]!.keys()].filter((path) => held[step]![path]! < held[step - 1]![path]!)
      expect(turned.length, `${step}`).toBeLessThanOrEqual(1)
      expect(often[step], `${step}`).toBeGreaterThanOrEqual(often[step - 1]!)
    }
    expect(often[4]).toBeGreaterThan(often[0]!)
  })
})
