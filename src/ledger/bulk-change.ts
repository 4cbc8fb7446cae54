// One change for many posted entries: what each would become when it is taken back and posted anew, or why it stays as it is.
import { type Day, dayName, monthOfDay } from '#calendar/day.ts'
import { monthName } from '#calendar/month.ts'
import { type Account, isMoney } from './account.ts'
import { balanceEntry, type EntryDraft, type EntryGround, type EntrySource } from './entry.ts'
import type { FieldProblem } from './problem.ts'
import type { PostedEntry } from './reversal.ts'

export interface BulkChange {
  /** What goes to another account: the lines chosen in a register, or all the other lines of their entries. */
  lines: 'chosen' | 'others'
  /** The account those lines go to; null leaves them where they are. */
  accountId: number | null
  /** The enterprise of what was bought or sold: null leaves it, an empty text takes it away. */
  enterpriseId: string | null
  /** Null leaves the text. */
  payee: string | null
  /** The note the register shows: of the line when it has one, else of the entry. Null leaves it. */
  memo: string | null
}

type Line = PostedEntry['lines'][number] & { postingId: number }

/** An entry with lines chosen in the register of one account, and what ties it down. */
export interface ChosenEntry {
  entry: Omit<PostedEntry, 'lines'> & { source: EntrySource; lines: readonly Line[] }
  registerAccountId: number
  chosen: ReadonlySet<number>
  reversedByNo: number | null
  /** Postings on finished statements, with the statement's day. */
  reconciledOn: ReadonlyMap<number, Day>
  /** Postings that a line of a bank's file stands for. */
  namedByBank: ReadonlySet<number>
}

export type Replacement = Omit<EntryDraft, 'id'>
export type BulkFate = { ok: true; replacement: Replacement } | { ok: false; why: string }

/** What one entry would become. Lines keep their order and number, so that what hangs on them can follow. */
export const fateOf = (chosen: ChosenEntry, change: BulkChange, ground: EntryGround): BulkFate => {
  const why = standingAlone(chosen, ground) ?? heldLines(chosen, change, ground)
  if (why !== null) return { ok: false, why }
  const replacement = changed(chosen, change, ground)
  if (isSame(chosen.entry, replacement)) return { ok: false, why: 'Nothing about it would change' }
  if (new Set(replacement.lines.map((line) => line.accountId)).size < 2)
    return {
      ok: false,
      why: `All of it would then stand in ${nameOf(ground, replacement.lines[0]!.accountId)}`,
    }
  const checked = balanceEntry({ ...replacement, id: chosen.entry.id }, ground)
  return checked.ok ? { ok: true, replacement } : { ok: false, why: checked.problems[0]!.message }
}

/** What is wrong with the change itself, whatever the entries. */
export const changeProblems = (
  change: BulkChange,
  register: Account,
  ground: EntryGround,
): FieldProblem[] => {
  const { accountId, enterpriseId, payee, memo } = change
  if (accountId === null && enterpriseId === null && payee === null && memo === null)
    return [{ path: 'account', message: 'Say what to change: an account, the payee, the note' }]
  if (accountId === null) return []
  const at = (message: string) => [{ path: 'account', message }]
  const account = ground.account(accountId)
  if (!account) return at('Choose an account from the list')
  if (account.sideId !== register.sideId)
    return at(`“${account.name}” is in other books. Choose an account of these books, or record a crossing`)
  if (account.archivedAt !== null)
    return at(`“${account.name}” was archived. Choose another account, or bring it back`)
  if (account.crossingRole !== null)
    return at(`“${account.name}” stands for the other side. Record a crossing instead`)
  if (account.id === register.id)
    return at(`This is the register of “${account.name}”. Choose another account`)
  return []
}

const standingAlone = ({ entry, reversedByNo }: ChosenEntry, ground: EntryGround): string | null => {
  if (entry.source === 'reversal') return 'It takes another entry back'
  if (reversedByNo !== null) return `It was reversed already, by entry ${reversedByNo}`
  if (entry.lines.some((line) => line.crossingId !== null))
    return 'It is half of a crossing. Reverse that on its own page, and record it again as it should be'
  const closed = ground.closedThrough(entry.sideId)
  if (closed !== null && monthOfDay(entry.day) <= closed)
    return `These books are closed through ${monthName(closed)}. Reopen the month first`
  return null
}

/** Why lines that would move cannot: a split says not which, and what a bank has on paper stays in its account. */
const heldLines = (chosen: ChosenEntry, change: BulkChange, ground: EntryGround): string | null => {
  const moving = movingLines(chosen, change)
  const tagged = taggedLines(chosen, change, ground)
  const fromAccounts = (lines: readonly Line[]) => new Set(lines.map((line) => line.accountId)).size
  const isSplit =
    (change.lines === 'others' && fromAccounts(moving) > 1) ||
    (tagged.some((line) => line.accountId !== chosen.registerAccountId) && fromAccounts(tagged) > 1)
  if (isSplit) return 'It is split over several accounts. Correct it by itself'
  for (const line of moving) {
    if (line.accountId === change.accountId) continue
    const statementDay = chosen.reconciledOn.get(line.postingId)
    const name = nameOf(ground, line.accountId)
    if (statementDay)
      return `Its line in ${name} is reconciled with the statement of ${dayName(statementDay)}`
    if (chosen.namedByBank.has(line.postingId))
      return `The bank's own file has this line in ${name}. Correct it by itself if the bank is wrong`
  }
  return null
}

const changed = (chosen: ChosenEntry, change: BulkChange, ground: EntryGround): Replacement => {
  const { entry } = chosen
  const moving = new Set(movingLines(chosen, change))
  const tagged = new Set(taggedLines(chosen, change, ground))
  const hasNote = (line: Line) => chosen.chosen.has(line.postingId) && line.memo !== ''
  const isNoteOfLines = entry.lines.some(hasNote)
  return {
    sideId: entry.sideId,
    day: entry.day,
    payee: change.payee ?? entry.payee,
    memo: change.memo === null || isNoteOfLines ? entry.memo : change.memo,
    source: entry.source,
    lines: entry.lines.map((line) => ({
      accountId: moving.has(line) ? change.accountId! : line.accountId,
      amountCents: line.amountCents,
      memo: change.memo !== null && hasNote(line) ? change.memo : line.memo,
      enterpriseId: tagged.has(line) ? change.enterpriseId || null : line.enterpriseId,
      batchId: line.batchId,
      crossingId: null,
    })),
  }
}

const movingLines = (chosen: ChosenEntry, change: BulkChange): readonly Line[] => {
  if (change.accountId === null) return []
  return change.lines === 'chosen' ? chosenLines(chosen) : otherLines(chosen)
}

/** An enterprise stands where something was bought or sold, never where the money lies. */
const taggedLines = (chosen: ChosenEntry, change: BulkChange, ground: EntryGround): readonly Line[] => {
  if (change.enterpriseId === null) return []
  const isOfMoney = (accountId: number) => isMoney(ground.account(accountId)!)
  return isOfMoney(chosen.registerAccountId)
    ? otherLines(chosen).filter((line) => !isOfMoney(line.accountId))
    : chosenLines(chosen)
}

const chosenLines = ({ entry, chosen }: ChosenEntry) =>
  entry.lines.filter((line) => chosen.has(line.postingId))

const otherLines = ({ entry, registerAccountId }: ChosenEntry) =>
  entry.lines.filter((line) => line.accountId !== registerAccountId)

const isSame = (entry: ChosenEntry['entry'], { payee, memo, lines }: Replacement): boolean =>
  payee === entry.payee &&
  memo === entry.memo &&
  lines.every((line, index) => {
    const before = entry.lines[index]!
    return (
      line.accountId === before.accountId &&
      line.memo === before.memo &&
      line.enterpriseId === before.enterpriseId
    )
  })

const nameOf = (ground: EntryGround, accountId: number): string => ground.account(accountId)?.name ?? ''
