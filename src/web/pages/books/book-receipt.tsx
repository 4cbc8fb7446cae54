// The mixed receipt: lines for several sides on one bill.
import { Hono } from 'hono'
import { z } from 'zod'
import { findAccount, listAccounts, listSides } from '#db/ledger/account-store.ts'
import { postReceipt } from '#db/ledger/crossing-store.ts'
import type { Books } from '#db/open.ts'
import { householdSide, type SideId } from '#ledger/account.ts'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import { addCents, negateCents } from '#money/cents.ts'
import { ReceiptForm } from '#views/books/receipt-form.tsx'
import { moneyAccounts, optionsBySide, reasonAccounts } from '#web/forms/account-options.ts'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { findEnterprises } from '#web/forms/enterprise-options.ts'
import { bookedDay, choice, formIdField, optionalText, rowId } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'
import { lineCount } from './book-entry.tsx'
import { simpleDraftLine, simpleLines, withoutBlankLines } from './entry-form.ts'
import { repeats } from './same-entry.ts'

const receiptForm = z.object({
  formId: formIdField(),
  day: bookedDay(),
  payee: optionalText(),
  memo: optionalText(500),
  paidFrom: rowId('Choose the account it was paid from'),
  crossAs: choice(['equity', 'loan'], 'Choose how the other side’s part crosses'),
  lines: simpleLines(),
})

export const bookReceiptPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/receipt', (c) =>
        showForm(c, openingForm({ day: c.var.web.today(), formId: newFormId() }), {}),
      )
      .post('/books/receipt', (c) =>
        posted(c, {
          check: (typed) => checkForm(receiptForm, withoutBlankLines(typed)),
          again: (typed, errors) => showForm(c, typed, errors),
          keep(receipt, typed) {
            const same = repeats(c.var.web.books, typed, paidIn(c.var.web.books, receipt))
            return same.day ? showForm(c, typed, same) : keepReceipt(c, receipt)
          },
        }),
      ),
}

/** What of it the account it was paid from holds. */
const paidIn = (books: Books, { formId, day, payee, paidFrom, lines }: z.output<typeof receiptForm>) => ({
  id: formId,
  sideId: findAccount(books, paidFrom)?.sideId ?? householdSide,
  day,
  payee,
  lines: [{ accountId: paidFrom, amountCents: negateCents(addCents(...lines.map(({ amount }) => amount))) }],
})

function keepReceipt(
  c: PageContext,
  { formId, lines, paidFrom, crossAs, ...head }: z.output<typeof receiptForm>,
) {
  const { books } = c.var.web
  const booked = postReceipt(books, actOf(c, formId), {
    ...head,
    paidFromAccountId: paidFrom,
    lines: lines.map(simpleDraftLine),
    ...(crossAs === 'loan' ? { kindFor: loanFor(listSides(books).map((side) => side.id)) } : {}),
  })
  if (!booked.ok) return booked
  return booked.result.crossingIds.length > 0
    ? moveOn(
        c,
        '/crossings',
        undoable(c, 'The receipt is in the books of each side, with the crossing it made.'),
      )
    : moveOn(c, '/books', 'All lines were for one side, so this is a plain entry without a crossing.')
}

function showForm(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  const accounts = listAccounts(books)
  const sides = listSides(books)
  return answer(c, {
    title: 'Mixed receipt',
    status: statusOf(errors),
    page: () => (
      <ReceiptForm
        typed={typed}
        errors={errors}
        lineCount={lineCount(typed, 4)}
        moneyOptions={optionsBySide(moneyAccounts(accounts), sides)}
        reasonOptions={optionsBySide(
          reasonAccounts(accounts).filter(
            (account) => account.kind === 'expense' || account.kind === 'asset',
          ),
          sides,
        )}
        enterprises={findEnterprises(books)}
      />
    ),
  })
}

const loanFor = (sides: readonly SideId[]): Record<SideId, CrossingKind> =>
  Object.fromEntries(sides.map((side) => [side, 'loan' as const]))
