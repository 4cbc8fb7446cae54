// A crossing as two balanced halves: what leaves one side's books reaches the other's in the same amount on the same day.
import type { Day } from '#calendar/day.ts'
import { type Cents, cents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import type { Account, CrossingRole, SideId } from './account.ts'
import { type CrossingKind, crossingKindNames, crossingRolesOf, directionProblem } from './crossing-kind.ts'
import type { EntryDraft, EntryGround, EntrySource } from './entry.ts'
import type { FieldProblem } from './problem.ts'

export interface CrossingDraft {
  id: string
  kind: CrossingKind
  day: Day
  amountCents: Cents
  /** The account the value leaves: a bank account, or for goods the farm's “value of goods used at home”. */
  fromAccountId: number
  /** The account it reaches: a bank account, or what was bought with it. */
  toAccountId: number
  payee?: string
  memo: string
  goods?: Goods | null
}

/** Farm goods used at home: so many of a unit at a price each. */
export interface Goods {
  quantity: number
  unit: string
  unitPriceCents: Cents
}

/** The value of the goods, rounded once to the cent. */
export const goodsValue = ({ quantity, unitPriceCents }: Goods): Cents =>
  cents(new Decimal(quantity).times(unitPriceCents).toDecimalPlaces(0).toNumber())

export interface CrossingRecord {
  id: string
  kind: CrossingKind
  day: Day
  amountCents: Cents
  fromSideId: SideId
  toSideId: SideId
  memo: string
  goods: Goods | null
}

/** The account on `side` that stands for `other` in a role; the store makes it when it is missing. */
export type CrossingAccountOf = (side: SideId, other: SideId, role: CrossingRole) => number

export interface CrossingParts {
  crossings: CrossingRecord[]
  entries: EntryDraft[]
}

export type CrossingResult = ({ ok: true } & CrossingParts) | { ok: false; problems: FieldProblem[] }

/** One crossing: an entry in the books the value leaves and one in those it reaches. */
export const buildCrossing = (
  draft: CrossingDraft,
  ground: EntryGround,
  crossingAccount: CrossingAccountOf,
  source: EntrySource = 'crossing',
): CrossingResult => {
  const from = ground.account(draft.fromAccountId)
  const to = ground.account(draft.toAccountId)
  const problems = crossingProblems(draft, from, to)
  if (problems.length > 0 || !from || !to) return { ok: false, problems }
  const roles = crossingRolesOf[draft.kind]
  const half = (
    account: Account,
    other: Account,
    sign: 1 | -1,
    role: CrossingRole,
    part: number,
  ): EntryDraft => ({
    id: `${draft.id}.${part}`,
    sideId: account.sideId,
    day: draft.day,
    payee: draft.payee ?? '',
    memo: draft.memo || crossingKindNames[draft.kind],
    source,
    lines: [
      { accountId: account.id, amountCents: cents(-sign * draft.amountCents) },
      {
        accountId: crossingAccount(account.sideId, other.sideId, role),
        amountCents: cents(sign * draft.amountCents),
        crossingId: draft.id,
      },
    ],
  })
  return {
    ok: true,
    crossings: [
      {
        id: draft.id,
        kind: draft.kind,
        day: draft.day,
        amountCents: draft.amountCents,
        fromSideId: from.sideId,
        toSideId: to.sideId,
        memo: draft.memo,
        goods: draft.goods ?? null,
      },
    ],
    entries: [half(from, to, 1, roles.leaving, 1), half(to, from, -1, roles.reaching, 2)],
  }
}

const crossingProblems = (
  draft: CrossingDraft,
  from: Account | undefined,
  to: Account | undefined,
): FieldProblem[] => {
  const problems: FieldProblem[] = []
  if (draft.amountCents <= 0)
    problems.push({ path: 'amount', message: 'Enter an amount above zero, like 12.34' })
  const ends = [
    ['fromAccount', from],
    ['toAccount', to],
  ] as const
  for (const [path, account] of ends) {
    if (!account) problems.push({ path, message: 'Choose an account from the list' })
    else if (account.crossingRole !== null)
      problems.push({
        path,
        message: `“${account.name}” is filled by crossings. Choose the account the money is in`,
      })
    else if (account.archivedAt !== null)
      problems.push({
        path,
        message: `“${account.name}” was archived. Choose another account, or bring it back`,
      })
  }
  if (from && to) {
    const direction = directionProblem(draft.kind, from.sideId, to.sideId)
    if (direction) problems.push({ path: 'toAccount', message: direction })
  }
  if (draft.kind === 'goods_used_at_home') problems.push(...goodsProblems(draft))
  return problems
}

const goodsProblems = ({ goods, amountCents }: CrossingDraft): FieldProblem[] => {
  if (!goods) return [{ path: 'quantity', message: 'Enter how much was used and what one of it sells for' }]
  if (!(goods.quantity > 0)) return [{ path: 'quantity', message: 'Enter how much was used, like 12 or 1.5' }]
  if (!(goods.unitPriceCents > 0))
    return [{ path: 'unitPrice', message: 'Enter what one of it sells for, like 4.50' }]
  return goodsValue(goods) === amountCents
    ? []
    : [{ path: 'amount', message: 'Leave the amount empty: it is the quantity times the price' }]
}
