// "What was it for?": another account, on either side or split, for money that moved; the reversing pair is made underneath.
import type { Day } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { crossingAccountId } from '#db/ledger/account-store.ts'
import { type EntryRecord, entryByNo, reversalOfEntry, wholeOf } from '#db/ledger/entry-reader.ts'
import { groundOf } from '#db/ledger/ledger-writer.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { isMoney } from '#ledger/account.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { type LineToSort, type SplitPart, sortedParts } from '#ledger/statements/sorted-parts.ts'
import { putInstead } from './put-instead.ts'

export interface Purpose {
  entry: EntryRecord
  /** The money that moved: what the bank has on paper stays as it is. */
  line: LineToSort
  /** What it was for so far, as positive sizes that add up to the money. */
  parts: SplitPart[]
}

/** The money of an entry and what it was for, or why that cannot be asked of it. Reads only. */
export const purposeOf = (
  books: Books,
  entryNo: number,
): { ok: true; purpose: Purpose } | { ok: false; why: string } => {
  const entry = entryByNo(books, entryNo)
  if (!entry) return { ok: false, why: 'There is no entry of this number.' }
  if (entry.source === 'reversal') return { ok: false, why: 'It takes another entry back.' }
  if (reversalOfEntry(books, entry.no)) return { ok: false, why: 'It was reversed already.' }
  const ground = groundOf(books)
  const whole = wholeOf(books, entry).entries
  const isOfMoney = (line: { accountId: number; crossingId: string | null }) =>
    line.crossingId === null && isMoney(ground.account(line.accountId)!)
  const own = entry.lines.filter(isOfMoney)
  const money = own.length > 0 ? own : whole.flatMap(({ lines }) => lines.filter(isOfMoney))
  const [moved] = money
  if (!moved || money.length > 1)
    return {
      ok: false,
      why: 'It does not say which money moved for what: correct it by its debits and credits, or reverse it.',
    }
  const holder = whole.find(({ lines }) => lines.some((line) => line === moved)) ?? entry
  const sign = moved.amountCents < 0 ? 1 : -1
  const parts = whole
    .flatMap(({ lines }) => lines)
    .filter((line) => line !== moved && line.crossingId === null)
    .map(({ accountId, amountCents, enterpriseId, memo }) => ({
      accountId,
      size: (sign * amountCents) as SplitPart['size'],
      enterpriseId,
      memo,
    }))
  const { payee, memo, day } = holder
  return {
    ok: true,
    purpose: {
      entry,
      line: { accountId: moved.accountId, day, amount: moved.amountCents, payee, memo },
      parts,
    },
  }
}

/** Books it anew for these parts. Problems have the paths of `parts`; `later` is for entries of closed months. */
export const changePurpose = (
  books: Books,
  act: Act,
  entryNo: number,
  parts: readonly SplitPart[],
  later: Day,
): Outcome<{ entryNo: number; freedLines: number }> =>
  once(books, act, 'entry.purpose', { entryNo, parts }, () => {
    const found = purposeOf(books, entryNo)
    if (!found.ok) return refuse({ path: '', message: found.why })
    const { entry, line } = found.purpose
    const ground = groundOf(books)
    const done = putInstead(
      books,
      act,
      entry.id,
      later,
      (day) => {
        const made = sortedParts(
          act.formId,
          { ...line, day },
          { kind: 'split', parts },
          ground,
          (side, other, role) => crossingAccountId(books, act.at, side, other, role),
        )
        if (!made.ok) return refuse(...made.problems.map(onParts))
        return { ...made, entries: made.entries.map((each) => ({ ...each, source: entry.source })) }
      },
      ground,
    )
    if (!done.ok) return done
    const first = done.entries[0]!
    logChange(books, act, {
      kind: 'entry.corrected',
      subject: first.id,
      sideId: entry.sideId,
      summary: 'What an entry was for was corrected',
      details: { corrects: entry.id },
    })
    return { ok: true, result: { entryNo: first.no, freedLines: done.freedLines } }
  })

/** The form has one place for what concerns all parts. */
const onParts = ({ path, message }: FieldProblem): FieldProblem => ({
  path: path === 'parts' ? 'parts.0.amount' : path,
  message,
})
