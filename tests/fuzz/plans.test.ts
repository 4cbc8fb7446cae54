import fc from 'fast-check'
import { expect, test } from 'vitest'
import { figureCount } from '#chance/course-run.ts'
import { makeWorkspace, runPaths } from '#chance/paths.ts'
import { prepareChance } from '#chance/prepare.ts'
import type { Plan } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { projectStorm } from '#runway/storms/storm.ts'
import { begun, usualStorms } from '#runway/storms/usual-storms.ts'
import { whySentences } from '#runway/why.ts'
import { CommandError } from '#src/cli/command.ts'
import { projectCommand } from '#src/cli/project.ts'
import { assertFuzz, fuzzRuns } from './batches.ts'
import { wrongNumberIn } from './bent-json.ts'
import { begin, expectQuick, expectSmall, fuzzTimeout } from './limits.ts'
import { bentPlans, startingPlan } from './plan-inputs.ts'

/** Storms and drawn courses run the same loop, so that a few of each show what they add. */
const runThrough = (plan: Plan, count: number): void => {
  const projection = project(plan)
  expect(wrongNumberIn(projection)).toBe(null)
  if (count % 8 > 0) return
  expect(whySentences(plan, projection).join(' ')).not.toMatch(/NaN|Infinity|undefined|null/)
  const rules = publishedRules(plan)
  // Where one hurts most is looked for by two dozen runs: of one storm at a time.
  const usual = usualStorms(plan)
  const which = (count / 8) % (usual.length + plan.storms.length)
  const storm = which < usual.length ? begun(plan, rules, usual[which]!) : plan.storms[which - usual.length]
  if (storm) expect(wrongNumberIn(projectStorm(plan, rules, storm))).toBe(null)
  const run = prepareChance(plan, rules, { seed: count, paths: 1, keepsMonths: false })
  const figures = new Float64Array(new SharedArrayBuffer(8 * figureCount))
  const memory = { figures, months: noMonths, atFirstPrices: noMonths }
  runPaths(run, 0, makeWorkspace(run).courses, memory)
  expect(memory.figures.slice(0, 8).some(Number.isNaN)).toBe(false)
}
const noMonths = new Float32Array(new SharedArrayBuffer(0))

test('bent plans are refused by naming every wrong field, or run to the end with nothing but numbers', {
  timeout: fuzzTimeout,
}, async () => {
  let accepted = 0
  await assertFuzz(
    fc.property(bentPlans, (text) => {
      const begun = begin()
      const read = readPlanText(text)
      if (read.ok) runThrough(read.plan, accepted++)
      else {
        expect(read.faults.length).toBeGreaterThan(0)
        for (const { message } of read.faults) expect(message.length).toBeGreaterThan(8)
      }
      expectQuick(begun)
    }),
  )
  // A fuzz that only ever meets the front door proves little.
  expect(accepted).toBeGreaterThan(fuzzRuns() / 6)
  expectSmall()
})

test('`project` on bent plans prints whole figures, or says what is wrong and exits with 2', {
  timeout: 600_000,
}, async () => {
  const codes = new Map<number, number>()
  await assertFuzz(
    fc.asyncProperty(bentPlans, fc.boolean(), async (text, json) => {
      const begun = begin()
      const said: string[] = []
      const io = {
        out: (line: string) => void said.push(line),
        err: (line: string) => void said.push(line),
        readInput: async () => text,
        env: {},
        now: () => new Date(0),
      }
      const code = await projectCommand.run(json ? ['-', '--json'] : ['-'], io).catch((error: unknown) => {
        if (!(error instanceof CommandError)) throw error
        said.push(error.message)
        return error.exitCode
      })
      codes.set(code, (codes.get(code) ?? 0) + 1)
      expect(said.join('').trim()).not.toBe('')
      if (code === 0 && json) expect(wrongNumberIn(JSON.parse(said.join('\n')))).toBe(null)
      if (code === 0 && !json) expect(said.join('\n')).not.toMatch(/NaN|Infinity|undefined/)
      expectQuick(begun)
    }),
    0.1,
  )
  expect([...codes.keys()].sort()).toEqual([0, 2])
})

/** Found by the fuzz: each ran into a throw or a figure that is no number. */
const once: [what: string, change: (plan: Plan) => unknown, field: RegExp | null][] = [
  ['a start before the law’s first year', (plan) => (plan.startMonth = '2019-12'), /startMonth/],
  ['a start when nobody plans any more', (plan) => (plan.startMonth = '9999-12'), /startMonth/],
  [
    'someone born before wages were counted',
    (plan) => (plan.household.people[0]!.born = '0001-01-01'),
    /born/,
  ],
  ['sales beyond any farm', (plan) => (plan.farm.enterprises[0]!.salesPerUnit = 1e308), /salesPerUnit/],
  ['hours beyond any year', (plan) => (plan.farm.crew[0]!.weeklyHours = 1e308), /weeklyHours/],
  ['a fee beyond any market', (plan) => (plan.farm.markets[0]!.feePerMonth = 1e308), /feePerMonth/],
  ['a price beyond any flock', (plan) => (plan.farm.herds[0]!.prices.male = 1e308), /male/],
  ['a farm account beyond any bank', (plan) => (plan.farm.cash = -1e308), /cash/],
  ['a tractor bought before the tables begin', (plan) => (plan.farm.purchases[0]!.month = '1971-05'), null],
  ['a flock that has always stood there', (plan) => (plan.farm.herds[0]!.start = '0001-01'), null],
  ['a helper called constructor', (plan) => (plan.farm.crew[0]!.who = 'constructor'), null],
  ['a helper called __proto__', (plan) => (plan.farm.crew[0]!.who = '__proto__'), null],
]

test.for(once)('%s is refused at its field, or runs with nothing but numbers', ([, change, field]) => {
  const plan = startingPlan()
  change(plan)
  const read = readPlanText(JSON.stringify(plan))
  expect(read.ok).toBe(field === null)
  if (read.ok) expect(wrongNumberIn(project(read.plan))).toBe(null)
  else expect(read.faults.map((fault) => fault.path)).toEqual([expect.stringMatching(field!)])
})
