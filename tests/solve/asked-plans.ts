// Random plans of a seed that questions are asked of: each made ready once for all of them, and what its own simulations say, setting by
// setting and without a search. `QUESTION_PLANS=100` for as many and the sample, `QUESTION_FROM=40` to leave
// out the first of them, `FUZZ_SEED` for others.
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { addMonths, monthText } from '#calendar/month.ts'
import type { ThresholdTask } from '#chance/by-path/thresholds.ts'
import { chanceModel } from '#chance/chance-model.ts'
import { type CourseRun, figureOf } from '#chance/course-run.ts'
import { type Criterion, type Dial, dial } from '#chance/dials.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { planSpan } from '#runway/compile/compile.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { dollarsOfTheYear } from '#runway/dollars/dollars.ts'
import { type Amount, type Asking, shownAt } from '#solve/question.ts'
import { type Ran, runOf } from '#solve/standing.ts'
import { randomPlan } from '../runway/random-plan.ts'
import { asking, courses, toldIn } from './asking.ts'

export const seed = Number(process.env.FUZZ_SEED ?? '20261129')

export interface Asked {
  name: string
  plan: Plan
  about: Asking
  compiled: CompiledPlan
  /** Of its own people's choice, for questions that ask for it. */
  followShare: number
  weeklyHours: number
  /** Its own simulations, run once. */
  own: () => Promise<Ran>
}

const drawn = fc.record({
  plan: randomPlan(),
  followShare: fc.double({ min: 0, max: 1, noNaN: true }),
  weeklyHours: fc.integer({ min: 5, max: 30 }),
  slowerAfter: fc.double({ min: 0.2, max: 0.7, noNaN: true }),
})

/** So many of the seed, and the sample after them where more are asked for than the test command does. */
export function askedPlans(usual: number, paths: number): Asked[] {
  const asked = process.env.QUESTION_PLANS
  const plans = fc
    .sample(drawn, { seed, numRuns: Number(asked ?? usual) })
    .map(({ plan, slowerAfter, ...rest }, place) => ({
      name: `plan ${place} of seed ${seed}`,
      plan: withSlower(plan, slowerAfter),
      ...rest,
    }))
  const ours = { name: 'the sample', plan: sample(), followShare: 0.3, weeklyHours: 20 }
  return [
    ...plans.slice(Number(process.env.QUESTION_FROM ?? '0')),
    ...(asked === undefined ? [] : [ours]),
  ].map((one) => readyOnce(one, paths))
}

/** Made ready when first asked, and let go of when the next one is: a hundred together would fill the memory. */
let last: { of: object; about: Asking; compiled: CompiledPlan; own: Promise<Ran> | null } | null = null

function readyOnce(one: Pick<Asked, 'name' | 'plan' | 'followShare' | 'weeklyHours'>, paths: number): Asked {
  const ready = () => {
    if (last?.of !== one) {
      const about = asking(one.plan, paths, toldIn(one.plan, dollarsOfTheYear))
      last = { of: one, about, compiled: about.compile(one.plan), own: null }
    }
    return last
  }
  return {
    ...one,
    get about() {
      return ready().about
    },
    get compiled() {
      return ready().compiled
    },
    own: () => {
      const made = ready()
      made.own ??= runOf(made.about, one.plan, {}, made.compiled)
      return made.own
    },
  }
}

const sample = (): Plan => {
  const read = readPlanText(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

/** Half as much of everything from a part of its months on: most random plans have no slower year. */
function withSlower(plan: Plan, after: number): Plan {
  const month = Math.max(1, Math.floor(planSpan(plan).months * after))
  const from = monthText(addMonths(firstMonthOf(plan), month))
  const scales = plan.farm.enterprises.map(({ id, scale }) => ({ enterprise: id, value: scale / 2 }))
  return planSchema.parse({ ...plan, farm: { ...plan.farm, phases: [{ from, name: 'Half', scales }] } })
}

const runOfPlan = ({ about, plan, compiled }: Asked): CourseRun => ({
  plan: compiled,
  model: chanceModel(plan, compiled.shape),
  seed: about.seed,
  paths: about.paths,
  from: 'chance',
  keepsMonths: false,
})

/** Share of all courses that are good as a whole with one number of the plan turned to a setting, by the figures they leave behind. */
export async function shareHolding(
  asked: Asked,
  what: Dial,
  kind: 'held' | 'aboveFloor',
  setting: number,
): Promise<number> {
  const turned = dial(asked.compiled, what)
  turned.turn(setting)
  const figures = await courses.figures({ ...runOfPlan(asked), plan: turned.plan })
  const good =
    kind === 'held'
      ? figureOf(figures, 'held')
      : figureOf(figures, 'monthsLeft').map((month) => (month === Number.POSITIVE_INFINITY ? 1 : 0))
  return shareOf(good)
}

/** The same of the courses that count, by any criterion: each run at that one setting. */
export async function shareGood(
  asked: Asked,
  what: Dial,
  criterion: Criterion,
  setting: number,
  {
    counts = () => true,
    strike,
    paths = asked.about.paths,
  }: { counts?: (path: number) => boolean; paths?: number } & Pick<ThresholdTask, 'strike'> = {},
): Promise<number> {
  const task = { dial: what, criterion, from: setting, to: setting, start: setting, step: 1, within: 1 }
  const found = await courses.thresholds(
    { ...runOfPlan(asked), paths },
    {
      ...task,
      moreIsBetter: true,
      ...(strike === undefined ? {} : { strike }),
    },
  )
  const counted = found.filter((each, path) => counts(path) && !Number.isNaN(each))
  return shareOf(counted.map((each) => (Number.isFinite(each) ? 1 : 0)))
}

const shareOf = (flags: Float64Array): number => flags.reduce((sum, each) => sum + each, 0) / flags.length

/** Courses whose people live to see the slower year. */
export async function seesSlowerYear(asked: Asked): Promise<(path: number) => boolean> {
  const then = figureOf(await courses.figures(runOfPlan(asked)), 'atSlowerYear')
  return (path) => !Number.isNaN(then[path]!)
}

/** The level of draws that a plan gets which takes it: whole dollars at first prices. */
export const asTaken = ({ about }: Asked, { value }: Amount, fromMonth: number): number =>
  Math.floor(value / shownAt(about, fromMonth) + 1e-6)

/** How many plans of each question came to its check: what never does holds nothing. */
export class Reached {
  private readonly counts = new Map<string, number>()

  add(what: string): void {
    this.counts.set(what, this.of(what) + 1)
  }

  of(what: string): number {
    return this.counts.get(what) ?? 0
  }

  toString(): string {
    return [...this.counts].map(([what, count]) => `${what} ${count}`).join(', ')
  }
}
