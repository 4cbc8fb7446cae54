// The questions of the sample plan, 1,000 simulations each: processor time over two processors, to the first answer, to the whole one and
// to what moves it, as ratios to one plain set of 1,000.
import { readFileSync } from 'node:fs'
import { CoursePool } from '#chance/pool.ts'
import { compileForChance, prepareChance } from '#chance/prepare.ts'
import type { Plan } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { pricesIn } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { askQuestion, type ChanceQuestion } from '#solve/questions.ts'
import { workOutMixes } from '#today/slower-years/slower-years-work.ts'
import type { Benches, BenchRow } from './bench.ts'

const paths = 1_000
const quick = 8_000
const slow = 20_000
/** One program after another in one thread. */
const mixLimit = 10_000
const limits = {
  draw: quick,
  'plow-back': quick,
  'start-with': quick,
  cushion: slow,
  claim: slow,
  'account-order': slow,
  'slow-down': slow,
  'drop-market': slow,
} satisfies Partial<Record<ChanceQuestion, number>>

/** One question each: together they take minutes, on a busy machine most of an hour. */
export const benches: Benches = {
  ...Object.fromEntries(
    Object.entries(limits).map(([question, limit]) => [
      question,
      () => questionRows(question as keyof typeof limits, limit),
    ]),
  ),
  mix: async () => [await mixRow(samplePlan())],
}

const samplePlan = (): Plan => {
  const read = readPlanText(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
  if (!read.ok) throw new Error(read.faults.map((fault) => fault.message).join('\n'))
  return read.plan
}

const mixRow = async (plan: Plan): Promise<BenchRow> => {
  const dollars = { of: 'today', month: plan.startMonth } as const
  const taken = await used(() =>
    workOutMixes(plan, { aim: 'most net', pinned: [], largestChange: null }, dollars),
  )
  return {
    what: 'mix of the slower years',
    milliseconds: taken * 2,
    limit: 'under 10 s',
    held: taken * 2 < mixLimit,
  }
}

async function questionRows(question: keyof typeof limits, limit: number): Promise<BenchRow[]> {
  const plan = samplePlan()
  const rules = publishedRules(plan)
  const courses = new CoursePool(2)
  try {
    const set = prepareChance(plan, rules, { seed: 1, paths, keepsMonths: false })
    await courses.figures(set)
    const plain = await used(() => courses.figures(set))
    const floor = { what: `of ${paths} simulations`, milliseconds: plain }
    const dollars = { of: 'today', month: plan.startMonth } as const
    const asking = {
      plan,
      compile: (variant: typeof plan) => compileForChance(variant, rules),
      project: (variant: typeof plan) => project(variant, rules),
      courses,
      dollars,
      prices: pricesIn(project(plan, rules), dollars),
      confidence: 0.9,
      paths,
      seed: 1,
    }
    const stamps: number[] = []
    const begun = process.cpuUsage()
    await askQuestion(question, asking, () => stamps.push(since(begun)))
    const all = since(begun)
    const [first, whole] = stamps
    if (first === undefined || whole === undefined) throw new Error(`${question} gave no first answer`)
    return [
      {
        what: `${question}, first answer`,
        milliseconds: first,
        floor,
        limit: 'under 2 s',
        held: first < 2_000,
      },
      {
        what: `${question}, whole answer`,
        milliseconds: whole - first,
        floor,
        limit: `under ${limit / 1_000} s`,
        held: whole - first < limit,
      },
      { what: `${question}, what moves it`, milliseconds: all - whole, floor },
    ]
  } finally {
    await courses.close()
  }
}

/** Processor time since then, over two processors: what others do on the machine hardly counts. */
const since = (begun: NodeJS.CpuUsage): number => {
  const { user, system } = process.cpuUsage(begun)
  return (user + system) / 2_000
}

async function used(work: () => Promise<unknown>): Promise<number> {
  const begun = process.cpuUsage()
  await work()
  return since(begun)
}
