// The answers of the Slower years page, worked out off the request by one worker and kept with the plan they are of.
import { serverNiceness } from '#chance/pool.ts'
import { Workers } from '#chance/workers.ts'
import { keeper } from '#kept/keeper.ts'
import type { SlowerAnswers } from '#today/slower-years/figures.ts'
import type { AnswersOrder } from '#today/slower-years/slower-years-work.ts'

const answers = keeper(6)

export const slowerAnswers = (order: AnswersOrder): Promise<SlowerAnswers> => {
  const { plan, ...rest } = order
  return answers(plan, JSON.stringify(rest), () => ask(order))
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
