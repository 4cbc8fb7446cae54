// A mixed receipt: one purchase for several sides, as the entries and the crossings it is made of.
import type { Day } from '#calendar/day.ts'
import { cents, negateCents, sumCents } from '#money/cents.ts'
import { type Account, householdSide, type SideId } from './account.ts'
import type { CrossingAccountOf, CrossingRecord, CrossingResult } from './crossing.ts'
import { type CrossingKind, crossingRolesOf, directionProblem } from './crossing-kind.ts'
import type { DraftLine, EntryDraft, EntryGround } from './entry.ts'
import type { FieldProblem } from './problem.ts'
import type { SimpleLine } from './simple-entry.ts'

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
        message: `“${account.name}” was archived. Choose another account, or bring it back`,
      })
    if (line.amountCents === 0)
      problems.push({ path: `lines.${index}.amount`, message: 'Enter an amount, like 12.34' })
  })
  if (problems.length === 0 && sumCents(draft.lines.map((line) => line.amountCents)) === 0)
    problems.push({ path: 'lines', message: 'The lines add up to nothing. Check the amounts' })
  return problems
}
