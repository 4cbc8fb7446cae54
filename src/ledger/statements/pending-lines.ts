// A movement that was pending when it was first read comes back with another day, text or amount. Which line was it before?
import { dayNumber } from '#calendar/day.ts'
import type { KeptLine } from './kept-line.ts'
import { plainPayee, wordsOf } from './payee-text.ts'
import { type StatementLine, textOfLine } from './statement.ts'
import { hasNumber } from './twin-lines.ts'

/** Card networks settle nearly all charges within a week (common practice). */
const mostDays = 7

export interface EarlierForm {
  earlier: KeptLine
  /** It called itself pending and has the same amount: no one need be asked. */
  isSure: boolean
}

/** Among kept lines that the bank's file no longer has. The nearest day goes first, a line that was pending before all others. */
export const earlierFormOf = (line: StatementLine, gone: Iterable<KeptLine>): EarlierForm | null => {
  const text = withoutPending(textOfLine(line))
  const distance = (kept: KeptLine) => Math.abs(dayNumber(kept.day) - dayNumber(line.day))
  const [best] = [...gone]
    .filter(
      (kept) =>
        kept.amount < 0 === line.amount < 0 &&
        hasNumber(kept.bankNumber) === hasNumber(line.bankNumber) &&
        distance(kept) <= mostDays,
    )
    .map((earlier) => ({
      earlier,
      isPending: pendingWords.test(earlier.text),
      isSame: earlier.amount === line.amount,
      isAlike: shareWords(withoutPending(earlier.text), text),
    }))
    .filter(({ isPending, isSame, isAlike }) => (isSame && (isPending || isAlike)) || (isPending && isAlike))
    .sort(
      (one, other) =>
        Number(other.isSame) - Number(one.isSame) ||
        Number(other.isPending) - Number(one.isPending) ||
        Number(other.isAlike) - Number(one.isAlike) ||
        distance(one.earlier) - distance(other.earlier),
    )
  return best ? { earlier: best.earlier, isSure: best.isPending && best.isSame } : null
}

const pendingWords = /\b(pending|authori[sz]ation|auth hold|temporary hold|processing)\b/i

const withoutPending = (text: string): string => plainPayee(text.replace(new RegExp(pendingWords, 'gi'), ' '))

/** Half of the words of the shorter text, and at least one. */
const shareWords = (one: string, other: string): boolean => {
  const [some, others] = [new Set(wordsOf(one)), new Set(wordsOf(other))]
  const common = [...some].filter((word) => others.has(word)).length
  return common > 0 && common * 2 >= Math.min(some.size, others.size)
}
