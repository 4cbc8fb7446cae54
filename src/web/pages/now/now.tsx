// The Now page; without books yet, the way to the start.

import { Hono } from 'hono'
import { z } from 'zod'
import type { Day } from '#calendar/day.ts'
import { monthText } from '#calendar/month.ts'
import { firstChangeAt } from '#db/change-log.ts'
import { saySteps } from '#db/first-steps-store.ts'
import { hasHousehold, listAccounts } from '#db/ledger/account-store.ts'
import { sayCardCredit } from '#db/ledger/card-credits.ts'
import type { Books } from '#db/open.ts'
import { withMore } from '#kept/by-part.ts'
import { farmSide } from '#ledger/account.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import { dollarsOfTheYear } from '#runway/dollars/dollars.ts'
import { currentPlan } from '#today/current-plan.ts'
import { isCountedCard } from '#today/now/card-figures.ts'
import { copiesFigures } from '#today/now/copies.ts'
import { firstStepIds, stepKey } from '#today/now/first-steps.ts'
import { nowFigures } from '#today/now/now-figures.ts'
import type { ChanceNow } from '#views/now/figures.ts'
import { MonthsLeft, NowPage } from '#views/now/now.tsx'
import { SavingsPicture } from '#views/now/savings.tsx'
import { SinceLastMonth } from '#views/now/since-last-month.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, formatAsked, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { dollarsInCell, tableOf } from '#web/forms/csv.ts'
import { formIdField, moneyZeroOrMore, rowId, wholeNumberOrNull } from '#web/forms/fields.ts'
import { checkForm, newFormId, readForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { continuedToday } from '#web/forms/with-plan.tsx'
import { dayOfInstant } from '#web/server/clock.ts'
import type { PageEnv } from '#web/server/context.ts'
import { chanceNow } from './chance-now.ts'

export const nowPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/now', showNow)
      .post('/now/card-credit', sayCredit)
      .post('/now/first-step', sayStep),
}

const creditForm = z.object({
  formId: formIdField(),
  account: rowId('Open Now again'),
  owed: moneyZeroOrMore(),
})

/** A card's credit counts as savings only on a person's word. */
async function sayCredit(c: PageContext): Promise<Response> {
  const checked = checkForm(creditForm, await readForm(c))
  if (!checked.ok) return notFound(c, 'Open Now again: no card was chosen.')
  const { formId, account, owed } = checked.value
  const { books } = c.var.web
  const card = listAccounts(books, { withArchived: true }).find(
    (one) => one.id === account && isCountedCard(one),
  )
  if (!card) return notFound(c, 'There is no such card. Open Now again.')
  const asWhat = card.sideId === farmSide ? 'farm cash' : 'savings'
  const said = sayCardCredit(books, actOf(c, formId), card.id, owed)
  return moveOn(
    c,
    '/now',
    !said.ok
      ? (said.problems[0]?.message ?? 'Nothing was saved.')
      : owed > 0
        ? `${card.name}: ${formatCents(owed)} counts as ${asWhat} now.`
        : `${card.name} does not count as ${asWhat}.`,
  )
}

const stepForm = z.object({
  formId: formIdField(),
  step: z.enum(firstStepIds),
  of: wholeNumberOrNull(1, 1_000_000_000),
})

/** A step that is not for this house is shown no more. */
async function sayStep(c: PageContext): Promise<Response> {
  const checked = checkForm(stepForm, await readForm(c))
  if (!checked.ok) return notFound(c, 'There is no such step. Open Now again.')
  const { formId, step, of } = checked.value
  const said = saySteps(c.var.web.books, actOf(c, formId), [
    stepKey({ id: step, ...(of === null ? {} : { of }) }),
  ])
  return moveOn(c, '/now', said.ok ? 'That step is shown no more.' : (said.problems[0]?.message ?? ''))
}

/** Without living costs no plan is worth simulating. */
const chanceOf = (c: PageContext): ChanceNow => {
  const current = currentPlan(c.var.web.books)
  return current.status === 'read' && current.plan.household.living.length > 0
    ? chanceNow(c, continuedToday(c, current))
    : { isRunning: false, isOfBefore: false, outcome: null }
}

const begunOn = (books: Books): Day | null => {
  const first = firstChangeAt(books)
  return first === null ? null : dayOfInstant(first)
}

function showNow(c: PageContext) {
  const { books } = c.var.web
  if (!hasHousehold(books) && formatAsked(c) === 'html') return c.redirect('/start', 302)
  const waitsFor = (part: string) => c.req.query(part) === 'yes' || formatAsked(c) !== 'html'
  const waits = { storms: waitsFor('storms'), review: waitsFor('review') }
  const dollars = dollarsOf(c)
  const figures = nowFigures(books, c.var.web.today(), waits, dollars)
  const { isSample, upkeep, today } = c.var.web
  const copies = isSample ? null : copiesFigures(books, today(), begunOn(books), upkeep.backupProblem)
  const chance = chanceOf(c)
  const isWhole = c.req.query('savings') === 'all'
  return answer(c, {
    title: 'Now',
    // Without a plan nothing on it is of a plan, in any dollars.
    ...(currentPlan(books).status === 'read' ? { dollars } : {}),
    figures: withMore(figures, { chance, copies }),
    page: () => (
      <NowPage figures={figures} chance={chance} copies={copies} formId={newFormId()} isWhole={isWhole} />
    ),
    parts: {
      'savings-picture': () => <SavingsPicture figures={figures} isWhole={isWhole} />,
      since: () => <SinceLastMonth figures={figures} />,
      answers: () => <MonthsLeft figures={figures} chance={chance} />,
    },
    tables: {
      savings: () => ({
        ...tableOf([...figures.past, ...figures.future], {
          month: (one) => monthText(one.month),
          'spendable savings': (one) =>
            'cents' in one ? centsToDecimalText(one.cents) : one.dollars.toFixed(2),
          low: (one) => ('low' in one ? one.low.toFixed(2) : ''),
          high: (one) => ('high' in one ? one.high.toFixed(2) : ''),
          from: (one) => ('cents' in one ? 'books' : 'plan'),
          dollars: (one) => dollarsInCell('cents' in one ? dollarsOfTheYear : dollars),
        }),
        dollars: null,
      }),
      review: () => ({
        ...tableOf(figures.review?.status === 'read' ? figures.review.parts : [], {
          what: (one) => one.name,
          savings: (one) => one.savings.toFixed(2),
          'a year on': (one) => one.yearAhead.toFixed(2),
          months: (one) => one.months,
        }),
        dollars: dollarsOfTheYear,
      }),
    },
  })
}
