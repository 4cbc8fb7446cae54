// What the money in an account of the household earns, on its own page: kept with the plan's account that is tied to it.
import { Hono } from 'hono'
import { z } from 'zod'
import { balancesOn } from '#db/ledger/balances.ts'
import { holdsCash } from '#ledger/account.ts'
import { cents, centsToDollars } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { earnsOf, tiedTo, withEarning } from '#plan/savings/money-earns.ts'
import { MoneyEarnsPage } from '#views/books/money-earns.tsx'
import { type Answered, answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { earnsOrNull } from '#web/forms/fields.ts'
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
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { type Register, registerOf } from './register.tsx'

export const moneyEarnsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/accounts/:id{[0-9]{1,12}}/earns', (c) =>
        ofMoney(c, (register) =>
          withPlan(c, (current) =>
            answerEarns(
              c,
              register,
              current,
              openingForm({ formId: newFormId(), earns: earnsText(current.plan, register.account.number) }),
              {},
            ),
          ),
        ),
      )
      .post('/books/accounts/:id{[0-9]{1,12}}/earns', async (c) =>
        postPlan(c, `/books/accounts/${c.req.param('id')}`, (form) =>
          ofMoney(c, (register) => saveEarns(c, register, form)),
        ),
      ),
}

/** The rate of an account of the books, by its number, as it is typed; empty where none was told. */
export const earnsText = (plan: Plan, number: number): string => {
  const own = tiedTo(plan, number)
  return own === undefined ? '' : String(Math.round(earnsOf(plan, own) * 1e8) / 1e6)
}

const ofMoney = (c: PageContext, show: (register: Register) => Answered): Answered => {
  const register = registerOf(c)
  return register && holdsCash(register.account)
    ? show(register)
    : notFound(c, 'There is no account of this number with money of the household in it.')
}

const earnsForm = z.object({ earns: earnsOrNull() })

function saveEarns(c: PageContext, register: Register, form: PlanForm): Answered {
  const { typed, current } = form
  const { account } = register
  const checked = checkForm(earnsForm, typed)
  if (!checked.ok) return answerEarns(c, register, current, typed, checked.errors)
  const rate = checked.value.earns ?? 0
  // A nothing that is told stands by itself, so that it is not asked for again.
  const isNothing = checked.value.earns === null && tiedTo(current.plan, account.number) === undefined
  const money = { number: account.number, name: account.name, balance: heldIn(c, register) }
  const changed = isNothing ? current.plan : withEarning(current.plan, money, rate)
  return savePlanForm(
    c,
    form,
    { changed, note: `${account.name}: what it earns saved in the plan` },
    (issues) =>
      answerEarns(
        c,
        register,
        current,
        typed,
        errorsAt(issues, (path) => (path.startsWith('savings.') ? 'earns' : null)),
      ),
  )
}

const heldIn = (c: PageContext, { account }: Register): number =>
  centsToDollars(balancesOn(c.var.web.books).get(account.id) ?? cents(0))

function answerEarns(
  c: PageContext,
  register: Register,
  current: PlanForm['current'],
  typed: TypedForm,
  errors: FormErrors,
): Answered {
  const { account, side } = register
  const { plan } = current
  const own = tiedTo(plan, account.number)
  const cash = plan.savings.accounts.filter((one) => one.kind === 'cash' && one.bookAccount === undefined)
  return answer(c, {
    title: `${account.name}: what it earns`,
    status: statusOf(errors),
    asTyped: true,
    figures: { account: account.id, earns: own === undefined ? null : earnsOf(plan, own) },
    page: () => (
      <MoneyEarnsPage
        account={{ id: account.id, name: account.name, side: side.name, dollars: heldIn(c, register) }}
        among={own === undefined ? cash.map((one) => ({ name: one.name, earns: earnsOf(plan, one) })) : []}
        typed={typed}
        errors={errors}
        ids={{ formId: typed.value('formId'), ...openedIn(typed, current) }}
      />
    ),
  })
}
