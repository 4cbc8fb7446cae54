// Where nothing that a question tries holds in any simulation and the plan itself runs short: that is the answer, before all else.
import { monthName, parseMonth } from '#calendar/month.ts'
import type { ChanceAnswer } from './answers.ts'
import { sayRecords } from './claim.ts'
import { type Asking, saidIn } from './question.ts'
import type { Standing } from './standing.ts'

/** The answer as it is, or the same with no choice called the best and the month in which money runs short told first. */
export function gapFirst(asking: Asking, answer: ChanceAnswer): ChanceAnswer {
  const rows = rowsOf(answer)
  if (rows.length === 0 || rows.some(({ held }) => held.share > 0)) return answer
  const { runsShort } = asking.project(asking.plan).milestones
  if (runsShort === null) return answer
  const because = `The plan runs short of money in ${monthName(parseMonth(runsShort)!)} whatever is chosen here: ${closeFirst}`
  const none = { kind: 'cannot be reached', because } as const
  switch (answer.question) {
    case 'claim':
      return { ...answer, answer: none, ...saidIn(`${because}${sayRecords(asking.plan)}`) }
    case 'plow-back':
      return { ...answer, answer: none, ...saidIn(because) }
    case 'slow-down':
      return { ...answer, answer: none, tried: [], ...saidIn(because), why: '' }
    case 'draw':
      // What the farm can pay stays true of the farm.
      return { ...answer, ...saidIn(because, answer.sentence, ...answer.more) }
    default:
      return answer
  }
}

const closeFirst = 'close that gap first.'

/** Whether that is all there is to say: what the farm can pay is answered beside it. */
export const isOnlyGap = ({ question, answer }: ChanceAnswer): boolean =>
  question !== 'draw' && 'because' in answer && answer.because.endsWith(closeFirst)

function rowsOf(answer: ChanceAnswer): readonly Pick<Standing, 'held'>[] {
  switch (answer.question) {
    case 'claim':
      return answer.tried
    case 'plow-back':
      return answer.points.length === 0 ? [] : [answer.today, ...answer.points]
    case 'slow-down':
      return answer.tried.length === 0 || answer.today === null ? [] : [answer.today, ...answer.tried]
    case 'draw':
      return answer.compared.map(({ standing }) => standing)
    default:
      return []
  }
}
