// The opening balance of an account that has none: filled in with what its bank files say was there before their first line.
import { z } from 'zod'
import { addDays } from '#calendar/day.ts'
import { findAccount, listSides, systemAccount } from '#db/ledger/account-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { openingByFiles } from '#db/reconcile/apart-reader.ts'
import { isMoney } from '#ledger/account.ts'
import { refuse } from '#ledger/problem.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { centsToDecimalText } from '#money/format.ts'
import { OpeningBalancePage } from '#views/reconcile/opening-balance.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { bookedDay, formIdField, money } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { posted } from '#web/forms/posted.ts'

const openingBalanceForm = z.object({ formId: formIdField(), day: bookedDay(), balance: money() })

export const enterOpeningBalance = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(openingBalanceForm, typed),
    again: (typed, errors) => showOpeningBalance(c, typed, errors),
    keep({ formId, day, balance }) {
      const { books } = c.var.web
      const account = accountOf(c)
      if (!account) return refuse({ path: '', message: noSuchAccount })
      // The same form once more finds its own entry, and is the same success.
      if (!openingByFiles(books, account.id) && !findEntry(books, formId))
        return refuse({
          path: '',
          message: 'The books say already what this account held before its first transaction',
        })
      const { sideId } = account
      const head = {
        id: formId,
        sideId,
        day,
        payee: '',
        memo: `What ${account.name} held before its first transaction`,
      }
      const opening = systemAccount(books, sideId, 'opening_balances')
      const draft = openingEntry(head, opening.id, [{ account, balanceCents: balance }])
      if (!draft) return refuse({ path: 'balance', message: 'Enter an amount other than 0' })
      const done = postEntry(books, actOf(c, formId), draft)
      return done.ok
        ? moveOn(
            c,
            `/books/reconcile?account=${account.id}`,
            `The opening balance of ${account.name} is entered.`,
          )
        : done
    },
  })

const noSuchAccount = 'There is no such account.'

const accountOf = (c: PageContext) => {
  const account = findAccount(c.var.web.books, Number.parseInt(c.req.param('account') ?? '', 10))
  return account && isMoney(account) ? account : undefined
}

export function showOpeningBalance(c: PageContext, typed?: TypedForm, errors: FormErrors = {}) {
  const { books } = c.var.web
  const account = accountOf(c)
  if (!account) return notFound(c, noSuchAccount)
  const said = openingByFiles(books, account.id)
  const side = listSides(books, { withArchived: true }).find((one) => one.id === account.sideId)!
  const figures = {
    account: { id: account.id, name: account.name },
    side: { kind: side.kind, name: side.name },
    firstLine: said?.first ?? null,
  }
  const form =
    typed ??
    openingForm({
      formId: newFormId(),
      ...(said ? { day: addDays(said.first, -1), balance: centsToDecimalText(said.cents) } : {}),
    })
  return answer(c, {
    title: `Opening balance of ${account.name}`,
    status: statusOf(errors),
    figures,
    page: () => <OpeningBalancePage figures={figures} typed={form} errors={errors} />,
  })
}
