// Carries out choices for statement lines, all of a form in one transaction: posts, matches, pairs, sets aside, and learns rules.
import type { Statement } from 'better-sqlite3'
import { and, eq } from 'drizzle-orm'
import { logChange } from '#db/change-log.ts'
import { crossingAccountId } from '#db/ledger/account-store.ts'
import { groundOf, type WrittenEntry, writeParts } from '#db/ledger/ledger-writer.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { statementLines } from '#db/schema-statements.ts'
import type { CrossingResult } from '#ledger/crossing.ts'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import type { EntryGround } from '#ledger/entry.ts'
import type { LoanBook } from '#ledger/loan-payment.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { likelyCrossing, type SplitPart, sortedParts } from '#ledger/statements/sorted-parts.ts'
import type { SortingTarget } from '#ledger/statements/sorting.ts'
import { laidOver, type SplitShare } from '#ledger/statements/split-shares.ts'
import { transferParts, transferTarget } from '#ledger/statements/transfer-parts.ts'
import { cents } from '#money/cents.ts'
import { forgetLineChoices } from './line-choices.ts'
import { splitByTerms } from './loan-splits.ts'
import { postedHalves } from './posted-halves.ts'
import { settleCorrection } from './replaced-lines.ts'
import { RuleTeacher } from './rule-teacher.ts'
import { nothingSorted, type Sorted, type SortingOptions, type TaughtRule } from './sorted.ts'
import { findWaitingLines, tellsTransfer, type WaitingLine } from './sorting-desk.ts'
import { findRule } from './sorting-rule-store.ts'
import { sharesToKeep } from './split-before.ts'

export type Sorting = { lineId: number } & (
  | { kind: 'target'; target: SortingTarget; batchId?: string | null }
  /** `keep`: the next bills of the payee are split so too, or with `keepFor: 'amount'` those of the very same amount. */
  | { kind: 'split'; parts: readonly SplitPart[]; keep?: readonly SplitShare[]; keepFor?: 'amount' }
  /** As a rule splits it. */
  | { kind: 'rule'; ruleId: string }
  /** The books hold it already. */
  | { kind: 'entry'; postingId: number }
  /** The other half, in another account's statement. `crossingKind` only between sides; the likely one when left out. */
  | { kind: 'transfer'; otherLineId: number; crossingKind?: CrossingKind }
  | { kind: 'ignore'; note: string }
  /** A doubtful line that is a movement of its own after all. */
  | { kind: 'genuine' }
  /** A doubtful line that is a kept one in a later form: it takes its place. */
  | { kind: 'replace' }
)

/**
 * Each line once; a line that is no longer waiting is refused by name, and then nothing is done. Problems have the path
 * `lines.<line id>`. A line sorted to another bank account whose half was posted from there already is matched, not posted again.
 */
export const sortLines = (
  books: Books,
  act: Act,
  sortings: readonly Sorting[],
  options: SortingOptions = {},
): Outcome<Sorted> =>
  once(books, act, 'lines.sort', sortings, () => {
    const desk = new Sorter(books, act, sortings, options)
    const problems: FieldProblem[] = []
    for (const sorting of sortings) {
      const found = desk.sort(sorting)
      problems.push(...found.map(({ message }) => ({ path: `lines.${sorting.lineId}`, message })))
    }
    if (problems.length > 0) return refuse(...problems)
    desk.finish()
    logChange(books, act, {
      kind: 'lines.sorted',
      subject: act.formId,
      summary: summaryOf(desk.result),
      details: { ...desk.result, lines: desk.sorted, taught: desk.taught },
    })
    return { ok: true, result: desk.result }
  })

/** "Transactions were sorted: 3 booked, 1 skipped". */
const summaryOf = ({ posted, matched, setAside, madeGenuine, replaced }: Sorted): string => {
  const says = [
    posted > 0 ? `${posted} booked` : '',
    matched > 0 ? `${matched} matched to what the books had` : '',
    setAside > 0 ? `${setAside} skipped` : '',
    replaced > 0 ? `${replaced} put in place of an earlier form` : '',
    madeGenuine > 0 ? `${madeGenuine} doubtful ones taken as their own` : '',
  ].filter(Boolean)
  return `Transactions were sorted: ${says.join(', ')}`
}

type SplitSorting = Extract<Sorting, { kind: 'split' }> & { byRule?: string }
type Problems = readonly { message: string }[]
const none: Problems = []
const gone: Problems = [{ message: 'This transaction was sorted meanwhile. Open the page again to see how' }]

class Sorter {
  readonly result = nothingSorted()
  /** The lines that wait no more: what taking it back needs. */
  readonly sorted: number[] = []
  readonly #books: Books
  readonly #act: Act
  readonly #rules: RuleTeacher
  readonly #loans: LoanBook
  readonly #ground: EntryGround
  readonly #waiting: Map<number, WaitingLine>
  readonly #pairs = new Set<string>()
  readonly #updateLine: Statement
  readonly #postedHalf: ReturnType<typeof postedHalves>

  constructor(books: Books, act: Act, sortings: readonly Sorting[], options: SortingOptions) {
    this.#books = books
    this.#act = act
    this.#rules = new RuleTeacher(books, act, options.learn ?? true)
    this.#loans = options.loans ?? new Map()
    this.#ground = groundOf(books)
    this.#postedHalf = postedHalves(books, this.#ground)
    this.#updateLine = books.sqlite.prepare(
      'UPDATE statement_lines SET state = ?, posting_id = ?, rule_id = ?, sorted_at = ? WHERE id = ?',
    )
    const ids = sortings.flatMap((each) =>
      each.kind === 'transfer' ? [each.lineId, each.otherLineId] : [each.lineId],
    )
    this.#waiting = new Map(findWaitingLines(books, [...new Set(ids)]).map((line) => [line.id, line]))
  }

  get taught(): readonly TaughtRule[] {
    return this.#rules.taught
  }

  sort(sorting: Sorting): Problems {
    // A form that confirms both halves of a transfer names it twice.
    if (sorting.kind === 'transfer' && this.#pairs.has(pairKey(sorting.lineId, sorting.otherLineId)))
      return none
    const line = this.#waiting.get(sorting.lineId)
    if (!line) return gone
    if (sorting.kind === 'ignore') return this.#setAside(line, sorting.note)
    if (sorting.kind === 'genuine') return this.#makeGenuine(line)
    if (sorting.kind === 'replace') return this.#replace(line)
    if (line.state === 'doubtful')
      return [{ message: 'Say first whether this doubtful one is a transaction of its own' }]
    if (sorting.kind === 'entry') return this.#match(line, sorting.postingId)
    if (sorting.kind === 'transfer') return this.#pair(line, sorting.otherLineId, sorting.crossingKind)
    return sorting.kind === 'rule' ? this.#bySplitRule(line, sorting.ruleId) : this.#post(line, sorting)
  }

  #bySplitRule(line: WaitingLine, ruleId: string): Problems {
    const split = findRule(this.#books, ruleId)?.split
    const parts = split ? laidOver(split, cents(Math.abs(line.amount))) : null
    if (parts === null)
      return [{ message: 'It cannot be split by that rule. Press “Split” and say what its parts are' }]
    const problems = this.#post(line, { lineId: line.id, kind: 'split', parts, byRule: ruleId })
    if (problems.length === 0) this.#rules.used(ruleId)
    return problems
  }

  #post(line: WaitingLine, sorting: Extract<Sorting, { kind: 'target' }> | SplitSorting): Problems {
    const half = sorting.kind === 'target' ? this.#postedHalf(line, sorting.target) : null
    if (half !== null) {
      const problems = this.#match(line, half)
      if (problems.length === 0 && sorting.kind === 'target') this.#rules.learnFrom(line, sorting.target)
      return problems
    }
    const split = splitByTerms(this.#books, this.#loans, line, sorting)
    this.result.loanInterestCents += split.interestCents
    const parts = sortedParts(this.#entryId(line), line, split.choice, this.#ground, this.#crossingAccount)
    const written = this.#write(parts)
    if (!written.ok) return written.problems
    const ruleId =
      sorting.kind === 'target'
        ? this.#rules.learnFrom(line, sorting.target, sorting.batchId)
        : this.#rules.keepSplit(line, sharesToKeep(this.#books, line, sorting), sorting.keepFor === 'amount')
    this.#link(line, written.entries, parts, 'posted', ruleId)
    this.result.posted += 1
    return none
  }

  #match(line: WaitingLine, postingId: number): Problems {
    const posting = this.#books.sqlite
      .prepare(
        `SELECT p.account_id AS accountId, p.amount_cents AS amount,
           EXISTS (SELECT 1 FROM statement_lines WHERE posting_id = p.id) AS taken
         FROM postings AS p WHERE p.id = ?`,
      )
      .get(postingId) as { accountId: number; amount: number; taken: 0 | 1 } | undefined
    if (!posting || posting.accountId !== line.accountId || posting.amount !== line.amount)
      return [{ message: 'That entry has another account or amount. Choose another one' }]
    if (posting.taken)
      return [{ message: 'Another transaction belongs to that entry already. Open the page again' }]
    this.#setState(line, 'matched', postingId, null)
    this.result.matched += 1
    return none
  }

  #pair(line: WaitingLine, otherLineId: number, crossingKind?: CrossingKind): Problems {
    const other = this.#waiting.get(otherLineId)
    if (other?.state !== 'unsorted') return gone
    if (other.accountId === line.accountId || other.amount !== -line.amount)
      return [{ message: 'The two transactions are not the halves of one transfer' }]
    const [out, into] = line.amount < 0 ? [line, other] : [other, line]
    const kind = out.sideId === into.sideId ? null : (crossingKind ?? likelyCrossing(out, into))
    const parts = transferParts(this.#entryId(out), [out, into], kind, {
      ground: this.#ground,
      crossingAccount: this.#crossingAccount,
    })
    const written = this.#write(parts)
    if (!written.ok) return written.problems
    // What the words do not tell was confirmed by a person: the next one of these two need not be asked about.
    const isNews = !tellsTransfer(this.#books, [out, into])
    const taught = (half: WaitingLine, far: WaitingLine) =>
      isNews ? this.#rules.learnFrom(half, transferTarget(far.accountId, kind)) : null
    this.#link(out, written.entries, parts, 'posted', taught(out, into))
    this.#link(into, written.entries, parts, 'matched', taught(into, out))
    this.#pairs.add(pairKey(line.id, otherLineId))
    this.result.posted += 1
    this.result.matched += 1
    return none
  }

  #setAside(line: WaitingLine, note: string): Problems {
    this.#books.db
      .update(statementLines)
      .set({ state: 'ignored', note: note.slice(0, 500) || line.note, sortedAt: this.#act.at })
      .where(eq(statementLines.id, line.id))
      .run()
    this.#leaves(line)
    this.result.setAside += 1
    return none
  }

  #makeGenuine(line: WaitingLine): Problems {
    this.#books.db
      .update(statementLines)
      .set({ state: 'unsorted', correctsId: null, correction: null })
      .where(and(eq(statementLines.id, line.id), eq(statementLines.state, 'doubtful')))
      .run()
    this.#waiting.set(line.id, { ...line, state: 'unsorted' })
    this.result.madeGenuine += 1
    return none
  }

  #replace(line: WaitingLine): Problems {
    const part = { ...this.#act, formId: `${this.#entryId(line)}.replace` }
    const settled = settleCorrection(this.#books, part, line.id)
    if (!settled.ok) return settled.problems
    this.#leaves(line)
    this.result.replaced += 1
    return none
  }

  /** What is written once for the whole form. */
  finish(): void {
    forgetLineChoices(this.#books, this.sorted)
    this.#rules.finish()
    this.result.rulesLearned = this.#rules.learned
  }

  #write(parts: CrossingResult): { ok: true; entries: WrittenEntry[] } | { ok: false; problems: Problems } {
    return parts.ok ? writeParts(this.#books, this.#act.at, parts, this.#ground) : parts
  }

  #link(
    line: WaitingLine,
    written: readonly WrittenEntry[],
    parts: CrossingResult,
    state: 'posted' | 'matched',
    ruleId: string | null,
  ): void {
    const drafts = parts.ok ? parts.entries : []
    for (const [at, draft] of drafts.entries()) {
      const index = draft.lines.findIndex(
        (each) => each.accountId === line.accountId && each.amountCents === line.amount,
      )
      if (index < 0) continue
      this.#setState(line, state, written[at]!.postingIds[index]!, ruleId)
      return
    }
    throw new Error(`No posting in account ${line.accountId} counts as transaction ${line.id}`)
  }

  #setState(line: WaitingLine, state: 'posted' | 'matched', postingId: number, ruleId: string | null): void {
    this.#updateLine.run(state, postingId, ruleId, this.#act.at, line.id)
    this.#leaves(line)
  }

  #leaves(line: WaitingLine): void {
    this.#waiting.delete(line.id)
    this.sorted.push(line.id)
  }

  #entryId(line: WaitingLine): string {
    return `${this.#act.formId}.${line.id}`
  }

  readonly #crossingAccount = (side: string, other: string, role: Parameters<typeof crossingAccountId>[4]) =>
    crossingAccountId(this.#books, this.#act.at, side, other, role)
}

const pairKey = (one: number, other: number): string => `${Math.min(one, other)}|${Math.max(one, other)}`
