// The first run in short steps, each saved as it is sent, so that it can be left and taken up again.

import { Hono } from 'hono'
import { hasHousehold, listSides } from '#db/ledger/account-store.ts'
import { usualKinds } from '#farm/usual/usual-figures.ts'
import { livingSuggestions } from '#farm/usual/usual-living.ts'
import { refuse } from '#ledger/problem.ts'
import { formatPercent } from '#money/format.ts'
import { isRelative } from '#plan/life/lived.ts'
import { type CurrentPlan, currentPlan } from '#today/current-plan.ts'
import { CostsStep } from '#views/start/costs.tsx'
import { Counties } from '#views/start/place.tsx'
import { Welcome, WhoStep } from '#views/start/start.tsx'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { type Answered, answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
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
import { typedForm, typedPairs } from '#web/forms/typed-form.ts'
import type { PageEnv } from '#web/server/context.ts'
import { withNames } from './named-errors.ts'
import { placeChoices } from './place-choices.ts'
import { openingAccounts, postAccounts, postChange, showAccounts } from './start-accounts.tsx'
import { costsForm, openingCosts, saveCosts } from './start-costs.ts'
import { postOwned, showOwned } from './start-owned.tsx'
import { saveWho, whoDoubts } from './start-plan.ts'
import { postYear, showYear } from './start-year.tsx'
import { whoForm, withoutBlankPeople } from './who-form.ts'

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
      .get('/start/accounts', (c) => showAccounts(c, openingForm(openingAccounts(c)), {}))
      .post('/start/accounts/change', postChange)
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
          check: (typed) => {
            const taken = livingTaken(c, typed)
            return taken === null ? checkForm(costsForm, typed) : { ok: false, errors: {} }
          },
          again: (typed, errors) => showCosts(c, livingTaken(c, typed) ?? typed, errors),
          keep(costs) {
            const { books, today } = c.var.web
            const problems = saveCosts(books, actOf(c, costs.formId), costs, today())
            if (problems.length > 0) return refuse(...problems)
            return moveOn(
              c,
              sellsFirst(costs.sells) ?? '/now',
              'The books are set up. This is where you stand.',
            )
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
        relativeRows={rowCount(typed, 'relatives', 1)}
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
    check: (typed) => {
      const filled = withoutBlankPeople(typed)
      const checked = withNames(checkForm(whoForm, filled), filled)
      if (checked.ok) return checked
      const doubts = errorsOf(whoDoubts(c.var.web.books, filled, c.var.web.today()))
      return { ok: false, errors: { ...doubts, ...checked.errors } }
    },
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
  const { people, dependents } = current.plan.household
  for (const [list, rows] of [
    ['people', people],
    ['children', dependents.filter((one) => !isRelative(one))],
    ['relatives', dependents.filter(isRelative)],
  ] as const) {
    rows.forEach((row, index) => {
      values[`${list}.${index}.name`] = row.name
      values[`${list}.${index}.born`] = row.born
      if ('student' in row && row.student) values[`${list}.${index}.student`] = 'yes'
      if ('ownMoney' in row && list === 'relatives') {
        values[`${list}.${index}.planToAge`] = row.planToAge === undefined ? '' : String(row.planToAge)
        values[`${list}.${index}.ownMoney`] = row.ownMoney > 0 ? row.ownMoney.toFixed(2) : ''
      }
      const hours = current.plan.farm.crew.find((one) => one.who === row.id)?.weeklyHours
      if (typeof hours === 'number') values[`${list}.${index}.hours`] = String(hours)
    })
  }
  return values
}

/** The form with the published figure that was pressed typed in; null where none was. */
const livingTaken = (c: PageContext, typed: TypedForm): TypedForm | null => {
  const found = livingSuggestions(heads(currentPlan(c.var.web.books))).find(
    ({ taken }) => taken === typed.value('take'),
  )
  if (!found) return null
  const others = typedPairs(typed.nested).filter(([name]) => name !== 'living' && name !== 'take')
  return typedForm([...others, ['living', String(found.perMonth)]])
}

/** The form of what the farm sells, with its published figures; null where nothing of the list was chosen. */
const sellsFirst = (chosen: string): string | null => {
  const found = sellsOptions().find(({ value }) => value === chosen)
  const [list, usual] = chosen.split(':')
  return found ? `/farm/${list}/new?usual=${usual}` : null
}

const sellsOptions = () =>
  (['enterprises', 'herds'] as const).flatMap((list) =>
    usualKinds(list).map(({ id, name }) => ({ value: `${list}:${id}`, label: name })),
  )

/** People of the household, children with them. */
const heads = (current: CurrentPlan): number =>
  current.status === 'read'
    ? current.plan.household.people.length + current.plan.household.dependents.length
    : 0

function showCosts(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const current = currentPlan(c.var.web.books)
  if (current.status === 'none') return c.redirect('/start/who', 303)
  const people = current.status === 'read' ? current.plan.household.people : []
  return answer(c, {
    title: 'Monthly costs',
    status: statusOf(errors),
    withoutPages: true,
    page: () => (
      <CostsStep
        typed={typed}
        errors={errors}
        people={people}
        usual={livingSuggestions(heads(current))}
        sells={sellsOptions()}
      />
    ),
  })
}
