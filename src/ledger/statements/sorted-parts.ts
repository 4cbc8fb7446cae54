// Turns a statement line and the choice made for it into entries and crossings: the bank's amount decides the signs.
import type { Day } from '#calendar/day.ts'
import { type Account, householdSide } from '#ledger/account.ts'
import { buildCrossing, type CrossingAccountOf, type CrossingResult } from '#ledger/crossing.ts'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import type { EntryGround } from '#ledger/entry.ts'
import { splitReceipt } from '#ledger/mixed-receipt.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { SortingTarget } from './sorting.ts'

/** The facts of a line that its entry needs. */
export interface LineToSort {
  accountId: number
  day: Day
  /** Into the account positive. */
  amount: Cents
  payee: string
  memo: string
}

/** `size` is positive as typed; the parts add up to the line's amount without its sign. Negative for something given back. */
export interface SplitPart {
  accountId: number
  size: Cents
  memo?: string
  enterpriseId?: string | null
  batchId?: string | null
}

export type LineChoice =
  | { kind: 'target'; target: SortingTarget; batchId?: string | null }
  | { kind: 'split'; parts: readonly SplitPart[] }

/** What to post under `id`. An account on another side makes the crossing that goes with it. */
export const sortedParts = (
  id: string,
  line: LineToSort,
  choice: LineChoice,
  ground: EntryGround,
  crossingAccount: CrossingAccountOf,
): CrossingResult => {
  if (choice.kind === 'target' && choice.target.kind === 'crossing')
    return crossingParts(id, line, choice.target, ground, crossingAccount)
  const parts =
    choice.kind === 'split'
      ? choice.parts
      : [
          {
            ...accountTarget(choice.target),
            size: cents(Math.abs(line.amount)),
            batchId: choice.batchId ?? null,
          },
        ]
  const problem = partsProblem(line, parts)
  if (problem) return { ok: false, problems: [problem] }
  const sign = line.amount < 0 ? 1 : -1
  const split = splitReceipt(
    {
      id,
      day: line.day,
      payee: line.payee,
      memo: line.memo,
      paidFromAccountId: line.accountId,
      lines: parts.map(({ accountId, size, memo, enterpriseId, batchId }) => ({
        accountId,
        amountCents: cents(sign * size),
        ...(memo ? { memo } : {}),
        enterpriseId: enterpriseId ?? null,
        batchId: batchId ?? null,
      })),
    },
    ground,
    crossingAccount,
  )
  if (!split.ok) return split
  return { ...split, entries: split.entries.map((entry) => ({ ...entry, source: 'statement' as const })) }
}

/** What a transfer between two sides most likely is; the person may say otherwise. */
export const likelyCrossing = (from: Pick<Account, 'sideId'>, to: Pick<Account, 'sideId'>): CrossingKind =>
  to.sideId === householdSide ? 'draw' : from.sideId === householdSide ? 'contribution' : 'loan'

const crossingParts = (
  id: string,
  line: LineToSort,
  target: Extract<SortingTarget, { kind: 'crossing' }>,
  ground: EntryGround,
  crossingAccount: CrossingAccountOf,
): CrossingResult => {
  const [fromAccountId, toAccountId] =
    line.amount < 0 ? [line.accountId, target.otherAccountId] : [target.otherAccountId, line.accountId]
  return buildCrossing(
    {
      id,
      kind: target.crossingKind,
      day: line.day,
      amountCents: cents(Math.abs(line.amount)),
      fromAccountId,
      toAccountId,
      payee: line.payee,
      memo: line.memo,
    },
    ground,
    crossingAccount,
    'statement',
  )
}

const accountTarget = (target: SortingTarget): { accountId: number; enterpriseId: string | null } => {
  if (target.kind !== 'account') throw new Error('A crossing is no account')
  return { accountId: target.accountId, enterpriseId: target.enterpriseId }
}

const partsProblem = (line: LineToSort, parts: readonly SplitPart[]): FieldProblem | null => {
  if (parts.length === 0) return { path: 'parts', message: 'Choose what the transaction was for' }
  if (parts.some((part) => part.accountId === line.accountId))
    return { path: 'parts', message: 'The transaction is in this account already. Choose what it was for' }
  const total = sumCents(parts.map((part) => part.size))
  const size = cents(Math.abs(line.amount))
  return total === size
    ? null
    : {
        path: 'parts',
        message: `The parts add up to ${formatCents(total)}, but the transaction is ${formatCents(size)}. Change a part`,
      }
}
