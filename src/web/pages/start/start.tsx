// The first run in short steps, each saved as it is sent, so that it can be left and taken up again.
import { Hono } from 'hono'
import { z } from 'zod'
import { firstDayOf, monthOfDay } from '#calendar/day.ts'
import { hasHousehold, listAccounts, listSides, systemAccount } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { moneyIsOpened } from '#db/ledger/opening-day.ts'
import { type Act, atomically, wasCarriedOut } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { growsByDebit, isMoney } from '#ledger/account.ts'
import { type FieldProblem, refuse } from '#ledger/problem.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatPercent } from '#money/format.ts'
import { currentPlan } from '#today/current-plan.ts'
import { CostsStep } from '#views/start/costs.tsx'
import { Counties } from '#views/start/place.tsx'
import { AccountsDone, AccountsStep, type BalanceRow, Welcome, WhoStep } from '#views/start/start.tsx'
import { actOf } from '#web/forms/act.ts'
import { type Answered, answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { bookedDay, formIdField, moneyOrNull, rowId } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  rowCount,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { isOutdated, showOverTheirs, versionOf } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { placeChoices } from './place-choices.ts'
import { costsForm, openingCosts, saveCosts } from './start-costs.ts'
import { postOwned, showOwned } from './start-owned.tsx'
import { hasOwnSavings, saveSavings, saveWho, whoForm, withoutBlankPeople } from './start-plan.ts'
import { postYear, showYear } from './start-year.tsx'

export const startPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/start', (c) =>
        answer(c, {
          title: 'Welcome',
          withoutPages: true,
          figures: { hasBooks: hasHousehold(c.var.web.books) },
          page: () => <Welcome hasOwn={hasHousehold(c.var.web.books)} />,
        }),
      )
      .get('/start/counties', (c) =>
        c.html(<Counties counties={placeChoices(c.req.query('state') ?? '').counties} />),
      )
      .get('/start/who', (c) => showWho(c, openingForm(openingWho(c)), {}))
      .post('/start/who', (c) => takeWho(c, showWho, () => moveOn(c, '/start/accounts')))
      .get('/start/accounts', (c) => {
        const day = firstDayOf(monthOfDay(c.var.web.today()))
        return showAccounts(c, openingForm({ formId: newFormId(), day }), {})
      })
      .post('/start/accounts', postAccounts)
      .get('/start/owned', showOwned)
      .post('/start/owned', postOwned)
      .get('/start/year', showYear)
      .post('/start/year', postYear)
      .get('/start/costs', (c) =>
        showCosts(c, openingForm({ formId: newFormId(), ...openingCosts(currentPlan(c.var.web.books)) }), {}),
      )
      .post('/start/costs', (c) =>
        posted(c, {
          check: (typed) => checkForm(costsForm, typed),
          again: (typed, errors) => showCosts(c, typed, errors),
          keep(costs) {
            const { books, today } = c.var.web
            const problems = saveCosts(books, actOf(c, costs.formId), costs, today())
            if (problems.length > 0) return refuse(...problems)
            return moveOn(c, '/now', 'The books are set up. This is where you stand.')
          },
        }),
      ),
}

const showWho = (c: PageContext, typed: TypedForm, errors: FormErrors) =>
  answer(c, {
    title: 'Who',
    status: statusOf(errors),
    withoutPages: true,
    page: () => (
      <WhoStep
        typed={typed}
        errors={errors}
        childRows={rowCount(typed, 'children', 3)}
        place={placeChoices(typed.value('state'))}
      />
    ),
  })

/** The same form stands among the first steps and under Settings; `show` gives it back with what was wrong. */
export const takeWho = (
  c: PageContext,
  show: (c: PageContext, typed: TypedForm, errors: FormErrors) => Answered,
  done: () => Response,
): Promise<Response> =>
  posted(c, {
    check: (typed) => checkForm(whoForm, withoutBlankPeople(typed)),
    again: (typed, errors) => show(c, typed, errors),
    keep(who, typed) {
      const now = openingForm(openingWho(c))
      if (isOutdated(c, typed, now))
        return showOverTheirs(c, {
          what: 'people and place',
          typed,
          now,
          subject: subjectOf(c),
          theirs: new URL(c.req.url).pathname,
          alike: done,
        })
      const problems = saveWho(c.var.web.books, actOf(c, who.formId), who, c.var.web.today())
      return problems.length > 0 ? refuse(...problems) : done()
    },
  })

/** Whose change shows in the form: the plan's. */
const subjectOf = (c: PageContext): string => {
  const current = currentPlan(c.var.web.books)
  return current.status === 'none' ? '' : current.planId
}

/** Who the plan knows already, to open the form with; based on all that it shows. */
export function openingWho(c: PageContext): Record<string, string> {
  const shown = whoAsText(c)
  return { ...shown, formId: newFormId(), basedOn: versionOf(shown) }
}

function whoAsText(c: PageContext): Record<string, string> {
  const current = currentPlan(c.var.web.books)
  const values: Record<string, string> = {
    farmName: listSides(c.var.web.books).find((side) => side.kind === 'farm')?.name ?? '',
  }
  if (current.status !== 'read') return values
  values.state = current.plan.household.place.state ?? ''
  values.county = current.plan.household.place.county ?? ''
  const { stateTax } = current.plan.tax
  values.localRate =
    stateTax.kind === 'law' && stateTax.localRate > 0 ? formatPercent(stateTax.localRate, 4) : ''
  const { people, dependants } = current.plan.household
  for (const [list, rows] of [
    ['people', people],
    ['children', dependants],
  ] as const) {
    rows.forEach((row, index) => {
      values[`${list}.${index}.name`] = row.name
      values[`${list}.${index}.born`] = row.born
      const hours = current.plan.farm.crew.find((one) => one.who === row.id)?.weeklyHours
      if (typeof hours === 'number') values[`${list}.${index}.hours`] = String(hours)
    })
  }
  return values
}

const accountsForm = z.object({
  formId: formIdField(),
  day: bookedDay(),
  balances: z
    .array(z.object({ account: rowId('Open this step again'), amount: moneyOrNull() }))
    .max(60, { error: 'Open this step again' })
    .default([]),
})

const postAccounts = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(accountsForm, typed),
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
      message: 'Opening balances are in the books already. Take them back on Books first',
    })
  if (day < firstDayTaken || day > today)
    return refuse({ path: 'day', message: 'Enter a day from 2000-01-01 to today' })
  const saved = atomically(books, () => {
    const problems = postOpening(books, act, form)
    const faults = problems.length > 0 ? problems : saveSavings(books, act, day, today)
    return faults.length > 0 ? refuse(...faults) : { ok: true as const }
  })
  if (!saved.ok) return saved
  const current = currentPlan(books)
  return current.status === 'read' && hasOwnSavings(current.plan)
    ? moveOn(c, '/start/owned', 'The plan has savings accounts of its own: they stay. Change them on Runway.')
    : moveOn(c, '/start/owned')
}

/** Books can begin long ago, where all their statements are at hand. */
const firstDayTaken = '2000-01-01'

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

function showAccounts(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  if (listSides(books).length === 0) return c.redirect('/start/who', 303)
  const isDone = moneyIsOpened(books) && Object.keys(errors).length === 0
  return answer(c, {
    title: 'Accounts and balances',
    status: statusOf(errors),
    withoutPages: true,
    page: () =>
      isDone ? <AccountsDone /> : <AccountsStep typed={typed} errors={errors} sides={balanceRows(books)} />,
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
          hint: account.cashRole === 'spendable' && growsByDebit(account.kind) ? 'Spendable savings' : '',
        }),
      ),
  }))

function showCosts(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const current = currentPlan(c.var.web.books)
  if (current.status === 'none') return c.redirect('/start/who', 303)
  const people = current.status === 'read' ? current.plan.household.people : []
  return answer(c, {
    title: 'Monthly costs',
    status: statusOf(errors),
    withoutPages: true,
    page: () => <CostsStep typed={typed} errors={errors} people={people} />,
  })
}
