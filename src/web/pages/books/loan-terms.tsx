// The terms of a loan on its account's page: they are kept with the plan's loan, which knows its account.
import { Hono } from 'hono'
import { z } from 'zod'
import { loanState } from '#db/ledger/loan-state.ts'
import { farmSide } from '#ledger/account.ts'
import { centsToDollars } from '#money/cents.ts'
import { hasTerms, loanAsBooked, loansOf, planLoanOf, withLoans } from '#today/loan-terms.ts'
import { LoanTermsPage } from '#views/books/loan-terms.tsx'
import { type Answered, answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { checkbox, moneyAboveZero, moneyZeroOrMore, optionalText, percent } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { type PlanToday, withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { type Register, registerOf } from './register.tsx'

export const loanTermsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/accounts/:id{[0-9]{1,12}}/loan', (c) =>
        ofLoan(c, (register) => withPlan(c, (current) => showTerms(c, register, current))),
      )
      .post('/books/accounts/:id{[0-9]{1,12}}/loan', async (c) =>
        postPlan(c, `/books/accounts/${c.req.param('id')}`, (form) =>
          ofLoan(c, (register) => saveTerms(c, register, form)),
        ),
      ),
}

const ofLoan = (c: PageContext, show: (register: Register) => Answered): Answered => {
  const register = registerOf(c)
  return register && hasTerms(register.account)
    ? show(register)
    : notFound(c, 'There is no loan of this number.')
}

function showTerms(c: PageContext, register: Register, current: PlanToday) {
  const known = planLoanOf(current.plan, register.account)
  const opening = {
    formId: newFormId(),
    rate: known ? String(Math.round(known.yearlyRate * 1e6) / 1e4) : '',
    payment: known?.paymentPerMonth?.toFixed(2) ?? '',
    escrow: known?.escrowPerMonth?.toFixed(2) ?? '',
    realEstate: (known ? known.onRealEstate : register.account.propertyLoan === 'loan') ? 'yes' : '',
  }
  return answerTerms(c, register, current, openingForm(opening), {})
}

const termsForm = z.object({
  rate: percent().refine((rate) => rate >= 0 && rate <= 0.5, { error: 'Enter a rate from 0 to 50 percent' }),
  payment: moneyAboveZero(),
  escrow: moneyZeroOrMore(),
  planLoan: optionalText(60),
  realEstate: checkbox(),
})

function saveTerms(c: PageContext, register: Register, form: PlanForm) {
  const { typed, current } = form
  const checked = checkForm(termsForm, typed)
  if (!checked.ok) return answerTerms(c, register, current, typed, checked.errors)
  const { account } = register
  const { rate, payment, escrow, planLoan, realEstate } = checked.value
  const terms = {
    yearlyRate: rate,
    paymentPerMonth: centsToDollars(payment),
    escrowPerMonth: escrow > 0 ? centsToDollars(escrow) : undefined,
    onRealEstate: realEstate,
    bookAccount: account.number,
  }
  const loans = loansOf(current.plan, account)
  const known = loans.find(
    (one) => one.bookAccount === account.number || (planLoan !== '' && one.id === planLoan),
  )
  const next = known
    ? loans.map((one) => (one === known ? { ...one, ...terms } : one))
    : [...loans, { ...loanAsBooked(c.var.web.books, account, loans, c.var.web.today()), ...terms }]
  const changed = withLoans(current.plan, account, next)
  const place = known ? loans.indexOf(known) : loans.length
  const note = `${account.name}: rate and payment saved in the plan`
  const own = `${account.sideId === farmSide ? 'farm' : 'household'}.loans.${place}.`
  return savePlanForm(c, form, { changed, note }, (issues) =>
    answerTerms(
      c,
      register,
      current,
      typed,
      errorsAt(issues, (path) => fieldNames[path.slice(own.length)] ?? null),
    ),
  )
}

const fieldNames: Readonly<Record<string, string>> = { yearlyRate: 'rate', paymentPerMonth: 'payment' }

function answerTerms(
  c: PageContext,
  { account, side }: Register,
  current: PlanForm['current'],
  typed: TypedForm,
  errors: FormErrors,
) {
  const loans = loansOf(current.plan, account)
  const { owedCents } = loanState(c.var.web.books, account.id, c.var.web.today())
  const isHeld = loans.some((one) => one.bookAccount === account.number)
  return answer(c, {
    title: `${account.name}: rate and payment`,
    status: statusOf(errors),
    asTyped: true,
    figures: { account: account.id, owedCents, loan: planLoanOf(current.plan, account) ?? null },
    page: () => (
      <LoanTermsPage
        account={{ id: account.id, name: account.name, side: side.name, owedCents }}
        unheld={
          isHeld
            ? []
            : loans
                .filter((one) => one.bookAccount === undefined)
                .map((one) => ({ value: one.id, label: one.name }))
        }
        typed={typed}
        errors={errors}
        ids={{ formId: typed.value('formId'), ...openedIn(typed, current) }}
      />
    ),
  })
}
