// The step for what this year brought before the books begin, and for last year's return.
import { z } from 'zod'
import { addDays, dayName } from '#calendar/day.ts'
import { saySteps } from '#db/first-steps-store.ts'
import { listSides } from '#db/ledger/account-store.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import { atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { refuse } from '#ledger/problem.ts'
import { centsToDollars, zeroCents } from '#money/cents.ts'
import { isLocalWithState } from '#rules/states/state-law.ts'
import { currentPlan } from '#today/current-plan.ts'
import { beganWithinYear } from '#today/now/first-steps.ts'
import { YearStep } from '#views/start/year.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import {
  checkbox,
  formIdField,
  moneyOrZero,
  moneyZeroOrMore,
  moneyZeroOrMoreOrNull,
  wholeNumberOrNull,
} from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { posted } from '#web/forms/posted.ts'
import { changePlan } from './start-plan.ts'

const yearForm = z
  .object({
    formId: formIdField(),
    wages: moneyZeroOrMore(),
    withheld: moneyZeroOrMore(),
    paidAhead: moneyZeroOrMore(),
    statePaid: moneyZeroOrMore(),
    /** Asked where local tax goes to an office of its own. */
    localPaid: moneyZeroOrMore().optional(),
    otherIncome: moneyZeroOrMore(),
    sideProfit: moneyOrZero(),
    premiums: moneyZeroOrMore(),
    farmSales: moneyZeroOrMore(),
    farmCosts: moneyZeroOrMore(),
    lastTax: moneyZeroOrMore(),
    lastIncome: moneyOrZero(),
    wasFarmer: checkbox(),
    marketplaceMonths: wholeNumberOrNull(0, 11),
    marketplacePremiums: moneyZeroOrMoreOrNull(),
    marketplaceBenchmark: moneyZeroOrMoreOrNull(),
    advanceCredit: moneyZeroOrMoreOrNull(),
  })
  .check(({ value, issues }) => {
    const { marketplaceMonths, marketplacePremiums, marketplaceBenchmark, advanceCredit } = value
    const say = (field: keyof typeof value, message: string) =>
      issues.push({ code: 'custom', input: value[field], path: [field], message })
    if ((value.localPaid ?? 0) > value.statePaid)
      say('localPaid', 'More than was withheld or paid ahead for state and local tax together')
    if (!marketplaceMonths) {
      const of = [marketplacePremiums, marketplaceBenchmark, advanceCredit].some((cents) => cents)
      if (of) say('marketplaceMonths', 'Enter the months of these premiums, 1 to 11')
      return
    }
    if (!marketplacePremiums) say('marketplacePremiums', 'Enter the premiums of these months')
    // Without it the credit of these months would be nothing, and what came in advance would be paid back.
    if (!marketplaceBenchmark)
      say('marketplaceBenchmark', 'Enter it: the marketplace shows it as the second lowest cost silver plan')
    if ((advanceCredit ?? 0) > (marketplacePremiums ?? 0))
      say('advanceCredit', 'More than the premiums: enter all of these months together')
  })

export function showYear(c: PageContext) {
  const current = currentPlan(c.var.web.books)
  const values: Record<string, string> = { formId: newFormId() }
  if (current.status === 'read') {
    const { soFar, lastYear } = current.plan.tax
    const text = (dollars: number) => (dollars !== 0 ? dollars.toFixed(2) : '')
    Object.assign(values, {
      wages: text(soFar.wages),
      withheld: text(soFar.withheld),
      paidAhead: text(soFar.paid - soFar.withheld),
      statePaid: text(soFar.statePaid),
      localPaid: text(soFar.localPaid),
      otherIncome: text(soFar.otherIncome),
      sideProfit: text(soFar.otherSelfEmployment),
      premiums: text(soFar.healthPremiums),
      farmSales: text(soFar.farmGross),
      farmCosts: text(soFar.farmGross - soFar.farmProfit),
      lastTax: text(lastYear.tax),
      lastIncome: text(lastYear.adjustedGrossIncome),
      marketplaceMonths: soFar.marketplaceMonths > 0 ? String(soFar.marketplaceMonths) : '',
      marketplacePremiums: text(soFar.marketplacePremiums),
      marketplaceBenchmark: text(soFar.marketplaceBenchmark),
      advanceCredit: text(soFar.advanceCredit),
      wasFarmer: lastYear.farmShare >= 2 / 3 ? 'yes' : '',
    })
  }
  return answerYear(c, openingForm(values), {})
}

export const postYear = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(yearForm, typed),
    again: (typed, errors) => answerYear(c, typed, errors),
    keep: (form) => keepYear(c, form),
  })

function keepYear(c: PageContext, form: z.output<typeof yearForm>) {
  const { books } = c.var.web
  const act = actOf(c, form.formId)
  const isAsked = beganWithinYear(books, c.var.web.today())
  const start = { startMonth: c.var.web.today().slice(0, 7), note: 'This year so far', asked: form }
  const saved = atomically(books, () => {
    const changed = changePlan(books, act, start, (plan) => ({
      ...plan,
      tax: {
        ...plan.tax,
        soFar: isAsked ? { ...plan.tax?.soFar, ...soFarOf(form) } : plan.tax?.soFar,
        lastYear: {
          ...plan.tax?.lastYear,
          tax: centsToDollars(form.lastTax),
          adjustedGrossIncome: centsToDollars(form.lastIncome),
          farmShare: farmShareOf(form.wasFarmer, plan.tax?.lastYear?.farmShare ?? 0),
        },
      },
    }))
    if (!changed.ok) return refuse(...changed.problems)
    return saySteps(books, { ...act, formId: `${act.formId}.step` }, ['year'])
  })
  return saved.ok ? moveOn(c, '/start/costs') : saved
}

const soFarOf = (form: z.output<typeof yearForm>) => ({
  wages: centsToDollars(form.wages),
  paid: centsToDollars(form.withheld) + centsToDollars(form.paidAhead),
  withheld: centsToDollars(form.withheld),
  statePaid: centsToDollars(form.statePaid),
  ...(form.localPaid === undefined ? {} : { localPaid: centsToDollars(form.localPaid) }),
  otherIncome: centsToDollars(form.otherIncome),
  otherSelfEmployment: centsToDollars(form.sideProfit),
  healthPremiums: centsToDollars(form.premiums),
  farmGross: centsToDollars(form.farmSales),
  farmProfit: centsToDollars(form.farmSales) - centsToDollars(form.farmCosts),
  marketplaceMonths: form.marketplaceMonths ?? 0,
  marketplacePremiums: centsToDollars(form.marketplacePremiums ?? zeroCents),
  marketplaceBenchmark: centsToDollars(form.marketplaceBenchmark ?? zeroCents),
  advanceCredit: centsToDollars(form.advanceCredit ?? zeroCents),
})

/** A share that the plan knows stays while it says the same. */
const farmShareOf = (wasFarmer: boolean, known: number): number =>
  wasFarmer === known >= 2 / 3 ? known : wasFarmer ? 1 : 0

function answerYear(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  const today = c.var.web.today()
  if (listSides(books).length === 0) return c.redirect('/start/who', 303)
  if (openingDay(books) === null) return c.redirect('/start/accounts', 303)
  return answer(c, {
    title: 'This year so far',
    status: statusOf(errors),
    withoutPages: true,
    page: () => (
      <YearStep
        typed={typed}
        errors={errors}
        before={beganWithinYear(books, today) ? daysBefore(books) : null}
        localOffice={paysLocalOffice(books)}
        lastYear={Number.parseInt(today.slice(0, 4), 10) - 1}
      />
    ),
  })
}

/** The plan has local income tax that does not go with the state’s return. */
const paysLocalOffice = (books: Books): boolean => {
  const current = currentPlan(books)
  if (current.status !== 'read') return false
  const { tax, household } = current.plan
  const isCounted = tax.stateTax.kind === 'law' && tax.stateTax.localRate > 0
  return isCounted && !isLocalWithState(household.place.state ?? null)
}

/** "January 1 to June 30, 2026". */
const daysBefore = (books: Books): string => {
  const first = openingDay(books)!
  return `the first of January to ${dayName(addDays(first, -1))}, before the books begin`
}
