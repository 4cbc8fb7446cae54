// The commingling watch as a page: the last thirteen months, each find with its one-click crossing.
import { Hono } from 'hono'
import { z } from 'zod'
import { firstDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths } from '#calendar/month.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { crossOver, waiveSuspicion, watchBooks } from '#db/ledger/commingling-store.ts'
import { centsToDecimalText } from '#money/format.ts'
import { type MixedUpFigures, MixedUpPage } from '#views/mixed-up/mixed-up.tsx'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { formIdField, requiredText, rowId } from '#web/forms/fields.ts'
import { checkForm, type FormErrors, newFormId, readForm, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'

export const mixedUpPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>().get('/books/mixed-up', (c) => showFinds(c, {})).post('/books/mixed-up', settle),
}

const crossForm = z.object({
  formId: formIdField(),
  entry: requiredText('Open the page again', 100),
  line: rowId('Open the page again'),
  toAccount: rowId('Choose what it was for'),
})
const waiveForm = z.object({ formId: formIdField(), posting: rowId('Open the page again') })

async function settle(c: PageContext) {
  const typed = await readForm(c)
  const { books, today } = c.var.web
  if (typed.value('next') === 'waive') {
    const checked = checkForm(waiveForm, typed)
    if (!checked.ok) return showFinds(c, checked.errors)
    const waived = waiveSuspicion(books, actOf(c, checked.value.formId), checked.value.posting)
    return waived.ok
      ? moveOn(c, '/books/mixed-up', 'It stays where it is and is not asked about again.')
      : showFinds(c, errorsOf(waived.problems))
  }
  const field = `toAccount_${typed.value('posting')}`
  const own = { ...typed, nested: { ...typed.nested, toAccount: typed.value(field) } }
  const checked = checkForm(crossForm, own)
  if (!checked.ok) return showFinds(c, atField(checked.errors, field))
  const { formId, entry, line, toAccount } = checked.value
  const moved = crossOver(books, actOf(c, formId), {
    entryId: entry,
    lineNo: line,
    toAccountId: toAccount,
    day: today(),
  })
  return moved.ok
    ? moveOn(c, '/books/mixed-up', 'It is a crossing now, in both books.')
    : showFinds(c, atField(errorsOf(moved.problems), field))
}

/** The field carries its line's number, since the page has many of them. */
const atField = ({ toAccount, ...rest }: FormErrors, field: string): FormErrors =>
  toAccount === undefined ? rest : { ...rest, [field]: toAccount }

function showFinds(c: PageContext, errors: FormErrors) {
  const figures = mixedUpFigures(c)
  const accounts = listAccounts(c.var.web.books).filter(
    (account) => account.kind === 'expense' && account.systemRole === null,
  )
  const optionsOf = (sideId: string) =>
    accounts
      .filter((account) => account.sideId === sideId)
      .map((account) => ({ value: String(account.id), label: account.name }))
  return answer(c, {
    title: 'In the wrong books?',
    status: statusOf(errors),
    figures,
    page: () => (
      <MixedUpPage
        figures={figures}
        errors={errors}
        options={{ farm: optionsOf('farm'), household: optionsOf('household') }}
        formIds={figures.finds.map(() => newFormId())}
      />
    ),
    tables: {
      finds: () =>
        tableOf(figures.finds, {
          entry: (find) => find.entryNo,
          day: (find) => find.day,
          payee: (find) => find.payee,
          account: (find) => find.accountName,
          books: (find) => find.side.name,
          amount: (find) => centsToDecimalText(find.amountCents),
          'looks like': (find) => find.looksLike,
          because: (find) => find.because,
        }),
    },
  })
}

function mixedUpFigures(c: PageContext): MixedUpFigures {
  const { books, today } = c.var.web
  const to = today()
  const from = firstDayOf(addMonths(monthOfDay(to), -12))
  const sides = listSides(books, { withArchived: true })
  return {
    from,
    to,
    finds: watchBooks(books, from, to)
      .slice(0, 50)
      .map(({ line, looksLike, because }) => ({
        postingId: line.postingId,
        entryId: line.entryId,
        entryNo: line.entryNo,
        lineNo: line.lineNo,
        day: line.day,
        payee: line.payee,
        accountName: line.accountName,
        amountCents: line.amountCents,
        side: { kind: line.sideKind, name: sides.find((side) => side.id === line.sideId)?.name ?? '' },
        looksLike,
        because,
      })),
  }
}
