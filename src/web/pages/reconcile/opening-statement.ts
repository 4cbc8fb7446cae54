// The statement to reconcile against, filled in with what the newest file of the account says, so that it need not be typed.
import { addDays, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { centsToDecimalText } from '#money/format.ts'
import { fileSays } from '#today/reconcile/file-says.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import { newFormId } from '#web/forms/form.ts'

/** The account asked for, with the day and balance that its newest file states; else the last day of the month that is over. */
export const openingStatement = (c: PageContext): Record<string, string> => {
  const asked = c.req.query('account') ?? ''
  const { books } = c.var.web
  const account = listAccounts(books).find(({ id }) => String(id) === asked)
  const said = account ? fileSays(books, account) : null
  return {
    formId: newFormId(),
    account: asked,
    ...(said
      ? { statementDay: said.day, balance: centsToDecimalText(said.balanceCents) }
      : { statementDay: addDays(firstDayOf(monthOfDay(c.var.web.today())), -1) }),
  }
}
