// Tries a rule on lines already sorted: what it would have caught, and where the choice made then differs.
import { proposer, type SortableLine, type SortingRule, type SortingTarget, sameTarget } from './sorting.ts'

export interface HistoryLine extends SortableLine {
  id: number
  /** Where the line went; null while it is unsorted, `other` when it was split, matched by hand or set aside. */
  went: SortingTarget | 'other' | null
}

export type DryRunOutcome = 'same' | 'different' | 'unsorted' | 'other'

export interface DryRun<Line extends HistoryLine = HistoryLine> {
  counts: Record<DryRunOutcome, number>
  caught: { line: Line; outcome: DryRunOutcome }[]
  /** Lines whose text the rule fits but where another rule goes first. */
  overruled: number
}

/** Runs `draft` among the other rules over history, in the order given. */
export const dryRun = <Line extends HistoryLine>(
  draft: SortingRule,
  others: readonly SortingRule[],
  history: readonly Line[],
): DryRun<Line> => {
  const alone = proposer([draft])
  const together = proposer([draft, ...others.filter((rule) => rule.id !== draft.id)])
  const result: DryRun<Line> = {
    counts: { same: 0, different: 0, unsorted: 0, other: 0 },
    caught: [],
    overruled: 0,
  }
  for (const line of history) {
    if (!alone(line)) continue
    if (together(line)?.ruleId !== draft.id) {
      result.overruled += 1
      continue
    }
    const outcome = outcomeOf(line.went, draft.target)
    result.counts[outcome] += 1
    result.caught.push({ line, outcome })
  }
  return result
}

const outcomeOf = (went: HistoryLine['went'], target: SortingTarget): DryRunOutcome => {
  if (went === null) return 'unsorted'
  if (went === 'other') return 'other'
  return sameTarget(went, target) ? 'same' : 'different'
}
