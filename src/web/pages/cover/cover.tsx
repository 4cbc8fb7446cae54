// The Cover page: its figures for a year and an income, as page, JSON and CSV, and the form for who is covered at what premium.
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import { monthName, monthText, parseMonth } from '#calendar/month.ts'
import { centsToDollars } from '#money/cents.ts'
import { stateNames } from '#rules/places/state-names.ts'
import { coverFigures } from '#today/cover/cover-figures.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { CoverPage, type CoverRoom, coverRooms } from '#views/cover/cover.tsx'
import { MarketplacePage } from '#views/cover/marketplace.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { noSuchYear } from '#web/forms/asked/year-asked.ts'
import { moneyOrNull, wholeNumberOrNull } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  isUntouched,
  newFormId,
  openingForm,
  readQuery,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { planOpen } from '#web/forms/open-plan.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import {
  employerUntil,
  fromName,
  marketplaceForm,
  marketplacePeople,
  onMedicare,
  openingMarketplace,
  withMarketplace,
} from './cover-plan.ts'
import { coverTables } from './cover-tables.ts'

export const coverPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/cover', showCover('income'))
      .get('/cover/credit', showCover('credit'))
      .get('/cover/years', showCover('years'))
      .get('/cover/tax', showCover('tax'))
      .get('/cover/place', showCover('place'))
      .get('/cover/marketplace', (c) =>
        withPlan(c, (current) => {
          const opening = openingMarketplace(current.plan, c.var.web.today())
          return showMarketplace(c, current, openingForm({ ...opening, formId: newFormId() }), {})
        }),
      )
      .post('/cover/marketplace', (c) => postPlan(c, '/cover', (form) => saveMarketplace(c, form))),
}

const wishForm = z.object({ year: wholeNumberOrNull(2000, 2200), income: moneyOrNull() })

/** A room of Health. All of them are views of the same figures, whose JSON and tables each address has. */
const showCover = (room: CoverRoom) => (c: Context<PageEnv>) => {
  const { web } = c.var
  const typed = readQuery(c)
  const checked = checkForm(wishForm, typed)
  const wish = checked.ok
    ? {
        year: checked.value.year,
        income: checked.value.income === null ? null : centsToDollars(checked.value.income),
      }
    : { year: null, income: null }
  const figures: CoverFigures = coverFigures(web.books, planOpen(c), web.today(), wish, dollarsOf(c))
  if (figures.status === 'read' && wish.year !== null && figures.year !== wish.year)
    return noSuchYear(c, 'The plan', wish.year, {
      path: c.req.path,
      years: figures.rows.map(({ year }) => year),
    })
  return answer(c, {
    title: coverRooms[room].title,
    ...(figures.status === 'read' ? { dollars: dollarsOf(c) } : {}),
    ...(room === 'tax' ? { switchesDollars: 'nowhere' } : {}),
    status: checked.ok ? 200 : 422,
    figures,
    page: () => (
      <CoverPage room={room} figures={figures} typed={typed} errors={checked.ok ? {} : checked.errors} />
    ),
    tables: coverTables(figures),
  })
}

const showMarketplace = (c: PageContext, current: PlanInUse, typed: TypedForm, errors: FormErrors) =>
  answer(c, {
    title: 'Premiums',
    status: statusOf(errors),
    page: () => (
      <MarketplacePage
        people={marketplacePeople(current.plan)}
        onMedicare={onMedicare(current.plan)}
        state={stateOf(current)}
        beginsIn={monthName(parseMonth(current.plan.startMonth)!)}
        asksEmployer={employerUntil(current.plan) !== null}
        typed={typed}
        errors={errors}
        ids={{ formId: typed.value('formId'), ...openedIn(typed, current) }}
      />
    ),
  })

const stateOf = ({ plan }: PlanInUse): string | null =>
  plan.household.place.state === undefined ? null : stateNames[plan.household.place.state]

/** Of whom nobody checked nothing is read: what stands there is only a suggestion. */
const readFrom = ({ plan }: PlanInUse, typed: TypedForm) => {
  const chosen = typed.values('members[]')
  const months = new Map<string, string | null>()
  const errors: Record<string, string> = {}
  for (const { id } of marketplacePeople(plan).filter((one) => chosen.includes(one.id))) {
    if (typed.values(fromName(id)).length === 0) continue
    const text = typed.value(fromName(id)).trim()
    const month = parseMonth(text)
    if (text !== '' && month === null) errors[fromName(id)] = 'Enter a month, like 2026-03'
    months.set(id, month === null ? null : monthText(month))
  }
  return { ok: Object.keys(errors).length === 0, months, errors }
}

function saveMarketplace(c: PageContext, form: PlanForm) {
  const { typed, current } = form
  const again = (errors: FormErrors) => showMarketplace(c, current, typed, errors)
  const checked = checkForm(marketplaceForm, typed)
  const from = readFrom(current, typed)
  if (!checked.ok || !from.ok) return again({ ...(checked.ok ? {} : checked.errors), ...from.errors })
  const today = c.var.web.today()
  const opening = openingMarketplace(form.opened, today)
  const marketplace = {
    form: checked.value,
    members: typed.values('members[]'),
    from: from.months,
    isUntouched: (name: string) => isUntouched(typed, opening, name),
  }
  const changed = withMarketplace(current.plan, marketplace, today)
  if (changed === null) return again({ members: 'Choose who the premium is for' })
  const note = 'Who is covered and the premiums are saved in the plan'
  return savePlanForm(c, form, { changed, note }, (issues) => again(errorsAt(issues)))
}
