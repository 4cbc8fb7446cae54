// A worker's pay, entered on one form and booked as one entry; what is left empty is filled in by the law's rates.
import { Hono } from 'hono'
import { z } from 'zod'
import { dayName } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { listPayees, paidInYear, sayPayees } from '#db/tax/payees.ts'
import { type Account, isCash, type SideId } from '#ledger/account.ts'
import { type Refusal, refuse } from '#ledger/problem.ts'
import { paysForWork } from '#ledger/schedule-lines.ts'
import { netOf, type Pay, type PayAccounts, payEntry, proposedPay } from '#ledger/tax/pay-entry.ts'
import type { PayeeSaid } from '#ledger/tax/payee-totals.ts'
import { workersPaid } from '#ledger/tax/wages.ts'
import { zeroCents } from '#money/cents.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import { farmWageTests } from '#rules/data/farm-payroll.ts'
import { inForce } from '#rules/in-force.ts'
import { PayPage } from '#views/year-pack/pay.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import {
  bookedDay,
  formIdField,
  moneyAboveZero,
  moneyZeroOrMore,
  moneyZeroOrMoreOrNull,
  requiredText,
  rowId,
} from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { overClosedYears } from '#web/forms/pack/closed-years.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'

export const payPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/pay', (c) => show(c, openingForm(openingOf(c)), {}))
      .post('/year-pack/pay', bookPay),
}

const payForm = z.object({
  formId: formIdField(),
  worker: requiredText('Enter who was paid', 200),
  day: bookedDay(),
  wages: rowId('Choose the account of the wages'),
  money: rowId('Choose where it was paid from'),
  gross: moneyAboveZero(),
  federal: moneyZeroOrMore(),
  state: moneyZeroOrMore(),
  kept: moneyZeroOrMoreOrNull(),
  employer: moneyZeroOrMoreOrNull(),
  fill: z.string().max(3).default(''),
})
type PayForm = z.output<typeof payForm>

const openingOf = (c: PageContext): Record<string, string> => {
  const accounts = accountsOf(c)
  return {
    formId: newFormId(),
    day: c.var.web.today(),
    worker: c.req.query('worker') ?? '',
    wages: String(accounts.wages[0]?.id ?? ''),
    money: String(accounts.money[0]?.id ?? ''),
  }
}

/** Of farm and ventures, the farm's first. */
const accountsOf = (c: PageContext) => {
  const own = listSides(c.var.web.books).filter(({ kind }) => kind !== 'household')
  const all = own.flatMap(({ id }) => listAccounts(c.var.web.books, { sideId: id }))
  const isLabor = ({ scheduleLine }: Account) => scheduleLine === '22' || scheduleLine === '26'
  return {
    wages: all.filter(paysForWork).sort((a, b) => Number(isLabor(b)) - Number(isLabor(a))),
    money: all.filter((account) => account.kind === 'asset' && isCash(account)),
  }
}

/** What payroll needs of a side beside wages and money; null where a part is missing. */
const payrollOf = (c: PageContext, sideId: SideId): Omit<PayAccounts, 'wages' | 'money'> | null => {
  const own = listAccounts(c.var.web.books, { sideId })
  const find = (kind: Account['kind'], taxKind: Account['taxKind']) =>
    own.find((one) => one.kind === kind && one.taxKind === taxKind)?.id ?? null
  const [federal, payroll] = [find('liability', 'federal'), find('liability', 'payroll')]
  const employer = find('expense', 'payroll')
  return federal === null || payroll === null || employer === null
    ? null
    : { federal, payroll, employer, state: find('liability', 'state') ?? find('liability', 'local') }
}

const bookPay = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(payForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep(form, typed) {
      if (form.fill !== '') {
        const read = readPay(c, form)
        return read.ok ? show(c, filled(form, read.pay), {}) : read
      }
      const { books } = c.var.web
      const act = actOf(c, form.formId)
      // What is left empty hangs on the books as they are: sent twice, the form is known by what was typed.
      const done = overClosedYears(c, typed, act, () =>
        once(books, act, 'pay.book', form, () => {
          const read = readPay(c, form)
          return read.ok ? book(books, act, read) : read
        }),
      )
      return done.ok
        ? moveOn(
            c,
            `/year-pack/people?year=${yearIn(form.day)}#payroll`,
            undoable(c, bookedWords(done.result)),
          )
        : done
    },
  })

interface ReadPay {
  ok: true
  pay: Pay
  accounts: PayAccounts
}

const readPay = (c: PageContext, form: PayForm): ReadPay | Refusal => {
  const { wages, money } = accountsOf(c)
  const wage = wages.find(({ id }) => id === form.wages)
  const from = money.find(({ id }) => id === form.money)
  if (!wage) return refuse({ path: 'wages', message: 'Choose the account of the wages' })
  if (from?.sideId !== wage.sideId)
    return refuse({ path: 'money', message: 'Choose money of the same books as the wages' })
  const others = payrollOf(c, wage.sideId)
  if (!others)
    return refuse({
      path: 'wages',
      message:
        'These books lack accounts for what is kept back from pay and for the employer’s part. Make them on the page of people and payees',
    })
  if (form.state > 0 && others.state === null)
    return refuse({
      path: 'state',
      message: 'No account holds state tax kept back. Add one that is owed, of state tax, under Settings',
    })
  const pay = payOf(c, form, wage.sideId)
  return netOf(pay) < 0
    ? refuse({ path: 'gross', message: 'More is kept back than was earned. Look at the amounts again' })
    : { ok: true, pay, accounts: { ...others, wages: wage.id, money: from.id } }
}

const payOf = (c: PageContext, form: PayForm, sideId: SideId): Pay => {
  const proposed = proposalOf(c, form, sideId)
  return {
    id: form.formId,
    sideId,
    worker: form.worker,
    day: form.day,
    grossCents: form.gross,
    federalCents: form.federal,
    stateCents: form.state,
    keptCents: form.kept ?? proposed.keptCents,
    employerCents: form.employer ?? proposed.employerCents,
  }
}

/** By the year's pay before this one: who is paid here counts as a worker. */
const proposalOf = (c: PageContext, { worker, day, gross }: PayForm, sideId: SideId) => {
  const { books } = c.var.web
  const year = yearIn(day)
  const said = listPayees(books)
  const name = nameOf(said, worker)
  const asWorker = { name, kind: 'worker' as const, sameAs: null, formOnFile: false }
  const others = said.filter((one) => one.name !== name)
  const before = workersPaid(paidInYear(books, year), [...others, asWorker], year)
  return proposedPay(sideId, name, gross, before, year)
}

const filled = (form: PayForm, pay: Pay): TypedForm =>
  openingForm({
    formId: form.formId,
    worker: form.worker,
    day: form.day,
    wages: String(form.wages),
    money: String(form.money),
    gross: centsToDecimalText(pay.grossCents),
    federal: centsToDecimalText(pay.federalCents),
    state: pay.stateCents === zeroCents ? '' : centsToDecimalText(pay.stateCents),
    kept: centsToDecimalText(pay.keptCents),
    employer: centsToDecimalText(pay.employerCents),
    net: formatCents(netOf(pay)),
  })

/** The entry, and who was paid counts as a worker from now on, other spellings with their name: both or neither. */
const book = (books: Books, act: Act, { pay, accounts }: ReadPay): { ok: true; result: Pay } | Refusal => {
  const booked = postEntry(books, { ...act, formId: `${act.formId}.entry` }, payEntry(pay, accounts))
  if (!booked.ok) return booked
  const said = listPayees(books)
  const name = nameOf(said, pay.worker)
  const known = said.find((one) => one.name === name)
  if (known?.kind === 'worker') return { ok: true, result: pay }
  const word = { name, kind: 'worker' as const, sameAs: null, formOnFile: known?.formOnFile ?? false }
  const kept = sayPayees(books, { ...act, formId: `${act.formId}.payee` }, [word])
  return kept.ok ? { ok: true, result: pay } : kept
}

/** Another spelling means whom it was said to be. */
const nameOf = (said: readonly PayeeSaid[], worker: string): string =>
  said.find(({ name }) => name === worker)?.sameAs ?? worker

const bookedWords = (pay: Pay): string =>
  `${pay.worker}, ${dayName(pay.day)}: ${formatCents(pay.grossCents)} of wages are booked, ${formatCents(pay.keptCents)} kept back for social security and Medicare, ${formatCents(pay.employerCents)} the employer’s part, ${formatCents(netOf(pay))} paid out.`

const show = (c: PageContext, typed: TypedForm, errors: FormErrors) => {
  const { books } = c.var.web
  const sides = new Map(listSides(books).map(({ id, name }) => [id, name]))
  const { wages, money } = accountsOf(c)
  const year = yearIn(c.var.web.today())
  const options = (accounts: readonly Account[]) =>
    accounts.map(({ id, name, sideId }) => ({
      value: String(id),
      label: name,
      ...(sides.size > 2 ? { group: sides.get(sideId) ?? '' } : {}),
    }))
  return answer(c, {
    title: 'Pay a worker',
    status: statusOf(errors),
    page: () => (
      <PayPage
        form={{ typed, errors }}
        wages={options(wages)}
        money={options(money)}
        workers={listPayees(books)
          .filter(({ kind, sameAs }) => kind === 'worker' && sameAs === null)
          .map(({ name }) => name)}
        hasState={wages.some(({ sideId }) => typeof payrollOf(c, sideId)?.state === 'number')}
        year={year}
        wageTests={inForce(farmWageTests, year)}
      />
    ),
  })
}
