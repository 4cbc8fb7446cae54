// Why an answer is as it is, in a sentence.
import { addMonths, type Month, monthName } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { ChanceAnswer } from './answers.ts'

/** Empty for an answer that cannot be reached: that says why itself. */
export function whyOf(answer: ChanceAnswer, firstMonth: number): string {
  if (answer.answer.kind !== 'reached') return ''
  switch (answer.question) {
    case 'draw': {
      const second = answer.answer.steps[1]
      const level = answer.compared.find((one) => one.as === 'level')
      if (second === undefined || level === undefined)
        return 'What the farm has above its reserve, month by month and over the twelve months ahead, sets the level.'
      const until = monthName(addMonths(firstMonth as Month, second.fromMonth - 1))
      return `One level must fit the leanest years, here those until ${until}; what the farm earns beyond it later stays in it, ${formatDollars(level.standing.farmAtEnd.median)} at the end in the middle simulation.`
    }
    case 'plow-back': {
      const all = answer.points.at(-1)!
      return `What stays in the farm earns only as far as the plan buys something with it; beyond that it lies there: ${formatDollars(all.farmAtEnd.median)} at the end in the middle simulation with all of it left, ${formatDollars(answer.today.farmAtEnd.median)} as planned.`
    }
    case 'start-with':
      return `Savings pay what draws, pay and benefits do not, until those cover costs; retirement accounts pay, with tax and any addition for early withdrawals, once they are gone. ${answer.earns}`
    case 'cushion':
      return `From then on the smaller farm and Social Security pay a part; savings, retirement accounts with them, pay the rest, taxes included. ${answer.earns}`
    case 'claim':
      return 'Claiming later pays more a month for life, and for who is left, but nothing until then: what matters is whether savings carry the wait.'
    default:
      return answer.why
  }
}
