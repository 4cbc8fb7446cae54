// Stock and equipment by the piece: added and changed by form; the inventory and the depreciation schedule are made from them.
import { Hono } from 'hono'
import { z } from 'zod'
import { yearIn } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { removeHolding, saveHolding } from '#db/year-store.ts'
import { farmSide, isLasting, type SideId } from '#ledger/account.ts'
import { refuse } from '#ledger/problem.ts'
import type { Holding } from '#ledger/reports/stock-inventory.ts'
import { HoldingForm } from '#views/year-pack/holdings/holding-form.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { todayInYear, yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { formIdField } from '#web/forms/fields.ts'
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
import { isOutdated, showOverTheirs, versionOf } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { type FoundHolding, foundHolding, noSuchThing, sidesWithThings } from './found-holding.ts'
import { draftOf, holdingForm, textOf } from './holding-fields.ts'
import { placeProblem, soldStockOptions } from './holding-place.ts'

export const holdingPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/holdings/new', (c) => show(c, null, openingForm(openingOf(c)), {}))
      .post('/year-pack/holdings/new', (c) => save(c, null))
      .get('/year-pack/holdings/:id', (c) => {
        const one = foundHolding(c)
        return one ? show(c, one, formOf(c, one.holding), {}) : notFound(c, noSuchThing)
      })
      .post('/year-pack/holdings/:id', (c) => {
        const one = foundHolding(c)
        return one ? save(c, one) : notFound(c, noSuchThing)
      })
      .post('/year-pack/holdings/:id/remove', remove),
}

const openingOf = (c: PageContext): Record<string, string> => ({
  side: sidesWithThings(c).find(({ id }) => id === c.req.query('side'))?.id ?? farmSide,
  quantity: '1',
  kind: 'equipment',
  name: c.req.query('name') ?? '',
  cost: c.req.query('cost') ?? '',
  account: c.req.query('account') ?? '',
  acquiredDay: c.req.query('bought') || todayInYear(c),
})

/** Back to where the form was opened from: the pack of that year. */
const listOf = (c: PageContext) => `/year-pack/inputs?year=${yearAskedFor(c)}`

/** The year it came into use and those since, the newest eight of them. */
const useYears = (c: PageContext, typed: TypedForm): number[] => {
  const now = yearIn(c.var.web.today())
  const since = /^\d{4}/.exec(typed.value('inServiceDay') || typed.value('acquiredDay'))?.[0]
  const first = Math.max(Number(since ?? now), now - 7)
  return Array.from({ length: Math.max(1, now - first + 1) }, (_, i) => first + i)
}

const formOf = (c: PageContext, holding: Holding): TypedForm => {
  const shown = textOf(c.var.web.books, holding)
  return openingForm({ ...shown, basedOn: versionOf(shown) })
}

const save = (c: PageContext, seen: FoundHolding | null) => {
  const id = seen?.holding.id ?? null
  return posted(c, {
    check: (typed) => checkForm(holdingForm, typed),
    again: (typed, errors) => show(c, seen, typed, errors),
    keep(value, typed) {
      const draft = draftOf(value)
      const sideId = seen?.sideId ?? (value.side || farmSide)
      if (!sidesWithThings(c).some((side) => side.id === sideId))
        return refuse({ path: 'side', message: 'Choose whose it is' })
      if (
        draft.accountId !== null &&
        !accountsOf(c, sideId).some((account) => account.id === draft.accountId)
      )
        return refuse({ path: 'account', message: 'Choose an account from the list' })
      const place = placeProblem(c.var.web.books, sideId, id, value)
      if (place) return refuse({ path: 'takesPlaceOf', message: place })
      if (value.returned !== null && value.returnedThrough === '')
        return refuse({ path: 'returnedThrough', message: 'Enter the year of that return, like 2024' })
      if (value.returned === null && value.returnedThrough !== '')
        return refuse({
          path: 'returned',
          message: 'Enter what returns wrote off in all, or leave both empty',
        })
      if (draft.marketValueCents !== null && !draft.valuedDay)
        return refuse({
          path: 'valuedDay',
          message: 'Enter the day on which it was worth that, like December 31',
        })
      const kept = () => moveOn(c, listOf(c), `“${draft.name}” is on the inventory.`)
      const now = seen && formOf(c, seen.holding)
      if (now && isOutdated(c, typed, now))
        return showOverTheirs(c, {
          what: `“${now.value('name')}”`,
          typed,
          now,
          subject: `holding ${id}`,
          theirs: `/year-pack/holdings/${id}?year=${yearAskedFor(c)}`,
          alike: kept,
        })
      const act = actOf(c, value.formId)
      const saved = overClosedYears(c, typed, act, () => saveHolding(c.var.web.books, act, sideId, draft, id))
      return saved.ok ? kept() : saved
    },
  })
}

const remove = (c: PageContext) => {
  const id = c.req.param('id') ?? ''
  const seen = foundHolding(c)
  return posted(c, {
    check: (typed) => checkForm(z.object({ formId: formIdField() }), typed),
    again: (_, errors) =>
      seen
        ? show(c, seen, openingForm({ ...textOf(c.var.web.books, seen.holding), removing: 'yes' }), errors)
        : notFound(c, noSuchThing),
    keep({ formId }, typed) {
      const act = actOf(c, formId)
      const removed = overClosedYears(c, typed, act, () =>
        removeHolding(c.var.web.books, act, seen?.sideId ?? farmSide, id),
      )
      return removed.ok ? moveOn(c, listOf(c), 'It is off the inventory.') : removed
    },
  })
}

const accountsOf = (c: PageContext, sideId: SideId) =>
  listAccounts(c.var.web.books, { sideId }).filter(isLasting)

const show = (c: PageContext, seen: FoundHolding | null, typed: TypedForm, errors: FormErrors) => {
  const sides = sidesWithThings(c)
  const sideId = seen?.sideId ?? (typed.value('side') || farmSide)
  return answer(c, {
    title: seen === null ? 'Add stock or equipment' : seen.holding.name,
    status: statusOf(errors),
    page: () => (
      <HoldingForm
        id={seen?.holding.id ?? null}
        sold={seen === null ? null : seen.holding}
        year={yearAskedFor(c)}
        typed={typed}
        errors={errors}
        formId={newFormId()}
        useYears={useYears(c, typed)}
        soldStock={soldStockOptions(c.var.web.books, sideId, seen?.holding.id ?? null)}
        sides={seen === null ? sides.map(({ id, name }) => ({ value: id, label: name })) : []}
        accounts={(seen === null ? sides.map(({ id }) => id) : [sideId]).flatMap((id) =>
          accountsOf(c, id).map((account) => ({
            value: String(account.id),
            label: account.name,
            ...(sides.length > 1 && seen === null
              ? { group: sides.find((side) => side.id === id)!.name }
              : {}),
          })),
        )}
      />
    ),
  })
}
