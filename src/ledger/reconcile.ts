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
