// A crossing as two balanced halves, and a mixed receipt as the entries and crossings it is made of.
import type { Day } from '#calendar/day.ts'
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import { type Account, type CrossingRole, householdSide, type SideId } from './account.ts'
import { type CrossingKind, crossingKindNames, crossingRolesOf, directionProblem } from './crossing-kind.ts'
import type { DraftLine, EntryDraft, EntryGround, EntrySource } from './entry.ts'
import type { FieldProblem } from './problem.ts'
import type { SimpleLine } from './simple-entry.ts'

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
        message: `“${account.name}” was put away. Choose another account, or take it up again`,
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

export interface MixedReceiptDraft {
  id: string
  day: Day
  payee: string
  memo: string
  paidFromAccountId: number
  /** Lines for accounts of any side; a discount or a return is negative. */
  lines: readonly SimpleLine[]
  /** How another side's part is crossed; a draw or a contribution where the household is one of the two, else a loan. */
  kindFor?: Readonly<Record<SideId, CrossingKind>>
}

/** One purchase for several sides: the paying side's entry, one entry per other side, and the crossing between them. */
export const splitReceipt = (
  draft: MixedReceiptDraft,
  ground: EntryGround,
  crossingAccount: CrossingAccountOf,
): CrossingResult => {
  const paidFrom = ground.account(draft.paidFromAccountId)
  const problems = receiptProblems(draft, ground, paidFrom)
  if (problems.length > 0 || !paidFrom) return { ok: false, problems }
  const paying = paidFrom.sideId
  const sideOf = (line: SimpleLine) => ground.account(line.accountId)!.sideId
  const others = [...new Set(draft.lines.map(sideOf))].filter((side) => side !== paying)
  const parts = others.map((side, index) =>
    otherSidePart(
      draft,
      paying,
      side,
      index,
      draft.lines.filter((line) => sideOf(line) === side),
      crossingAccount,
    ),
  )
  const wrong = parts.flatMap((part) => part.problems)
  if (wrong.length > 0) return { ok: false, problems: wrong }
  const total = sumCents(draft.lines.map((line) => line.amountCents))
  const payingEntry: EntryDraft = {
    ...headOf(draft),
    id: `${draft.id}.1`,
    sideId: paying,
    lines: [
      ...draft.lines.filter((line) => sideOf(line) === paying),
      ...parts.flatMap((part) => part.payingLine ?? []),
      { accountId: paidFrom.id, amountCents: negateCents(total) },
    ],
  }
  return {
    ok: true,
    crossings: parts.flatMap((part) => part.crossing ?? []),
    entries: [payingEntry, ...parts.map((part) => part.entry)],
  }
}

interface OtherSidePart {
  problems: FieldProblem[]
  crossing: CrossingRecord | null
  entry: EntryDraft
  payingLine: DraftLine | null
}

const otherSidePart = (
  draft: MixedReceiptDraft,
  paying: SideId,
  side: SideId,
  index: number,
  lines: readonly SimpleLine[],
  crossingAccount: CrossingAccountOf,
): OtherSidePart => {
  const subtotal = sumCents(lines.map((line) => line.amountCents))
  const entry: EntryDraft = { ...headOf(draft), id: `${draft.id}.${index + 2}`, sideId: side, lines }
  if (subtotal === 0) return { problems: [], crossing: null, entry, payingLine: null }
  // Goods the other side gave back come the other way: the value leaves that side and reaches the paying one.
  const [from, to] = subtotal > 0 ? [paying, side] : [side, paying]
  const kind = draft.kindFor?.[side] ?? usualKind(from, to)
  const direction = directionProblem(kind, from, to)
  const roles = crossingRolesOf[kind]
  const [payingRole, otherRole] =
    subtotal > 0 ? [roles.leaving, roles.reaching] : [roles.reaching, roles.leaving]
  const id = `${draft.id}.${side}`
  const crossing: CrossingRecord = {
    id,
    kind,
    day: draft.day,
    amountCents: cents(Math.abs(subtotal)),
    fromSideId: from,
    toSideId: to,
    memo: draft.memo || draft.payee,
    goods: null,
  }
  return {
    problems: direction ? [{ path: 'lines', message: direction }] : [],
    crossing,
    entry: {
      ...entry,
      lines: [
        ...lines,
        {
          accountId: crossingAccount(side, paying, otherRole),
          amountCents: negateCents(subtotal),
          crossingId: id,
        },
      ],
    },
    payingLine: {
      accountId: crossingAccount(paying, side, payingRole),
      amountCents: subtotal,
      crossingId: id,
    },
  }
}

const headOf = (draft: MixedReceiptDraft) => ({
  day: draft.day,
  payee: draft.payee,
  memo: draft.memo,
  source: 'receipt' as const,
})

const usualKind = (from: SideId, to: SideId): CrossingKind =>
  to === householdSide ? 'draw' : from === householdSide ? 'contribution' : 'loan'

const receiptProblems = (
  draft: MixedReceiptDraft,
  ground: EntryGround,
  paidFrom: Account | undefined,
): FieldProblem[] => {
  const problems: FieldProblem[] = []
  if (!paidFrom) problems.push({ path: 'paidFrom', message: 'Choose the account it was paid from' })
  if (draft.lines.length === 0) problems.push({ path: 'lines', message: 'Enter at least one line' })
  draft.lines.forEach((line, index) => {
    const account = ground.account(line.accountId)
    if (!account)
      problems.push({ path: `lines.${index}.account`, message: 'Choose an account from the list' })
    else if (account.crossingRole !== null)
      problems.push({
        path: `lines.${index}.account`,
        message: `“${account.name}” is filled by the crossing itself. Choose what the line was for`,
      })
    else if (account.archivedAt !== null)
      problems.push({
        path: `lines.${index}.account`,
        message: `“${account.name}” was put away. Choose another account, or take it up again`,
      })
    if (line.amountCents === 0)
      problems.push({ path: `lines.${index}.amount`, message: 'Enter an amount, like 12.34' })
  })
  if (problems.length === 0 && sumCents(draft.lines.map((line) => line.amountCents)) === 0)
    problems.push({ path: 'lines', message: 'The lines add up to nothing. Check the amounts' })
  return problems
}
