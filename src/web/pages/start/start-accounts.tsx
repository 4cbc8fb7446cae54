// The step for accounts and balances: opening balances posted once a side, and changed later in the fields they were entered in.
import { z } from 'zod'
import { firstDayOf, monthOfDay } from '#calendar/day.ts'
import { changeOpenings, openedBalances } from '#db/acts/opening-balances.ts'
import { findAccount, listAccounts, listSides, systemAccount } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { holdsOnlyOpenings, moneyIsOpened, openingDay } from '#db/ledger/opening-day.ts'
import { type Act, atomically, wasCarriedOut } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type Account, growsByDebit, holdsCash, isMoney } from '#ledger/account.ts'
import { type FieldProblem, refuse } from '#ledger/problem.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { type Cents, cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { currentPlan } from '#today/current-plan.ts'
import { AccountsStep, type BalanceRow } from '#views/start/start.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { bookedDay, earnsOrNull, formIdField, moneyOrNull, rowId } from '#web/forms/fields.ts'
import {
  type Checked,
  checkForm,
  type FormErrors,
  newFormId,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { posted } from '#web/forms/posted.ts'
import { earnsText } from '#web/pages/books/money-earns.tsx'
import { dayFault, isCard, overpaidBox, owedFaults } from './opening-faults.ts'
import { hasOwnSavings, saveSavings } from './start-savings.ts'

const accountsForm = z.object({
  formId: formIdField(),
  day: bookedDay(),
  balances: z
    .array(
      z.object({
        account: rowId('Open this step again'),
        amount: moneyOrNull(),
        earns: earnsOrNull().optional(),
      }),
    )
    .max(60, { error: 'Open this step again' })
    .default([]),
})

export const postAccounts = (c: PageContext) =>
  posted(c, {
    check: (typed) =>
      withFaults(checkForm(accountsForm, typed), {
        ...dayFault(typed),
        ...owedFaults(c.var.web.books, typed),
      }),
    again: (typed, errors) => showAccounts(c, typed, errors),
    keep: (form) => keepAccounts(c, form),
  })

function keepAccounts(c: PageContext, form: z.output<typeof accountsForm>) {
  const { books } = c.var.web
  const act = actOf(c, form.formId)
  const { day } = form
  const today = c.var.web.today()
  if (!wasCarriedOut(books, form.formId) && moneyIsOpened(books))
    return refuse({
      path: '',
      message: 'Opening balances are in the books already. Reverse them on Books first',
    })
  const saved = atomically(books, () => {
    const problems = postOpening(books, act, form)
    const faults =
      problems.length > 0
        ? problems
        : saveSavings(books, act, { first: day, today, earns: ratesOf(form.balances) })
    return faults.length > 0 ? refuse(...faults) : { ok: true as const }
  })
  if (!saved.ok) return saved
  const current = currentPlan(books)
  return current.status === 'read' && hasOwnSavings(current.plan)
    ? moveOn(c, '/start/owned', 'The plan has savings accounts of its own: they stay. Change them on Runway.')
    : moveOn(c, '/start/owned')
}

/** What was typed at accounts that earn something, by their ids. */
const ratesOf = (rows: z.output<typeof accountsForm>['balances']): ReadonlyMap<number, number> =>
  new Map(rows.flatMap(({ account, earns }) => (earns ? [[account, earns] as const] : [])))

/** What the form's own check found at a field goes before. */
const withFaults = <Value,>(checked: Checked<Value>, faults: FormErrors): Checked<Value> =>
  Object.keys(faults).length === 0
    ? checked
    : { ok: false, errors: { ...faults, ...(checked.ok ? {} : checked.errors) } }

/** One opening entry per side; sides whose balances are all empty get none. */
function postOpening(books: Books, act: Act, form: z.output<typeof accountsForm>): FieldProblem[] {
  const typed = new Map<number, Cents>(form.balances.map((row) => [row.account, row.amount ?? cents(0)]))
  for (const side of listSides(books)) {
    const balances = listAccounts(books, { sideId: side.id }).map((account) => ({
      account,
      balanceCents: typed.get(account.id) ?? cents(0),
    }))
    const head = { id: act.formId, sideId: side.id, day: form.day, payee: '', memo: 'Opening balances' }
    const draft = openingEntry(head, systemAccount(books, side.id, 'opening_balances').id, balances)
    if (!draft) continue
    const posted = postEntry(books, { ...act, formId: `${act.formId}.${side.id}` }, draft)
    if (!posted.ok) return posted.problems
  }
  return []
}

/** The first day as it is usual, or once balances stand in the books, these as they were entered. */
export function openingAccounts(c: PageContext): Record<string, string> {
  const { books, today } = c.var.web
  const values: Record<string, string> = { formId: newFormId(), day: firstDayOf(monthOfDay(today())) }
  if (!moneyIsOpened(books)) return values
  const opened = openedBalances(books)
  balanceRows(books)
    .flatMap(({ rows }) => rows)
    .forEach(({ accountId }, index) => {
      values[`balances.${index}.earns`] = earnsIn(c, accountId)
      const balance = opened.get(accountId)
      if (balance !== undefined) values[`balances.${index}.amount`] = centsToDecimalText(balance)
    })
  return values
}

/** As the plan has it. */
const earnsIn = (c: PageContext, accountId: number): string => {
  const current = currentPlan(c.var.web.books)
  const account = findAccount(c.var.web.books, accountId)
  return current.status === 'read' && account ? earnsText(current.plan, account.number) : ''
}

const changeForm = accountsForm.omit({ day: true })

/** Balances that stand in the books, changed in the fields they were entered in; once anything else is booked the plan keeps its own. */
export const postChange = (c: PageContext) =>
  posted(c, {
    check: (typed) => withFaults(checkForm(changeForm, typed), owedFaults(c.var.web.books, typed)),
    again: (typed, errors) => showAccounts(c, typed, errors),
    keep({ formId, balances }, sent) {
      const { books, today } = c.var.web
      const act = actOf(c, formId)
      const first = openingDay(books)
      if (first === null) return c.redirect('/start/accounts', 303)
      const typed = new Map(balances.map(({ account, amount }) => [account, amount ?? cents(0)]))
      const done = atomically(books, () => {
        const changed = changeOpenings(books, act, first, typed)
        if (!changed.ok) return changed
        const step = { ...act, formId: `${formId}.plan` }
        const faults = holdsOnlyOpenings(books)
          ? saveSavings(books, step, { first, today: today(), earns: ratesOf(balances) })
          : []
        return faults.length > 0 ? refuse(...faults) : changed
      })
      if (!done.ok) return refuse(...done.problems.map(({ message }) => ({ path: '', message })))
      const { entries } = done.result
      return moveOn(
        c,
        sent.value('next') === 'owned' ? '/start/owned' : '/start/accounts',
        entries === 0 ? 'Nothing was changed.' : 'The balances are changed.',
      )
    },
  })

export function showAccounts(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  if (listSides(books).length === 0) return c.redirect('/start/who', 303)
  return answer(c, {
    title: 'Accounts and balances',
    status: statusOf(errors),
    withoutPages: true,
    page: () => (
      <AccountsStep
        typed={typed}
        errors={errors}
        sides={balanceRows(books)}
        opened={moneyIsOpened(books) ? openingDay(books) : null}
      />
    ),
  })
}

/** Where money lies, and what is owed; what else is owned can be entered later. */
const balanceRows = (books: Books) =>
  [...listSides(books)].reverse().map((side) => ({
    name: side.name,
    kind: side.kind,
    rows: listAccounts(books, { sideId: side.id })
      .filter((account) => isMoney(account) || account.kind === 'liability')
      .map(
        (account): BalanceRow => ({
          accountId: account.id,
          name: account.name,
          isOwed: !growsByDebit(account.kind),
          mayEarn: holdsCash(account),
          overpaidBox: isCard(account) ? overpaidBox(account.id) : null,
          hint: hintOf(account),
        }),
      ),
  }))

const hintOf = (account: Account): string => {
  if (!growsByDebit(account.kind)) return 'What you owe, without a minus'
  return account.cashRole === 'spendable' ? 'Spendable savings' : ''
}
