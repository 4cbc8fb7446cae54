// Entries by form: post, look at, take back, correct; and the mixed receipt that makes its own crossing.

import { type Context, Hono } from 'hono'
import { dayName } from '#calendar/day.ts'
import { purposeOf } from '#db/acts/entry-purpose.ts'
import { reverseEntry } from '#db/acts/reverse-entry.ts'
import { listAccounts, listSides, type Side } from '#db/ledger/account-store.ts'
import { type EntryRecord, entryByNo, reversalOfEntry, standInFor, wholeOf } from '#db/ledger/entry-reader.ts'
import { latestEntries } from '#db/ledger/latest-entries.ts'
import { correctEntry, postEntry } from '#db/ledger/ledger-store.ts'
import { atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { skippedWith } from '#db/statements/set-aside.ts'
import type { EntryDraft, EntrySource } from '#ledger/entry.ts'
import { cents, negateCents } from '#money/cents.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import { type EntryFigures, EntryPage } from '#views/books/entry.tsx'
import { EntryForm, type EntryFormProps } from '#views/books/entry-form.tsx'
import { mostLines } from '#views/books/lines.tsx'
import {
  houseFirst,
  moneyAccounts,
  openAccounts,
  optionsByKind,
  reasonAccounts,
} from '#web/forms/account-options.ts'
import { actOf, actOfForm, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { findBatches } from '#web/forms/batch-options.ts'
import { findEnterprises } from '#web/forms/enterprise-options.ts'
import {
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  rowCount,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { overdraws } from '#web/forms/overdraw.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { keepReceipt, receiptIn } from '#web/forms/receipt.ts'
import { dayOfInstant } from '#web/server/clock.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'
import { bookedBefore } from './booked-before.tsx'
import { type EntryKind, entryFromForm, entryKinds, freedSays, totalsTyped } from './entry-form.ts'
import { loanSays, withLoanParts } from './loan-entry.ts'
import { repeats } from './same-entry.ts'
import { takenBackSays } from './taken-back.ts'

export const bookEntryPages: PageRoom = {
  uploads: ['/books/entry'],
  build: () =>
    new Hono<PageEnv>()
      .get('/books/entry', (c) => {
        const kind = entryKinds.find((one) => one === c.req.query('kind')) ?? 'out'
        const opening = { day: c.var.web.today(), formId: newFormId(), kind, side: c.req.query('side') ?? '' }
        return showForm(c, openingForm({ ...opening, ...prefilled(c) }), {})
      })
      .post('/books/entry', postNew)
      .get('/books/entries/:no{[0-9]{1,12}}', (c) => showEntry(c, {}))
      .post('/books/entries/:no{[0-9]{1,12}}/void', async (c) => {
        const typed = await readForm(c)
        const entry = entryByNo(c.var.web.books, entryNo(c))
        if (!entry) return notFound(c, noSuchEntry)
        const done = reverseEntry(c.var.web.books, actOfForm(c, typed), entry.id, c.var.web.today())
        if (!done.ok) return showEntry(c, errorsOf(done.problems))
        return moveOn(c, `/books/entries/${entry.no}`, takenBackSays(c, entry.no, done.result.skippedLines))
      })
      .get('/books/entries/:no{[0-9]{1,12}}/correct', (c) => {
        const entry = entryByNo(c.var.web.books, entryNo(c))
        return entry ? showForm(c, formOfEntry(entry), {}, entry.no) : notFound(c, noSuchEntry)
      })
      .post('/books/entries/:no{[0-9]{1,12}}/correct', postCorrection),
}

const postNew = (c: PageContext) =>
  posted(c, {
    check(typed) {
      const side = sideOf(c, typed.value('side'))
      return side ? entryFromForm(typed, side.id) : { ok: false, errors: {} }
    },
    again: (typed, errors) => showForm(c, typed, errors),
    async keep(draft, typed) {
      const { books } = c.var.web
      const before = bookedBefore(c, typed, draft)
      if (before) return before
      const receipt = await receiptIn(typed)
      const split = withLoanParts(books, typed, draft)
      if (split) return showForm(c, split, { 'lines.0.amount': loanSays })
      const asked = askedOfMove(c, typed, draft)
      if (asked.amount) return showForm(c, typed, asked)
      const same = repeats(books, typed, draft)
      if (same.day) return showForm(c, typed, same)
      const act = actOf(c, draft.id)
      // An entry whose receipt cannot be kept is not kept either: the form comes back as a whole.
      const done = atomically(books, () => {
        const entry = postEntry(books, act, draft)
        if (!entry.ok || !receipt) return entry
        const step = { ...act, formId: `${act.formId}.receipt` }
        const kept = keepReceipt(books, step, { ...receipt, entryId: entry.result.entryId })
        return kept.ok ? entry : kept
      })
      if (!done.ok) return done
      const next = typed.value('another')
        ? `/books/entry?side=${draft.sideId}&kind=${typed.value('kind')}`
        : '/books'
      const side = sideOf(c, draft.sideId)
      return moveOn(c, next, undoable(c, `Entry ${done.result.entryNo} is in the books of ${side?.name}.`))
    },
  })

const postCorrection = (c: PageContext) => {
  const entry = entryByNo(c.var.web.books, entryNo(c))
  if (!entry) return notFound(c, noSuchEntry)
  return posted(c, {
    check: (typed) => entryFromForm(typed, entry.sideId),
    again: (typed, errors) => showForm(c, typed, errors, entry.no),
    keep(draft, typed) {
      const asked = askedOfMove(c, typed, draft, entry)
      if (asked.amount) return showForm(c, typed, asked, entry.no)
      const done = correctEntry(c.var.web.books, actOf(c, draft.id), entry.id, draft)
      if (!done.ok) return done
      return moveOn(
        c,
        `/books/entries/${done.result.entryNo}`,
        undoable(c, `Entry ${entry.no} is corrected by this one.${freedSays(done.result.freedLines)}`),
      )
    },
  })
}

/** Money moved out of an account that does not hold it is asked about. */
function askedOfMove(c: PageContext, typed: TypedForm, draft: EntryDraft, instead?: EntryRecord): FormErrors {
  const from = draft.lines.find((line) => line.amountCents < 0)
  if (typed.value('kind') !== 'moved' || !from) return {}
  return overdraws(c.var.web.books, typed, {
    formId: draft.id,
    day: draft.day,
    fromAccountId: from.accountId,
    amountCents: negateCents(from.amountCents),
    ...(instead ? { instead } : {}),
  })
}

const noSuchEntry = 'There is no entry of this number.'

function showForm(c: PageContext, typed: TypedForm, errors: FormErrors, correctingNo?: number) {
  const { books } = c.var.web
  const side = sideOf(c, typed.value('side'))
  if (!side) return notFound(c, 'There are no books yet. Set them up on the start page.')
  const kind = (entryKinds.find((one) => one === typed.value('kind')) ?? 'out') satisfies EntryKind
  const accounts = listAccounts(books, { sideId: side.id })
  const props: EntryFormProps = {
    side: { id: side.id, kind: side.kind, name: side.name },
    kind,
    typed,
    errors,
    lineCount: lineCount(typed, kind === 'journal' ? 4 : 3),
    moneyOptions: optionsByKind(moneyAccounts(accounts), ['asset']),
    reasonOptions: optionsByKind(reasonAccounts(accounts), kind === 'in' ? ['income'] : ['expense']),
    allOptions: optionsByKind(openAccounts(accounts), ['asset']),
    enterprises: side.kind === 'household' ? [] : findEnterprises(books),
    batches: side.kind === 'farm' ? findBatches(books, batchesTyped(typed)) : [],
    sides: houseFirst(listSides(books)).map(({ id, kind, name }) => ({ id, kind, name })),
    payees: [
      ...new Set(latestEntries(books, { sideId: side.id, limit: 200 }).map((one) => one.payee)),
    ].filter(Boolean),
    balanceSays: kind === 'journal' ? balanceSays(typed) : '',
    ...(correctingNo === undefined ? {} : { correcting: { no: correctingNo } }),
  }
  return answer(c, {
    title: 'Entry',
    status: statusOf(errors),
    page: () => <EntryForm {...props} />,
  })
}

const batchesTyped = (typed: TypedForm): string[] =>
  Array.from({ length: mostLines }, (_, index) => typed.value(`lines.${index}.batch`)).filter(Boolean)

/** Rows asked for: those shown before, two more when asked, never fewer than were typed. */
export function lineCount(typed: TypedForm, least: number): number {
  const shown = Number.parseInt(typed.value('rows'), 10)
  const base = Math.max(least, Number.isInteger(shown) ? Math.min(shown, mostLines) : 0)
  return Math.min(mostLines, rowCount(typed, 'lines', base) + (typed.value('more') ? 2 : 0))
}

function showEntry(c: PageContext, errors: FormErrors) {
  const { books } = c.var.web
  const entry = entryByNo(books, entryNo(c))
  if (!entry) return notFound(c, noSuchEntry)
  const figures = entryFigures(books, entry)
  return answer(c, {
    title: `Entry ${entry.no}`,
    status: statusOf(errors),
    figures,
    page: () => <EntryPage figures={figures} formId={newFormId()} errors={errors} />,
  })
}

function entryFigures(books: Books, entry: EntryRecord): EntryFigures {
  const names = new Map(
    listAccounts(books, { withArchived: true }).map((account) => [account.id, account.name]),
  )
  const sides = new Map(listSides(books, { withArchived: true }).map((side) => [side.id, side]))
  const sideName = (id: string) => ({ kind: sides.get(id)!.kind, name: sides.get(id)!.name })
  const whole = wholeOf(books, entry)
  const reversedByNo = reversalOfEntry(books, entry.no)?.no ?? null
  return {
    no: entry.no,
    day: entry.day,
    payee: entry.payee,
    memo: entry.memo,
    sourceSays: `${sourceWords[entry.source]}, ${dayName(dayOfInstant(entry.postedAt))}.`,
    side: sideName(entry.sideId),
    lines: entry.lines.map((line) => ({
      accountId: line.accountId,
      accountName: names.get(line.accountId) ?? '',
      amountCents: line.amountCents,
      memo: line.memo,
      enterprise: line.enterpriseId,
    })),
    together: whole.entries
      .filter((other) => other.no !== entry.no)
      .map((other) => ({ no: other.no, side: sideName(other.sideId) })),
    reversedByNo,
    standInNo: standInFor(books, entry.no)?.no ?? null,
    skippedLine: skippedWith(books, entry.id),
    reversesNo: entry.reversesNo,
    correctsNo: entry.correctsNo,
    mayChange: reversedByNo === null && entry.source !== 'reversal',
    canAskFor: purposeOf(books, entry.no).ok,
    isCrossing: entry.lines.some((line) => line.crossingId !== null),
  }
}

const sourceWords: Record<EntrySource, string> = {
  form: 'Entered by form',
  crossing: 'Made by a crossing',
  receipt: 'Made by a mixed receipt',
  standing: 'Made by a standing transfer',
  statement: 'Sorted from a bank statement',
  opening: 'Opening balances',
  reversal: 'Takes an entry back',
  import: 'Brought in',
}

/** An entry opened for correcting, as debits and credits: that form can say anything an entry can. */
const formOfEntry = (entry: EntryRecord): TypedForm => {
  const values: Record<string, string> = {
    formId: newFormId(),
    side: entry.sideId,
    kind: 'journal',
    day: entry.day,
    payee: entry.payee,
    memo: entry.memo,
    rows: String(entry.lines.length + 1),
  }
  entry.lines.forEach((line, index) => {
    values[`lines.${index}.account`] = String(line.accountId)
    values[`lines.${index}.memo`] = line.memo
    values[`lines.${index}.enterprise`] = line.enterpriseId ?? ''
    values[`lines.${index}.batch`] = line.batchId ?? ''
    values[`lines.${index}.${line.amountCents > 0 ? 'debit' : 'credit'}`] = centsToDecimalText(
      cents(Math.abs(line.amountCents)),
    )
  })
  return openingForm(values)
}

const balanceSays = (typed: TypedForm): string => {
  const { debit, credit } = totalsTyped(typed)
  return debit === 0 && credit === 0
    ? 'Debits and credits must be equal.'
    : `So far: debits ${formatCents(debit)}, credits ${formatCents(credit)}.`
}

const prefilled = (c: PageContext): Record<string, string> => {
  const account = c.req.query('account')
  return account ? { moneyAccount: account } : {}
}

const sideOf = (c: PageContext, id: string): Side | undefined => {
  const sides = listSides(c.var.web.books)
  return sides.find((side) => side.id === id) ?? (id === '' ? sides[0] : undefined)
}

const entryNo = (c: Context): number => Number.parseInt(c.req.param('no') ?? '', 10)
