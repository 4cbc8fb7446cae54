// What each that is left of a batch must bring for its costs: an amount, or in words where nothing is to come in any more.
import { formatCents } from '#money/format.ts'
import type { BatchFigures } from '#today/farm/batch-figures.ts'

type Result = Pick<BatchFigures['result'], 'breakEvenCents' | 'costsCents'>

export const breakEvenSays = ({ breakEvenCents, costsCents }: Result): string => {
  if (breakEvenCents === null) return '–'
  if (breakEvenCents > 0) return `${formatCents(breakEvenCents)} each`
  return costsCents > 0 ? 'any price: its costs are covered' : 'any price: no costs so far'
}
