// One transaction: split over accounts of any side, set aside, or, when doubtful, let wait as a movement of its own.
import type { Books } from '#db/open.ts'
import { earlierLine, lineSaid, storedLine } from '#db/statements/replaced-lines.ts'
import { findWaitingLines, sortingDesk } from '#db/statements/sorting-desk.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { partsByAccount } from '#ledger/loan-payment.ts'
import type { SplitPart } from '#ledger/statements/sorted-parts.ts'
import { cents, sumCents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { parseMoney } from '#money/parse.ts'
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
import { type Choices, deskAddress, keptInAddress, placeOf } from './desk-choices.ts'
import { deskRow, groundOf, loanSplits } from './desk-rows.ts'

const noLonger =
  'This transaction is not waiting any more: it was sorted or skipped. Look at the waiting transactions again.'

export const showLine = (c: PageContext, id: string) =>
  answerLine(c, id, openingForm({ formId: newFormId(), ...proposedSplit(c, id) }), {})

/** A line proposed for a loan opens with its interest and principal as parts, to be changed or booked as they stand. */
function proposedSplit(c: PageContext, id: string): Record<string, string> {
  const { books } = c.var.web
  const lines = sortingDesk(books).lines
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
  const lineId = Number.parseInt(id, 10)
  const how = typed.value('how')
  const read =
    how === 'split'
      ? readParts(typed, Math.abs(line?.amount ?? 0))
      : how === 'genuine' || how === 'replace'
        ? { sorting: { kind: how as 'genuine' | 'replace' } }
        : { sorting: { kind: 'ignore' as const, note: typed.value('note').trim().slice(0, 200) } }
  if ('errors' in read) return answerLine(c, id, typed, read.errors)
  const sorting = { lineId, ...read.sorting } as Sorting
  const outcome = sortLines(c.var.web.books, actOf(c, formId.data), [sorting])
  if (!outcome.ok) {
    const [problem] = outcome.problems
    const field = how === 'split' ? 'parts.0.amount' : ''
    return line ? answerLine(c, id, typed, { [field]: problem!.message }) : notFound(c, noLonger)
  }
  const says = {
    split: 'The parts are booked.',
    genuine: 'The transaction waits to be sorted.',
    replace: 'The earlier transaction is skipped.',
  }[how]
  return moveOn(c, deskAddress(placeOf(c), keptWithout(c, lineId)), says ?? 'The transaction is skipped.')
}

const keptWithout = (c: PageContext, lineId: number): Choices => {
  const kept = keptInAddress(c)
  kept.delete(lineId)
  return kept
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
        ? 'What is booked stays, and this transaction stands for it.'
        : 'The entry it was booked as is taken back by a reversing entry.',
  }
}

const waitingLine = (c: PageContext, id: string) =>
  /^\d{1,15}$/.test(id) ? findWaitingLines(c.var.web.books, [Number.parseInt(id, 10)])[0] : undefined

/** Typed parts; one amount left empty gets what is left of `size`. */
const readParts = (
  typed: TypedForm,
  size: number,
): { sorting: { kind: 'split'; parts: SplitPart[] } } | { errors: FormErrors } => {
  const errors: Record<string, string> = {}
  const parts: SplitPart[] = []
  let open: number | null = null
  for (let index = 0; index < rowCount(typed, 'parts', 0); index += 1) {
    const account = typed.value(`parts.${index}.account`)
    const amount = typed.value(`parts.${index}.amount`).trim()
    if (account === '' && amount === '') continue
    if (!/^\d{1,15}$/.test(account)) errors[`parts.${index}.account`] = 'Choose what this part was for'
    const parsed = amount === '' ? ({ ok: true, value: cents(0) } as const) : parseMoney(amount)
    if (!parsed.ok) errors[`parts.${index}.amount`] = parsed.message
    if (amount === '' && open !== null)
      errors[`parts.${index}.amount`] = 'Only one amount can be left empty. Enter this one'
    if (amount === '') open = parts.length
    const enterprise = typed.value(`parts.${index}.enterprise`)
    parts.push({
      accountId: Number.parseInt(account, 10),
      size: parsed.ok ? parsed.value : cents(0),
      enterpriseId: enterprise === '' ? null : enterprise.slice(0, 60),
    })
  }
  if (parts.length === 0) errors['parts.0.account'] = 'Choose what the transaction was for'
  if (Object.keys(errors).length > 0) return { errors }
  const rest = size - sumCents(parts.map((part) => part.size))
  if (open !== null) parts[open] = { ...parts[open]!, size: cents(rest) }
  return { sorting: { kind: 'split', parts } }
}

function answerLine(c: PageContext, id: string, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  const line = waitingLine(c, id)
  if (!line) return notFound(c, noLonger)
  const ground = groundOf(books)
  const row = deskRow({ line, proposal: null }, ground)
  const partCount = rowCount(typed, 'parts', 3) + (typed.value('more') ? 2 : 0)
  return answer(c, {
    title: 'One transaction',
    status: statusOf(errors),
    figures: row,
    page: () => (
      <LinePage
        row={row}
        address={deskAddress(placeOf(c), keptInAddress(c), `/books/sorting/lines/${line.id}`)}
        deskAddress={deskAddress(placeOf(c), keptInAddress(c))}
        earlier={earlierShown(books, line.id)}
        formId={typed.value('formId')}
        value={(name) => typed.value(name)}
        errors={errors}
        partCount={Math.min(partCount, 40)}
        accountOptions={optionsBySide(
          openAccounts(ground.accounts).filter((account) => account.id !== line.accountId),
          ground.sides,
        )}
        enterprises={findEnterprises(books)}
      />
    ),
  })
}
