// An account held against a statement: what is ticked, what is missing, and which balance it leads to.
import { type Cents, cents } from '#money/cents.ts'

export interface ReconcileState {
  /** Balance of the last finished reconciliation. Ledger's sign, as all here. */
  previousBalanceCents: Cents
  statementBalanceCents: Cents
  tickedCents: Cents
}

/** What the ticks do not explain yet: zero when it can be finished. */
export const reconcileDifference = ({
  previousBalanceCents,
  statementBalanceCents,
  tickedCents,
}: ReconcileState): Cents => cents(statementBalanceCents - previousBalanceCents - tickedCents)

/** One unticked line, or a ticked one, whose amount is the difference, or half of it: the usual mistakes, to look at first. */
export const likelySlips = <Line extends { amountCents: Cents; ticked: boolean }>(
  difference: Cents,
  lines: readonly Line[],
): Line[] =>
  difference === 0
    ? []
    : lines.filter((line) =>
        line.ticked
          ? line.amountCents === -difference || line.amountCents * 2 === -difference
          : line.amountCents === difference,
      )
