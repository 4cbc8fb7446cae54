// The desk where transactions wait: each with what is proposed for it, surest first. Reads only; sorting-store.ts carries out.
import type { Statement } from 'better-sqlite3'
import { and, asc, eq, ne, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { addDays } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import type { Books } from '#db/open.ts'
import { accounts, sides } from '#db/schema.ts'
import { statementLines } from '#db/schema-statements.ts'
import { daysBetweenHalves, type OpenPosting, pairWithBooks } from '#ledger/statements/matching.ts'
import { plainPayee, wordsOf } from '#ledger/statements/payee-text.ts'
import { type Suggestion, suggester } from '#ledger/statements/proposals.ts'
import type { SortingTarget } from '#ledger/statements/sorting.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import type { OwnAccount } from '#ledger/statements/transfer-words.ts'
import { pairTransfers, type TransferLine } from '#ledger/statements/transfers.ts'
import type { Cents } from '#money/cents.ts'
import { earlierLines } from './sorting-history.ts'
import { listRules } from './sorting-rule-store.ts'
import { countWaiting } from './waiting-lines.ts'

export interface WaitingLine {
  id: number
  accountId: number
  accountName: string
  sideId: string
  day: Day
  amount: Cents
  payee: string
  memo: string
  checkNumber: string
  state: 'unsorted' | 'doubtful'
  /** Why it is doubtful. */
  note: string
  /** The line it may replace. */
  correctsId: number | null
}

/** `entry`: the books hold it already. `transfer`: another account's statement shows the other half. `rule`: an earlier choice. */
export type LineProposal =
  | { kind: 'entry'; postingId: number; day: Day; payee: string; memo: string }
  | { kind: 'transfer'; otherLine: WaitingLine; isTold: boolean; isLearned: boolean }
  | ({ kind: 'rule' } & Suggestion)

export interface DeskLine {
  line: WaitingLine
  proposal: LineProposal | null
}

export interface Desk {
  lines: DeskLine[]
  /** All that wait, also beyond the ones looked at. */
  waiting: number
  doubtful: number
}

/** Lines looked at together, oldest first: halves of a transfer lie close to each other. */
const mostLines = 5000

export const sortingDesk = (books: Books, filter: { accountId?: number } = {}): Desk => {
  const all = waitingLines(books)
  const proposals = proposalsFor(books, all)
  const shown = all.filter((line) => filter.accountId === undefined || line.accountId === filter.accountId)
  const counts = countWaiting(books, filter.accountId)
  return {
    lines: shown.map((line) => ({ line, proposal: proposals.get(line.id) ?? null })),
    ...counts,
  }
}

export const findWaitingLines = (books: Books, ids: readonly number[]): WaitingLine[] =>
  ids.length === 0
    ? []
    : selectLines(books)
        .where(and(isAmong(statementLines.id, ids), sql`${statementLines.state} IN ('unsorted', 'doubtful')`))
        .all()
        .map(lineFrom)

/** Postings of these accounts that no statement line stands for, between two days. */
export const openPostings = (
  books: Books,
  accountIds: readonly number[],
  from: Day,
  to: Day,
): (OpenPosting & { payee: string; memo: string; entryNo: number })[] =>
  openPostingsStatement(books).all(JSON.stringify(accountIds), from, to) as (OpenPosting & {
    payee: string
    memo: string
    entryNo: number
  })[]

const prepared = new WeakMap<Books, Statement>()

const openPostingsStatement = (books: Books): Statement => {
  const known = prepared.get(books)
  if (known) return known
  const made = books.sqlite.prepare(
    `SELECT p.id AS postingId, p.account_id AS accountId, p.day, p.amount_cents AS amount, e.payee, e.memo, e.no AS entryNo
     FROM postings AS p INDEXED BY postings_register JOIN entries AS e ON e.no = p.entry_no
     WHERE p.account_id IN (SELECT value FROM json_each(?)) AND p.day BETWEEN ? AND ?
       AND e.source NOT IN ('opening', 'reversal')
       AND NOT EXISTS (SELECT 1 FROM statement_lines AS l WHERE l.posting_id = p.id)
       AND NOT EXISTS (SELECT 1 FROM entries AS r WHERE r.reverses_no = e.no)
     ORDER BY p.day, p.id`,
  )
  prepared.set(books, made)
  return made
}

const waitingLines = (books: Books): WaitingLine[] =>
  selectLines(books)
    .where(sql`state IN ('unsorted', 'doubtful')`)
    .orderBy(asc(statementLines.day), asc(statementLines.id))
    .limit(mostLines)
    .all()
    .map(lineFrom)

/** The surest proposal per line: an entry in the books, a transfer that its words tell, a rule. Doubtful transactions get none. */
const proposalsFor = (books: Books, lines: readonly WaitingLine[]): Map<number, LineProposal> => {
  const open = lines.filter((line) => line.state === 'unsorted')
  const proposals = new Map<number, LineProposal>()
  const [first, last] = [open[0], open.at(-1)]
  if (!first || !last) return proposals
  const postings = openPostings(
    books,
    [...new Set(open.map((line) => line.accountId))],
    addDays(first.day, -daysBetweenHalves),
    addDays(last.day, daysBetweenHalves),
  )
  const byPosting = new Map(postings.map((posting) => [posting.postingId, posting]))
  for (const { lineId, postingId } of pairWithBooks(open, postings)) {
    const { day, payee, memo } = byPosting.get(postingId)!
    proposals.set(lineId, { kind: 'entry', postingId, day, payee, memo })
  }
  const suggest = suggester(listRules(books), earlierLines(books))
  const byRule = new Map<number, Suggestion>()
  for (const line of open) {
    const suggestion = proposals.has(line.id) ? null : suggest({ ...line, text: textOfLine(line) })
    if (suggestion) byRule.set(line.id, suggestion)
  }
  proposeTransfers(books, open, proposals, byRule)
  for (const [id, suggestion] of byRule)
    if (!proposals.has(id)) proposals.set(id, { kind: 'rule', ...suggestion })
  return proposals
}

/** Below what a rule says, unless the rule itself sends the line to the other account. */
const proposeTransfers = (
  books: Books,
  open: readonly WaitingLine[],
  proposals: Map<number, LineProposal>,
  byRule: ReadonlyMap<number, Suggestion>,
): void => {
  const own = ownAccounts(books)
  const lines = open.flatMap((line): TransferLine[] => {
    if (proposals.has(line.id)) return []
    const rule = byRule.get(line.id)?.proposal
    const toOwn = rule && otherEnd(rule.target)
    const half = { ...line, text: textOfLine(line) }
    if (toOwn !== undefined && own.has(toOwn))
      return [{ ...half, onlyWith: toOwn, isLearned: rule?.how === 'equals' }]
    return rule && !isGuessed(rule) ? [] : [half]
  })
  const byId = new Map(open.map((line) => [line.id, line]))
  for (const { outLineId, inLineId, isTold, isLearned } of pairTransfers(lines, own)) {
    const isRuled = [outLineId, inLineId].some((id) => byRule.has(id))
    if (!isTold && isRuled) continue
    proposals.set(outLineId, { kind: 'transfer', otherLine: byId.get(inLineId)!, isTold, isLearned })
    proposals.set(inLineId, { kind: 'transfer', otherLine: byId.get(outLineId)!, isTold, isLearned })
  }
}

/** Whether the words of two lines alone tell that they are the halves of one transfer: then nothing is to be learned from it. */
export const tellsTransfer = (books: Books, halves: readonly WaitingLine[]): boolean => {
  const lines = halves.map((line) => ({ ...line, text: textOfLine(line) }))
  return pairTransfers(lines, ownAccounts(books)).some(({ isTold }) => isTold)
}

/** Told from another payee or account: what the other account's statement shows goes before. */
const isGuessed = ({ how }: Suggestion['proposal']): boolean =>
  how === 'similar' || how === 'elsewhere' || how === 'back'

const otherEnd = (target: SortingTarget): number =>
  target.kind === 'account' ? target.accountId : target.otherAccountId

/** Accounts that have statements of their own, as their names and numbers stand in each other's lines. */
const ownAccounts = (books: Books): Map<number, OwnAccount> =>
  new Map(
    books.db
      .select({
        id: accounts.id,
        name: accounts.name,
        side: sides.name,
        sideKind: sides.kind,
        bankKey: accounts.bankKey,
        kind: accounts.kind,
      })
      .from(accounts)
      .innerJoin(sides, eq(sides.id, accounts.sideId))
      .where(ne(accounts.cashRole, 'none'))
      .all()
      .map(({ id, name, side, sideKind, bankKey, kind }) => [
        id,
        {
          names: wordsOf(plainPayee(`${name} ${side} ${sideKind}`)),
          bankNumber: bankKey ?? '',
          isOwed: kind === 'liability',
        },
      ]),
  )

const selectLines = (books: Books) =>
  books.db
    .select({
      id: statementLines.id,
      accountId: statementLines.accountId,
      accountName: accounts.name,
      sideId: accounts.sideId,
      day: statementLines.day,
      amount: statementLines.amountCents,
      payee: statementLines.payee,
      memo: statementLines.memo,
      checkNumber: statementLines.checkNumber,
      state: statementLines.state,
      note: statementLines.note,
      correctsId: statementLines.correctsId,
    })
    .from(statementLines)
    .innerJoin(accounts, eq(accounts.id, statementLines.accountId))
    .$dynamic()

const lineFrom = (row: ReturnType<ReturnType<typeof selectLines>['all']>[number]): WaitingLine => ({
  ...row,
  checkNumber: row.checkNumber ?? '',
  state: row.state === 'doubtful' ? 'doubtful' : 'unsorted',
})
