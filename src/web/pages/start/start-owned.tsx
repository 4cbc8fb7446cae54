// The step for loans and things owned: terms go into the plan, what is owned into the books' opening balances.
import { z } from 'zod'
import { listSides } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import { atomically } from '#db/once.ts'
import { refuse } from '#ledger/problem.ts'
import { cents } from '#money/cents.ts'
import { currentPlan } from '#today/current-plan.ts'
import { planLoanOf } from '#today/loan-terms.ts'
import { type OwedLoan, OwnedStep } from '#views/start/owned.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { formIdField } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  rowCount,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { posted } from '#web/forms/posted.ts'
import { loanRow, owedLoans, saveLoans } from './start-loans.ts'
import { keepThings, lastingAccounts, thingProblems, thingRow, writtenOffAccounts } from './start-things.ts'

const rowsOffered = 2
const mostRows = 40

const ownedForm = z.object({
  formId: formIdField(),
  loans: z.array(loanRow).max(40).default([]),
  things: z.array(thingRow).max(mostRows).default([]),
})

export function showOwned(c: PageContext) {
  const { books } = c.var.web
  const current = currentPlan(books)
  const values: Record<string, string> = { formId: newFormId() }
  if (current.status === 'read')
    owedLoans(books).here.forEach(({ account }, index) => {
      const known = planLoanOf(current.plan, account)
      values[`loans.${index}.rate`] = known ? String(Math.round(known.yearlyRate * 1e6) / 1e4) : ''
      values[`loans.${index}.payment`] = known?.paymentPerMonth?.toFixed(2) ?? ''
      values[`loans.${index}.escrow`] = known?.escrowPerMonth?.toFixed(2) ?? ''
      const secured = known ? known.onRealEstate : account.propertyLoan === 'loan'
      values[`loans.${index}.realEstate`] = secured ? 'yes' : ''
    })
  return answerOwned(c, openingForm(values), {})
}

/** What cannot be read in one row does not keep the others' mistakes for a second press: all are named at once. */
const checkOwned = (c: PageContext, typed: TypedForm) => {
  const checked = checkForm(ownedForm, typed)
  const { books } = c.var.web
  const first = openingDay(books)
  if (checked.ok || first === null) return checked
  const typedRows: unknown[] = Array.isArray(typed.nested.things)
    ? typed.nested.things.slice(0, mostRows)
    : []
  const rows = typedRows.map((row) => thingRow.safeParse(row).data ?? null)
  const others = thingProblems(books, rows, first).map(({ path, message }) => [path, message] as const)
  return { ok: false as const, errors: { ...Object.fromEntries(others), ...checked.errors } }
}

export const postOwned = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkOwned(c, typed),
    again: (typed, errors) => answerOwned(c, typed, errors),
    keep(form) {
      const { books } = c.var.web
      const first = openingDay(books)
      if (first === null) return c.redirect('/start/accounts', 303)
      const act = actOf(c, form.formId)
      const saved = atomically(books, () => {
        // What is wrong is said of all rows at once: a refusal keeps nothing of either.
        const faults = [
          ...keepThings(books, act, form.things, first),
          ...saveLoans(books, act, form.loans, first),
        ]
        return faults.length > 0 ? refuse(...faults) : { ok: true as const }
      })
      return saved.ok ? moveOn(c, '/start/year') : saved
    },
  })

function answerOwned(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  if (listSides(books).length === 0) return c.redirect('/start/who', 303)
  const first = openingDay(books)
  if (first === null) return c.redirect('/start/accounts', 303)
  const sides = new Map(listSides(books).map((side) => [side.id, side.name]))
  const balances = balancesOn(books, first)
  const lasting = lastingAccounts(books)
  const owed = owedLoans(books)
  const shown = (loans: typeof owed.here): OwedLoan[] =>
    loans.map(({ account, owed: owedCents }) => ({
      accountId: account.id,
      name: account.name,
      side: sides.get(account.sideId) ?? '',
      owedCents,
    }))
  return answer(c, {
    title: 'Loans, and what you own',
    status: statusOf(errors),
    withoutPages: true,
    page: () => (
      <OwnedStep
        typed={typed}
        errors={errors}
        loans={shown(owed.here)}
        elsewhere={shown(owed.elsewhere)}
        held={[...lasting, ...writtenOffAccounts(books)].flatMap((account) => {
          const held = balances.get(account.id) ?? cents(0)
          return held === 0
            ? []
            : [{ name: account.name, side: sides.get(account.sideId) ?? '', cents: held }]
        })}
        accounts={lasting.map((account) => ({
          value: String(account.id),
          label: `${account.name}, ${sides.get(account.sideId)}`,
        }))}
        rows={Math.min(mostRows, rowCount(typed, 'things', rowsOffered) + (typed.value('more') ? 2 : 0))}
      />
    ),
  })
}
