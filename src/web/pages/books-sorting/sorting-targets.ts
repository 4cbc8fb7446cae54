// Where a line can go, as the words of a choice: `a:12` an account, `x:draw:7` a crossing, and proposals of their own.
import { type Account, householdSide, isMoney, type SideKind } from '#ledger/account.ts'
import {
  type CrossingKind,
  crossingKindNames,
  crossingKinds,
  directionProblem,
} from '#ledger/crossing-kind.ts'
import type { LoanBook } from '#ledger/loan-payment.ts'
import type { SortingTarget } from '#ledger/statements/sorting.ts'
import type { SplitShare } from '#ledger/statements/split-shares.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { Option } from '#views/parts/field.tsx'
import { kindNames, optionsByKind, type SideName } from '#web/forms/account-options.ts'

export const targetValue = (target: SortingTarget): string =>
  target.kind === 'account'
    ? `a:${target.accountId}${target.enterpriseId ? `:${target.enterpriseId}` : ''}`
    : `x:${target.crossingKind}:${target.otherAccountId}`

export const readTarget = (value: string): SortingTarget | null => {
  const account = /^a:(\d{1,15})(?::([\w-]{1,60}))?$/.exec(value)
  if (account)
    return {
      kind: 'account',
      accountId: Number.parseInt(account[1]!, 10),
      enterpriseId: account[2] ?? null,
    }
  const crossing = /^x:([a-z_]{1,30}):(\d{1,15})$/.exec(value)
  const kind = crossingKinds.find((each) => each === crossing?.[1])
  return crossing && kind
    ? { kind: 'crossing', crossingKind: kind, otherAccountId: Number.parseInt(crossing[2]!, 10) }
    : null
}

export interface TargetGround {
  accounts: readonly Account[]
  sides: readonly (SideName & { kind: SideKind })[]
}

/** A target in words: `Feed`, `Feed, Wrenfold` from another side, or `Owner's draw, Household checking`. */
export const targetName = (
  target: SortingTarget,
  { accounts, sides }: TargetGround,
  side?: string,
): string => {
  const id = target.kind === 'account' ? target.accountId : target.otherAccountId
  const account = accounts.find((each) => each.id === id)
  if (!account) return 'an account that is gone'
  if (target.kind === 'crossing') return `${crossingKindNames[target.crossingKind]}: ${account.name}`
  const where = sides.find((each) => each.id === account.sideId)?.name ?? ''
  const enterprise = target.enterpriseId ? ` (${target.enterpriseId})` : ''
  return `${account.name}${enterprise}${account.sideId === side ? '' : `, ${where}`}`
}

/** `Feed (60%), Household goods (the rest)`; `Off-farm pay, Federal taxes (less $150.00)` of what was paid net. */
export const sharesName = (shares: readonly SplitShare[], ground: TargetGround, side?: string): string =>
  shares
    .map((share) => `${targetName({ kind: 'account', ...share }, ground, side)}${shareSize(share, shares)}`)
    .join(', ')

const shareSize = ({ by, value }: SplitShare, shares: readonly SplitShare[]): string => {
  if (by === 'percent') return ` (${value / 100}%)`
  if (by === 'amount')
    return value < 0 ? ` (less ${formatCents(cents(-value))})` : ` (${formatCents(cents(value))})`
  const isWhole = shares.every((share) => share.by === 'rest' || (share.by === 'amount' && share.value < 0))
  return isWhole ? '' : ' (the rest)'
}

/** Without enterprise or batch, which have a field of their own. */
export const baseOf = (value: string): string => value.replace(/^(a:\d+):.+$/, '$1')

export const valueName = (value: string, ground: TargetGround, side: string | undefined): string => {
  const target = readTarget(value)
  return target ? targetName(target, ground, side) : 'As a rule splits it'
}

/** Choices for a line of `own`: its side's accounts by kind, crossings that the direction allows, the other sides' costs, paid for them or given back, and what the farm or a venture earned. */
export const targetOptions = (
  own: Account,
  isOut: boolean,
  { accounts, sides }: TargetGround,
  loans: LoanBook = new Map(),
): Option[] => {
  const open = accounts.filter((account) => account.crossingRole === null && account.archivedAt === null)
  const mine = open.filter((account) => account.sideId === own.sideId && account.id !== own.id)
  const elsewhere = open.filter((account) => account.sideId !== own.sideId)
  const others = elsewhere.filter(isMoney)
  const costs = elsewhere.filter(({ kind, systemRole }) => kind === 'expense' && !systemRole)
  const earned = isOut
    ? []
    : elsewhere.filter(
        ({ kind, sideId, systemRole }) => kind === 'income' && sideId !== householdSide && !systemRole,
      )
  const nameOf = (sideId: string) => sides.find((side) => side.id === sideId)?.name ?? ''
  const elsewhereAs = (account: Account, group: string): Option => ({
    value: `a:${account.id}`,
    label: targetName(
      { kind: 'account', accountId: account.id, enterpriseId: null },
      { accounts, sides },
      own.sideId,
    ),
    group: `${group}${nameOf(account.sideId)}`,
  })
  return [
    ...optionsByKind(mine, isOut ? ['expense'] : ['income']).map((option) => ({
      ...option,
      // A payment to a loan that has terms is booked in two parts.
      label:
        isOut && loans.has(Number.parseInt(option.value, 10))
          ? `${option.label}: interest and principal`
          : option.label,
      value: `a:${option.value}`,
    })),
    ...others.flatMap((other) =>
      offeredKinds
        .filter((kind) => {
          const [from, to] = isOut ? [own, other] : [other, own]
          return directionProblem(kind, from.sideId, to.sideId) === null
        })
        .map((kind) => ({
          value: `x:${kind}:${other.id}`,
          label: `${crossingKindNames[kind]} ${isOut ? 'to' : 'from'} ${other.name}`,
          group: `Crossing: ${nameOf(other.sideId)}`,
        })),
    ),
    // What is paid or comes in here for another side, or comes back of it, is a crossing by itself.
    ...earned.map((account) => elsewhereAs(account, earnedBy)),
    ...costs.map((account) => elsewhereAs(account, isOut ? paidFor : givenBack)),
  ]
}

const paidFor = 'Paid for '
const earnedBy = 'Earned by '
const givenBack = 'Given back of what was paid for '

/** Whether it is a cost or what was earned of another side than the line's. */
export const isPaidFor = ({ group }: Pick<Option, 'group'>): boolean =>
  [paidFor, earnedBy].some((words) => group?.startsWith(words))

/** As `targetOptions`, for a rule that holds for any account: every account of every side. */
export const ruleTargetOptions = ({ accounts, sides }: TargetGround): Option[] => {
  const open = accounts.filter((account) => account.crossingRole === null && account.archivedAt === null)
  const money = open.filter(isMoney)
  return [
    ...sides.flatMap((side) =>
      open
        .filter((account) => account.sideId === side.id)
        .map((account) => ({
          value: `a:${account.id}`,
          label: account.name,
          group: `${side.name}: ${kindNames[account.kind]}`,
        })),
    ),
    ...offeredKinds.flatMap((kind) =>
      money.map((account) => ({
        value: `x:${kind}:${account.id}`,
        label: account.name,
        group: `${crossingKindNames[kind]}, other end`,
      })),
    ),
  ]
}

/** Goods used at home move no money, so no statement line is one. */
const offeredKinds: readonly CrossingKind[] = crossingKinds.filter((kind) => kind !== 'goods_used_at_home')
