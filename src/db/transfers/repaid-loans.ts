// A repayment between two sides needs a loan between them: without one it would lower what the side owes to others.
import type { Books } from '#db/open.ts'
import { householdSide, type SideId } from '#ledger/account.ts'
import type { CrossingRecord } from '#ledger/crossing.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'

type Crossing = CrossingRecord & { reversesId?: string }

/** Loans and repayments written together count in the order of their days. What takes a crossing back is no repayment. */
export const repaymentProblems = (books: Books, crossings: readonly Crossing[]): FieldProblem[] => {
  if (!crossings.some(isRepayment)) return []
  const owed = new Map<string, number>()
  const owes = (from: SideId, to: SideId): number => owed.get(`${from} ${to}`) ?? owedBetween(books, from, to)
  const move = (from: SideId, to: SideId, by: number) => owed.set(`${from} ${to}`, owes(from, to) + by)
  const problems: FieldProblem[] = []
  // A loan of the same day comes before its repayment.
  const inOrder = [...crossings].sort((a, b) =>
    a.day === b.day ? Number(a.kind !== 'loan') - Number(b.kind !== 'loan') : a.day < b.day ? -1 : 1,
  )
  for (const one of inOrder) {
    const { kind, fromSideId, toSideId, amountCents } = one
    if (kind === 'loan' && one.reversesId === undefined) move(toSideId, fromSideId, amountCents)
    if (!isRepayment(one)) continue
    const left = owes(fromSideId, toSideId)
    if (amountCents > left) problems.push(problemOf(books, one, cents(Math.max(0, left))))
    else move(fromSideId, toSideId, -amountCents)
  }
  return problems
}

const isRepayment = ({ kind, reversesId }: Crossing): boolean =>
  kind === 'repayment' && reversesId === undefined

/** What the first side has borrowed of the second and not paid back, on any day. */
const owedBetween = (books: Books, from: SideId, to: SideId): number =>
  -(books.sqlite
    .prepare(
      `SELECT coalesce(sum(years.sum_cents), 0) FROM accounts JOIN account_years AS years ON years.account_id = accounts.id
       WHERE accounts.side_id = ? AND accounts.crossing_side_id = ? AND accounts.crossing_role = 'borrowed'`,
    )
    .pluck()
    .get(from, to) as number)

const problemOf = (books: Books, { fromSideId, toSideId }: Crossing, left: Cents): FieldProblem => {
  const [payer, lender] = [fromSideId, toSideId].map((id) => nameOf(books, id)) as [string, string]
  if (left > 0)
    return {
      path: 'amount',
      message: `“${payer}” owes “${lender}” ${formatCents(left)} in these books: enter that or less`,
    }
  const instead =
    toSideId === householdSide
      ? 'or record a draw'
      : fromSideId === householdSide
        ? 'or record a contribution'
        : 'or choose the sides of the loan'
  return {
    path: 'toAccount',
    message: `“${payer}” owes “${lender}” nothing in these books, so there is no loan to repay. Record the loan first, ${instead}. What a bank is paid on a loan is an entry of one side`,
  }
}

const nameOf = (books: Books, id: SideId): string =>
  books.sqlite.prepare('SELECT name FROM sides WHERE id = ?').pluck().get(id) as string
