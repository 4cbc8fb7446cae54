// Whether a batch can be as it is noted: no more may leave it, be processed or weighed than there are.
import type { Day } from '#calendar/day.ts'
import type { BatchMarkKind, GoodsKind } from './kinds.ts'

/** Goods that left without money count like marks. */
export interface BatchNoted {
  day: Day
  kind: BatchMarkKind | GoodsKind
  quantity: number
}

/**
 * How many more of a batch can be noted so on a day. What leaves is no more than is left after everything noted, later days too; what
 * is processed or weighed no more than was alive that day.
 */
export const mostOfBatch = (
  size: number,
  noted: readonly BatchNoted[],
  { day, kind }: Pick<BatchNoted, 'day' | 'kind'>,
): number => {
  const left = noted.filter(leaves)
  switch (kind) {
    case 'weighed':
      return there(size - sumOf(left.filter((one) => one.day < day)))
    case 'processed':
      return there(size - sumOf(noted.filter((one) => one.kind === kind || isLost(one, day))))
    default:
      return there(size - sumOf(left))
  }
}

/** A batch was no smaller than all that left it. */
export const leastSizeOfBatch = (noted: readonly BatchNoted[]): number => there(sumOf(noted.filter(leaves)))

const leaves = ({ kind }: BatchNoted): boolean => kind !== 'weighed' && kind !== 'processed'

const isLost = (one: BatchNoted, by: Day): boolean => one.kind === 'lost' && one.day <= by

const sumOf = (some: readonly BatchNoted[]): number => some.reduce((sum, { quantity }) => sum + quantity, 0)

/** Sums of decimal quantities without what binary numbers add to them. */
export const exact = (value: number): number => Number(value.toFixed(6))

const there = (count: number): number => Math.max(0, exact(count))
