// Why an account's books and its statement differ, as pages show it: amounts in the sign a person reads for the account.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { openingByFiles, postingsOfFiles, unbookedLines } from '#db/reconcile/apart-reader.ts'
import type { ReconcileLine } from '#db/reconcile/reconcile-reader.ts'
import { type Account, balanceAsRead } from '#ledger/account.ts'
import { type BookedLine, type Explanation, explainApart } from '#ledger/reconcile-apart.ts'
import type { Cents } from '#money/cents.ts'
import type { ExplainedLine, ExplanationFigures } from './figures.ts'

/** `apart` is what the books have more, in the ledger's sign; a ticked line counts into it. */
export const explained = (
  books: Books,
  account: Account,
  { apart, through, lines }: { apart: Cents; through: Day; lines: readonly ReconcileLine[] },
): ExplanationFigures[] => {
  if (apart === 0) return []
  const ofFiles = postingsOfFiles(books, account.id)
  const asRead = (amount: Cents) => balanceAsRead(account.kind, amount)
  const opening = openingByFiles(books, account.id)
  return explainApart({
    cents: apart,
    // What is taken back cancels out: neither half explains anything.
    lines: lines
      .filter((line) => !line.isReversed && line.reversesNo === null)
      .map((line) => bookedLine(line, ofFiles)),
    unbooked: unbookedLines(books, account.id, through),
    openingCents: opening?.cents ?? null,
  }).map((one) => ({
    kind: one.kind,
    lines: linesOf(one, asRead),
    shouldBeCents: 'shouldBe' in one ? asRead(one.shouldBe) : null,
    opening: one.kind === 'opening' && opening ? { day: opening.first, cents: asRead(opening.cents) } : null,
  }))
}

const bookedLine = (line: ReconcileLine, ofFiles: ReadonlySet<number>): BookedLine => ({
  postingId: line.postingId,
  entryNo: line.entryNo,
  day: line.day,
  payee: line.payee || line.memo,
  amountCents: line.amountCents,
  isCounted: line.ticked,
  isOfFile: ofFiles.has(line.postingId),
})

const linesOf = (one: Explanation, asRead: (amount: Cents) => Cents): ExplainedLine[] => {
  if (one.kind === 'opening') return []
  if (one.kind === 'missing')
    return one.unbooked.map((line) => ({
      entryNo: null,
      postingId: null,
      day: line.day,
      payee: line.payee,
      amountCents: asRead(line.amountCents),
      isSetAside: line.isSetAside,
    }))
  const lines = 'line' in one ? [one.line] : one.lines
  return lines.map(({ entryNo, postingId, day, payee, amountCents }) => ({
    entryNo,
    postingId,
    day,
    payee,
    amountCents: asRead(amountCents),
    isSetAside: false,
  }))
}
