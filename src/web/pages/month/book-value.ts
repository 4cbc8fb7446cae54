// One press for invested savings that the books and the file's balance tell apart: the change in value is booked, and the account reconciled.
import { z } from 'zod'
import { parseDay } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import { findAccount } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { atomically, wasCarriedOut } from '#db/once.ts'
import { reconcileWhole } from '#db/reconcile/reconcile-store.ts'
import { refuse } from '#ledger/problem.ts'
import { cents, negateCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { changeInValueOf } from '#today/month/change-in-value.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { type Answered, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { formIdField, monthField } from '#web/forms/fields.ts'
import { checkForm, type FormErrors, type TypedForm } from '#web/forms/form.ts'
import { posted } from '#web/forms/posted.ts'

/** `value`: `12.2026-10-31.123456.-5000`, the account with the file's day and balance, and by how much the books had more. */
const valueForm = z.object({
  formId: formIdField(),
  month: monthField(),
  value: z
    .string()
    .regex(/^\d{1,15}\.\d{4}-\d\d-\d\d\.-?\d{1,15}\.-?\d{1,15}$/, 'It cannot be read. Open the page again'),
})

/** Refused where books or file say something else by now than the page showed. */
export const bookValue = (
  c: PageContext,
  again: (typed: TypedForm, errors: FormErrors) => Answered,
  addressOf: (month: Month) => string,
) =>
  posted(c, {
    check: (typed) => checkForm(valueForm, typed),
    again,
    keep({ formId, month, value }) {
      const { books } = c.var.web
      const [id, on, says, apart] = value.split('.') as [string, string, string, string]
      const account = findAccount(books, Number(id))
      const day = parseDay(on)
      const income = account && changeInValueOf(books, account)
      if (!account || !income || !day) return refuse(gone)
      const [balance, more] = [cents(Number(says)), cents(Number(apart))]
      const act = actOf(c, `${formId}.${account.id}`)
      const step = { ...act, formId: `${act.formId}.value` }
      const held = balancesOn(books, day).get(account.id) ?? zeroCents
      if (held - balance !== more && !wasCarriedOut(books, step.formId)) return refuse(gone)
      const done = atomically(books, () => {
        const entry = postEntry(books, step, {
          sideId: account.sideId,
          day,
          payee: '',
          memo: `Change in value of ${account.name}, by the balance that its file states`,
          source: 'form',
          lines: [
            { accountId: account.id, amountCents: negateCents(more) },
            { accountId: income.id, amountCents: more },
          ],
        })
        if (!entry.ok) return entry
        const statement = {
          accountId: account.id,
          statementDay: day,
          statementBalanceCents: balance,
          note: '',
        }
        return reconcileWhole(books, act, statement)
      })
      if (!done.ok) return refuse({ path: '', message: Object.values(errorsOf(done.problems))[0]! })
      return moveOn(
        c,
        addressOf(month),
        `${account.name} changed in value by ${formatCents(negateCents(more))}: booked, and reconciled. It can be reversed under “What was done”.`,
      )
    },
  })

const gone = {
  path: '',
  message: 'The books or the file say something else by now. Look at the account again, then press again',
}
