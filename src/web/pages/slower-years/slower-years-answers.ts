// The answers of the Slower years page, worked out off the request by one worker and kept with the plan they are of.
import type { Month } from '#calendar/month.ts'
import { serverNiceness } from '#chance/pool.ts'
import { Workers } from '#chance/workers.ts'
import type { Plan } from '#plan/plan.ts'
import type { SlowerAnswers } from '#today/slower-years/figures.ts'
import type { AnswersOrder, MixAsked } from '#today/slower-years/slower-years-work.ts'

/** A plan object never changes, so what was asked of it is kept with it. */
const known = new WeakMap<Plan, Map<string, Promise<SlowerAnswers>>>()
const keptPerPlan = 6

export const slowerAnswers = (plan: Plan, asked: MixAsked, today: Month): Promise<SlowerAnswers> => {
  const answers = known.get(plan) ?? new Map<string, Promise<SlowerAnswers>>()
  known.set(plan, answers)
  const key = JSON.stringify([asked, today])
  const found = answers.get(key) ?? ask({ plan, asked, today })
  answers.set(key, found)
  found.catch(() => answers.delete(key))
  const oldest = answers.keys().next().value
  if (answers.size > keptPerPlan && oldest !== undefined) answers.delete(oldest)
  return found
}

/** One worker is enough; it goes when nothing was asked for a while. */
const worker = new Workers({
  filename: new URL('./slower-years-worker.mjs', import.meta.url).href,
  name: 'workOutAnswers',
  minThreads: 0,
  maxThreads: 1,
  idleTimeout: 120_000,
  niceIncrement: serverNiceness,
})

const ask = (order: AnswersOrder): Promise<SlowerAnswers> => worker.run(order)
