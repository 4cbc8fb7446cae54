// The step for loans and things owned: terms go into the plan, what is owned into the books' opening balances.
import { z } from 'zod'
import type { Day } from '#calendar/day.ts'
import { findAccount, listAccounts, listSides, systemAccount } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import { type Act, atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { saveHolding } from '#db/year-store.ts'
import { type Account, householdSide, isLasting, isMoney, type SideId } from '#ledger/account.ts'
import { type FieldProblem, refuse } from '#ledger/problem.ts'
import { holdingKinds } from '#ledger/reports/stock-inventory.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { currentPlan } from '#today/current-plan.ts'
import { planLoanOf } from '#today/loan-terms.ts'
import { type OwedLoan, OwnedStep } from '#views/start/owned.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { dayOrNull, formIdField, moneyOrNull, optionalText } from '#web/forms/fields.ts'
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

const rowsOffered = 2
const mostRows = 40

const thingRow = z.object({
  name: optionalText(60),
  account: optionalText(20),
  worth: moneyOrNull(),
  bought: dayOrNull(),
  kind: z
    .union([z.literal(''), z.enum(holdingKinds)], { error: 'Choose from the list' })
    .default('')
    .transform((kind) => (kind === '' ? null : kind)),
  loan: optionalText(20),
})

const ownedForm = z.object({
  formId: formIdField(),
  loans: z.array(loanRow).max(40).default([]),
  things: z.array(thingRow).max(mostRows).default([]),
})
type OwnedForm = z.output<typeof ownedForm>

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

export const postOwned = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(ownedForm, typed),
    again: (typed, errors) => answerOwned(c, typed, errors),
    keep(form) {
      const { books } = c.var.web
      const first = openingDay(books)
      if (first === null) return c.redirect('/start/accounts', 303)
      const act = actOf(c, form.formId)
      const saved = atomically(books, () => {
        const faults = [...thingProblems(books, form, first)]
        if (faults.length === 0) faults.push(...postThings(books, act, form, first))
        if (faults.length === 0) faults.push(...listThings(books, act, form, first))
        if (faults.length === 0) faults.push(...saveLoans(books, act, form.loans, first))
        return faults.length > 0 ? refuse(...faults) : { ok: true as const }
      })
      return saved.ok ? moveOn(c, '/start/year') : saved
    },
  })

/** What is owned for years and is no money. */
const lastingAccounts = (books: Books): Account[] =>
  listAccounts(books).filter((account) => isLasting(account) && !isMoney(account))

const isBlank = (row: OwnedForm['things'][number]): boolean =>
  row.name === '' &&
  row.account === '' &&
  row.worth === null &&
  row.bought === null &&
  row.loan === '' &&
  row.kind === null

const thingProblems = (books: Books, form: OwnedForm, first: Day): FieldProblem[] => {
  const known = new Set(lastingAccounts(books).map((account) => String(account.id)))
  return form.things.flatMap((row, index) => {
    if (isBlank(row)) return []
    const at = (name: string, message: string): FieldProblem => ({ path: `things.${index}.${name}`, message })
    return [
      ...(row.name === '' ? [at('name', 'Say what it is, like tractor')] : []),
      ...(known.has(row.account) ? [] : [at('account', 'Choose what kind of thing it is')]),
      ...(row.kind !== null && sideOf(books, row) === householdSide
        ? [at('kind', 'The household’s things are not written off: leave this empty')]
        : []),
      ...(row.worth === null || row.worth <= 0 ? [at('worth', 'Enter what it is worth, above zero')] : []),
      ...(row.bought !== null && row.bought > first
        ? [
            at(
              'bought',
              `The books begin on ${first}: enter what was bought after it on its day, under Books`,
            ),
          ]
        : []),
    ]
  })
}

/** One opening entry a side; day, and the loan that paid for it, stand with each line. */
function postThings(books: Books, act: Act, form: OwnedForm, first: Day): FieldProblem[] {
  for (const side of listSides(books)) {
    const balances = form.things.flatMap((row) => {
      const account = isBlank(row) ? undefined : findAccount(books, Number.parseInt(row.account, 10))
      if (account?.sideId !== side.id) return []
      return [{ account, balanceCents: row.worth ?? cents(0), memo: memoOf(books, row) }]
    })
    const head = {
      id: `${act.formId}.${side.id}`,
      sideId: side.id,
      day: first,
      payee: '',
      memo: 'Opening balances: what is owned',
    }
    const draft = openingEntry(head, systemAccount(books, side.id, 'opening_balances').id, balances)
    if (!draft) continue
    const posted = postEntry(books, { ...act, formId: head.id }, draft)
    if (!posted.ok) return posted.problems.map(({ message }) => ({ path: '', message }))
  }
  return []
}

/**
 * Things of farm and ventures stand on the inventory too, at what they are worth on the first day: what they had cost and what was
 * written off before, the year's papers ask for.
 */
function listThings(books: Books, act: Act, form: OwnedForm, first: Day): FieldProblem[] {
  return form.things.flatMap((row, index) => {
    const sideId = sideOf(books, row)
    if (isBlank(row) || row.kind === null || sideId === undefined) return []
    const formId = `${act.formId}.thing.${index}`
    const saved = saveHolding(books, { ...act, formId }, sideId, {
      name: row.name,
      kind: row.kind,
      quantity: 1,
      unit: '',
      raised: false,
      costCents: row.worth ?? cents(0),
      acquiredDay: row.bought ?? first,
      inServiceDay: null,
      accountId: Number.parseInt(row.account, 10),
      depreciation: null,
      marketValueCents: row.worth,
      valuedDay: first,
    })
    return saved.ok ? [] : saved.problems.map(({ message }) => ({ path: `things.${index}.name`, message }))
  })
}

const sideOf = (books: Books, row: OwnedForm['things'][number]): SideId | undefined =>
  findAccount(books, Number.parseInt(row.account, 10))?.sideId

const memoOf = (books: Books, row: OwnedForm['things'][number]): string => {
  const loan = /^\d+$/.test(row.loan) ? findAccount(books, Number.parseInt(row.loan, 10)) : undefined
  return [row.name, row.bought ? `bought ${row.bought}` : '', loan ? `paid for by ${loan.name}` : '']
    .filter(Boolean)
    .join(', ')
}

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
        held={lasting.flatMap((account) => {
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
