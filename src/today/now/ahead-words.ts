// A step ahead in one line, on Now and in the terminal.
import { type Month, monthName } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'

export interface StepAhead {
  /** The first month of it. */
  month: Month
  of: 'premiums' | 'living costs' | 'loan payments' | 'pay' | 'side ventures' | 'Social Security' | 'draws'
  /** Dollars a month before and from then on. */
  before: number
  after: number
  /** Premiums alone: what was taken in advance of the credit ends with it. */
  creditEnds: boolean
  /** In one line. */
  says: string
}

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
