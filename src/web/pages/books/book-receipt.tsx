// The mixed receipt: lines for several sides on one bill.
import { Hono } from 'hono'
import { z } from 'zod'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { postReceipt } from '#db/ledger/crossing-store.ts'
import type { SideId } from '#ledger/account.ts'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import { ReceiptForm } from '#views/books/receipt-form.tsx'
import { moneyAccounts, optionsBySide, reasonAccounts } from '#web/forms/account-options.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { findEnterprises } from '#web/forms/enterprise-options.ts'
import { bookedDay, choice, formIdField, optionalText, rowId } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { undoable } from '#web/forms/undo.ts'
import type { PageEnv } from '#web/server/context.ts'
import { lineCount } from './book-entry.tsx'
import { simpleDraftLine, simpleLineSchema, withoutBlankLines } from './entry-form.ts'

const receiptForm = z.object({
  formId: formIdField(),
  day: bookedDay(),
  payee: optionalText(),
  memo: optionalText(500),
  paidFrom: rowId('Choose the account it was paid from'),
  crossAs: choice(['equity', 'loan'], 'Choose how the other side’s part crosses'),
  lines: z.array(simpleLineSchema).min(1, { error: 'Enter at least one line' }),
})

export const bookReceiptPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/receipt', (c) =>
        showForm(c, openingForm({ day: c.var.web.today(), formId: newFormId() }), {}),
      )
      .post('/books/receipt', async (c) => {
        const typed = await readForm(c)
        if (typed.value('more')) return showForm(c, typed, {})
        const checked = checkForm(receiptForm, withoutBlankLines(typed))
        if (!checked.ok) return showForm(c, typed, checked.errors)
        const { formId, lines, paidFrom, crossAs, ...head } = checked.value
        const { books } = c.var.web
        const posted = postReceipt(books, actOf(c, formId), {
          ...head,
          paidFromAccountId: paidFrom,
          lines: lines.map(simpleDraftLine),
          ...(crossAs === 'loan' ? { kindFor: loanFor(listSides(books).map((side) => side.id)) } : {}),
        })
        if (!posted.ok) return showForm(c, typed, errorsOf(posted.problems))
        return posted.result.crossingIds.length > 0
          ? moveOn(
              c,
              '/crossings',
              undoable(c, 'The receipt is in the books of each side, with the crossing it made.'),
            )
          : moveOn(c, '/books', 'All lines were for one side, so this is a plain entry without a crossing.')
      }),
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
