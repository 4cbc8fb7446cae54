// A step ahead in one line, on Now and in the terminal.
import { monthName } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { StepAhead } from './steps-ahead.ts'

export const aheadWords = ({ month, of, before, after, creditEnds }: Omit<StepAhead, 'says'>): string => {
  const amounts = `from ${formatDollars(before)} to ${formatDollars(after)} a month`
  return `${monthName(month)}: ${names[of]} ${amounts}${creditEnds ? ', with no credit any more' : ''}`
}

const names: Record<StepAhead['of'], string> = {
  premiums: 'premiums go',
  'living costs': 'living costs go',
  'loan payments': 'loan payments go',
  pay: 'pay in hand goes',
  'side ventures': 'what side ventures bring goes',
  'Social Security': 'Social Security goes',
  draws: 'draws go',
}
