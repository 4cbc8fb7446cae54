// One transaction: split over accounts of any side, set aside, or, when doubtful, let wait as a movement of its own.
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import { atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { keepLineChoices } from '#db/statements/line-choices.ts'
import { earlierLine, lineSaid, storedLine } from '#db/statements/replaced-lines.ts'
import { findWaitingLines, type WaitingLine } from '#db/statements/sorting-desk.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { partsByAccount } from '#ledger/loan-payment.ts'
import { namesNoOne, plainPayee } from '#ledger/statements/payee-text.ts'
import { partsOf, type SplitShare, sharesProblem } from '#ledger/statements/split-shares.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import { type Cents, cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { loanBook } from '#today/loan-terms.ts'
import { LinePage, type LineProps } from '#views/books-sorting/line.tsx'
import { openAccounts, optionsBySide } from '#web/forms/account-options.ts'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { findEnterprises } from '#web/forms/enterprise-options.ts'
import { formIdField } from '#web/forms/fields.ts'
import {
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  rowCount,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { readShares } from '#web/pages/books/read-shares.ts'
import { undoable } from '#web/server/undo.ts'
import { deskAddress, placeOf } from './desk-choices.ts'
import { readDesk } from './desk-read.ts'
import { deskRow, groundOf, loanSplits } from './desk-rows.ts'
import { withLearned } from './learned.ts'
import { payFields, readPay } from './net-pay.ts'
import { withPayOf } from './pay-of-whom.ts'

const noLonger =
  'This transaction is not waiting any more: it was sorted or skipped. Look at the waiting transactions again.'

export const showLine = (c: PageContext, id: string) =>
  answerLine(c, id, openingForm({ formId: newFormId(), ...proposedSplit(c, id) }), {})

/** A line proposed for a loan opens with its interest and principal as parts, to be changed or booked as they stand. */
function proposedSplit(c: PageContext, id: string): Record<string, string> {
  const { books } = c.var.web
  const { lines } = readDesk(books).desk
  const found = lines.find(({ line }) => String(line.id) === id)
  const target = found?.proposal?.kind === 'rule' ? found.proposal.proposal.target : null
  const terms = target?.kind === 'account' ? loanBook(books).get(target.accountId) : undefined
  const split = found && loanSplits(books, lines).get(found.line.id)
  if (!terms || !split) return {}
  return Object.fromEntries(
    partsByAccount(terms, split).flatMap(({ accountId, size }, index) => [
      [`parts.${index}.account`, String(accountId)],
      [`parts.${index}.amount`, centsToDecimalText(size)],
    ]),
  )
}

export async function sortOneLine(c: PageContext, id: string) {
  const typed = await readForm(c)
  if (typed.value('more')) return answerLine(c, id, typed, {})
  const line = waitingLine(c, id)
  const formId = formIdField().safeParse(typed.value('formId'))
  if (!formId.success) return answerLine(c, id, typed, { '': 'This form has lost its number. Open it again' })
  const how = typed.value('how')
  const read = readHow(c, typed, id, how)
  if ('errors' in read) return answerLine(c, id, typed, read.errors)
  const { books } = c.var.web
  const act = actOf(c, formId.data)
  const outcome = atomically(books, () => {
    const named = how === 'pay' ? withPayOf(books, act, typed.value('pay'), read.sortings) : asRead(read)
    return named.ok ? sortLines(books, act, named.result) : named
  })
  if (!outcome.ok) {
    const [problem] = outcome.problems
    const field =
      problem!.path === 'pay' ? 'pay' : ({ split: 'parts.0.amount', pay: 'taken.0.amount' }[how] ?? '')
    return line ? answerLine(c, id, typed, { [field]: problem!.message }) : notFound(c, noLonger)
  }
  // What is proposed for the next ones goes before what was chosen for those that wait already.
  if (line && typed.value('keep') === 'yes')
    keepLineChoices(
      books,
      c.var.web.clock.now().toISOString(),
      new Map(alikeTo(books, line).map((other) => [other.id, null])),
    )
  const says = {
    split:
      read.sortings.length > 1 ? `${read.sortings.length} transactions are split.` : 'The parts are booked.',
    pay: 'The whole and what was withheld are booked.',
    genuine: 'The transaction waits to be sorted.',
    replace: 'The earlier transaction is skipped.',
  }[how]
  const address = withLearned(deskAddress(placeOf(c)), outcome.result, formId.data)
  return moveOn(c, address, undoable(c, says ?? 'The transaction is skipped.'))
}

const asRead = ({ sortings }: { sortings: Sorting[] }) => ({ ok: true as const, result: sortings })

const readHow = (
  c: PageContext,
  typed: TypedForm,
  id: string,
  how: string,
): { sortings: Sorting[] } | { errors: FormErrors } => {
  const lineId = Number.parseInt(id, 10)
  if (how === 'split') {
    // Waiting or not: sent again after it was sorted, the form must come to the same parts, and so to the same success.
    const line = /^\d{1,15}$/.test(id) ? storedLine(c.var.web.books, lineId) : undefined
    return readSplit(typed, lineId, line ? cents(Math.abs(line.amountCents)) : null)
  }
  if (how === 'pay') {
    const line = /^\d{1,15}$/.test(id) ? storedLine(c.var.web.books, lineId) : undefined
    return readPay(typed, lineId, cents(line?.amountCents ?? 0))
  }
  if (how === 'genuine' || how === 'replace') return { sortings: [{ lineId, kind: how }] }
  return { sortings: [{ lineId, kind: 'ignore', note: typed.value('note').trim().slice(0, 200) }] }
}

/** The parts for this transaction, for those like it that are ticked, and for the next ones where that is asked for. */
const readSplit = (
  typed: TypedForm,
  lineId: number,
  size: Cents | null,
): { sortings: Sorting[] } | { errors: FormErrors } => {
  const others = typed.value('alsoAll') === 'yes' ? typed.value('alike').split(' ').flatMap(alikeIn) : []
  const read = readShares(typed, size === null ? [] : [size, ...others.map((other) => other.size)])
  if ('errors' in read) return read
  const { shares } = read
  const only = wholeBill(shares, size)
  if (only) return { sortings: [{ lineId }, ...others].map(({ lineId: id }) => onAccountOf(id, only)) }
  const isKept = typed.value('keep') === 'yes'
  const problem = isKept || others.length > 0 ? sharesProblem(shares) : null
  if (problem !== null) return { errors: { 'parts.0.amount': problem } }
  const all = [{ lineId, size: size ?? cents(0) }, ...others]
  const sortings = all.map(({ lineId: id, size: of }, index): Sorting => {
    const parts = partsOf(shares, of)
    return { lineId: id, kind: 'split', parts, ...(isKept && index === 0 ? { keep: shares } : {}) }
  })
  return { sortings }
}

/** One part that takes all of the bill: no split, whatever it was called. */
const wholeBill = ([share, ...more]: readonly SplitShare[], size: Cents | null): SplitShare | null => {
  if (!share || more.length > 0) return null
  const isAll = share.by === 'rest' || share.value === (share.by === 'percent' ? 10_000 : size)
  return isAll ? share : null
}

/** As it would be chosen on the desk, and learned as there. */
const onAccountOf = (lineId: number, { accountId, enterpriseId }: SplitShare): Sorting => ({
  lineId,
  kind: 'target',
  target: { kind: 'account', accountId, enterpriseId },
})

/** `12.4550`: another waiting line with its size in cents. */
const alikeIn = (text: string): { lineId: number; size: Cents }[] => {
  const [, id, size] = /^(\d{1,15})\.(\d{1,12})$/.exec(text) ?? []
  return id === undefined
    ? []
    : [{ lineId: Number.parseInt(id, 10), size: cents(Number.parseInt(size!, 10)) }]
}

/** What a doubtful line would replace, and what becomes of it. */
const earlierShown = (books: Books, lineId: number): LineProps['earlier'] => {
  const earlier = earlierLine(books, lineId)
  const line = storedLine(books, lineId)
  if (!earlier || !line) return null
  const isDelete = line.correction === 'delete'
  const isBooked = earlier.postingId !== null
  const same = !isDelete && earlier.amountCents === line.amountCents
  return {
    says: lineSaid(earlier),
    isDelete,
    becomes: !isBooked
      ? 'The earlier transaction is skipped.'
      : same
        ? 'What is booked stays, and this transaction is tied to it.'
        : 'The entry it was booked as is reversed.',
  }
}

const waitingLine = (c: PageContext, id: string) =>
  /^\d{1,15}$/.test(id) ? findWaitingLines(c.var.web.books, [Number.parseInt(id, 10)])[0] : undefined

/** Other waiting transactions of its payee, account and direction. */
const alikeTo = (books: Books, line: WaitingLine): WaitingLine[] => {
  const payee = plainPayee(textOfLine(line))
  if (namesNoOne(payee)) return []
  return readDesk(books)
    .desk.lines.map((each) => each.line)
    .filter(
      (other) =>
        other.id !== line.id &&
        other.state === 'unsorted' &&
        other.accountId === line.accountId &&
        other.amount < 0 === line.amount < 0 &&
        plainPayee(textOfLine(other)) === payee,
    )
}

function answerLine(c: PageContext, id: string, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  const line = waitingLine(c, id)
  if (!line) return notFound(c, noLonger)
  const ground = groundOf(books)
  const row = deskRow({ line, proposal: null }, ground, closedThrough(books, line.sideId))
  const partCount = rowCount(typed, 'parts', 3) + (typed.value('more') ? 2 : 0)
  return answer(c, {
    title: 'One transaction',
    status: statusOf(errors),
    figures: row,
    page: () => (
      <LinePage
        row={row}
        address={deskAddress(placeOf(c), `/books/sorting/lines/${line.id}`)}
        deskAddress={deskAddress(placeOf(c))}
        earlier={earlierShown(books, line.id)}
        alike={alikeTo(books, line).map(({ id, amount }) => `${id}.${Math.abs(amount)}`)}
        formId={typed.value('formId')}
        value={(name) => typed.value(name)}
        errors={errors}
        partCount={Math.min(partCount, 40)}
        accountOptions={optionsBySide(
          openAccounts(ground.accounts).filter((account) => account.id !== line.accountId),
          ground.sides,
        )}
        enterprises={findEnterprises(books)}
        pay={payFields(books, line, ground.accounts)}
        how={Object.keys(errors).length > 0 ? typed.value('how') : ''}
      />
    ),
  })
}
