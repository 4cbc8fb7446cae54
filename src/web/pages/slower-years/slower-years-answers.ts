// The answers of the Slower years page, worked out off the request by one worker and kept with the plan they are of.
import type { Month } from '#calendar/month.ts'
import { serverNiceness } from '#chance/pool.ts'
import { Workers } from '#chance/workers.ts'
import { keeper } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import type { SlowerAnswers } from '#today/slower-years/figures.ts'
import type { AnswersOrder, MixAsked } from '#today/slower-years/slower-years-work.ts'

const answers = keeper(6)

export const slowerAnswers = (plan: Plan, asked: MixAsked, today: Month): Promise<SlowerAnswers> =>
  answers(plan, JSON.stringify([asked, today]), () => ask({ plan, asked, today }))

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
