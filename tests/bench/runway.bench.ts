// How long a course of sixty years takes, and a pulled lever until the part of the page that repaints is written.
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import type { Plan } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { wholeCourse } from '#runway/course-buffers.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { runCourse } from '#runway/run-course.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { stormsOf } from '#runway/storms/usual-storms.ts'
import { buildSample } from '#sample/build-sample.ts'
import { testApp } from '../web/test-app.ts'
import {
  type Benches,
  type BenchRow,
  medianAnsweringMilliseconds,
  medianMilliseconds,
  medianProcessorMilliseconds,
} from './bench.ts'

const samplePlan = (): { document: unknown; plan: Plan } => {
  const document = JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
  const read = readPlan(document)
  if (!read.ok) throw new Error('The sample plan cannot be read')
  return { document, plan: read.plan }
}

export const benches: Benches = {
  course: async () => courseRows(samplePlan().plan),
  lever: async () => [await leverRow()],
  now: async () => [await nowRow()],
  storms: async () => [await stormsRow(samplePlan().plan)],
  terminal: async () => [await terminalRow()],
}

const courseRows = async (plan: Plan): Promise<BenchRow[]> => {
  const rules = publishedRules(plan)
  const compiled = compilePlan(plan, rules, { untilAge: 105 })
  const buffers = wholeCourse(compiled)
  const bare = new Float64Array(compiled.months)
  const shocks = expectedShocks(compiled.shape)
  shocks.deathMonth.fill(720)
  const course =
    (await medianProcessorMilliseconds(
      () => repeat(20, () => runCourse(compiled, shocks, buffers)),
      25,
      10,
    )) / 20
  const floor = (await medianProcessorMilliseconds(() => repeat(20, () => bareLoop(bare)), 25, 10)) / 20
  const whole = await medianProcessorMilliseconds(() => project(plan, rules), 15, 5)
  return [
    {
      what: `one course of ${Math.round(buffers.endMonth / 12)} years with tax, cover and benefits`,
      milliseconds: course,
      floor: { what: 'a loop that only adds up as many months in 40 series', milliseconds: floor },
      limit: 'under 3 ms',
      held: course < 3,
    },
    { what: 'project(): compile, run and write out every month of the sample plan', milliseconds: whole },
  ]
}

const stormsRow = async (plan: Plan): Promise<BenchRow> => {
  const milliseconds = await medianProcessorMilliseconds(() => stormsOf(plan), 5, 2)
  return {
    what: 'the worst month of each usual bad year looked for',
    milliseconds,
    limit: 'under 350 ms',
    held: milliseconds < 350,
  }
}

const terminalRow = async (): Promise<BenchRow> => {
  const root = join(import.meta.dirname, '../..')
  const milliseconds = await medianMilliseconds(
    () => {
      const { status, stderr } = spawnSync('node', ['src/start.mjs', 'project', 'sample/plan.json'], {
        cwd: root,
        encoding: 'utf8',
      })
      if (status !== 0) throw new Error(stderr)
    },
    5,
    1,
  )
  return {
    what: 'dooryard project, from the command to the last line',
    milliseconds,
    limit: 'under 700 ms on an idle machine',
    held: milliseconds < 700,
  }
}

/** With three years of books beside the plan, as who pulls it has them. */
const leverRow = async (): Promise<BenchRow> => {
  const app = testApp({ today: '2026-11-25' })
  buildSample(app.books)
  let pull = 0
  const milliseconds = await medianAnsweringMilliseconds(async () => {
    pull += 1
    const answer = await app.get(`/runway?living=${(97 - pull / 100).toFixed(2)}`, {
      'HX-Request': 'true',
      'HX-Target': 'div#course',
    })
    await answer.text()
  })
  app.close()
  return {
    what: 'a lever pulled, until the course with its charts is written',
    milliseconds,
    limit: 'under 20 ms',
    held: milliseconds < 20,
  }
}

/** Now of the sample, bad years, review and simulations at hand: what a page costs that is opened again. */
const nowRow = async (): Promise<BenchRow> => {
  const app = testApp({ today: '2026-11-25', simulates: true })
  buildSample(app.books)
  await app.get('/now?storms=yes&review=yes')
  const open = async () => (await app.get('/now')).text()
  while ((await open()).includes('every 2s')) await setTimeout(200)
  const milliseconds = await medianAnsweringMilliseconds(open)
  app.close()
  return {
    what: 'Now of the sample with its simulations ready',
    milliseconds,
    limit: 'under 15 ms',
    held: milliseconds < 15,
  }
}

const repeat = (times: number, work: () => void) => {
  for (let k = 0; k < times; k += 1) work()
}

const bareLoop = (series: Float64Array) => {
  let sum = 0
  for (let row = 0; row < 40; row += 1) for (let m = 0; m < series.length; m += 1) sum += series[m]!
  series[0] = sum * 0 + series[0]!
}
