// Stock and equipment by the piece: added and changed by form; the inventory and the depreciation schedule are made from them.
import { Hono } from 'hono'
import { z } from 'zod'
import { lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { holdingValuesOf } from '#db/year/holding-values.ts'
import { findHolding, type HoldingDraft, removeHolding, saveHolding } from '#db/year-store.ts'
import { farmSide, isLasting, type SideId } from '#ledger/account.ts'
import { refuse } from '#ledger/problem.ts'
import { valueOn } from '#ledger/reports/market-values.ts'
import { type Holding, holdingKinds } from '#ledger/reports/stock-inventory.ts'
import { cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { assetClasses, type FarmAssetClass } from '#rules/depreciation/recovery.ts'
import { HoldingForm } from '#views/year-pack/holding-form.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import {
  bookedDay,
  bookedDayOrNull,
  checkbox,
  choice,
  formIdField,
  moneyOrNull,
  optionalText,
  percentOrNull,
  quantity,
  requiredText,
} from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { isOutdated, showOverTheirs, versionOf } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { overClosedYears } from './closed-years.ts'
import { placeProblem, soldStockOptions } from './holding-place.ts'
import { yearAskedFor } from './year-asked.ts'

export const holdingPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/holdings/new', (c) => show(c, null, openingForm(openingOf(c)), {}))
      .post('/year-pack/holdings/new', (c) => save(c, null))
      .get('/year-pack/holdings/:id', (c) => {
        const one = found(c)
        return one ? show(c, one, formOf(c, one.holding), {}) : notFound(c, noSuchThing)
      })
      .post('/year-pack/holdings/:id', (c) => {
        const one = found(c)
        return one ? save(c, one) : notFound(c, noSuchThing)
      })
      .post('/year-pack/holdings/:id/remove', remove),
}

const noSuchThing = 'There is no such thing on the inventory.'

interface Found {
  sideId: SideId
  holding: Holding
}

/** Farm and ventures keep things; the household writes nothing off. */
const sidesOf = (c: PageContext) => listSides(c.var.web.books).filter(({ kind }) => kind !== 'household')

const found = (c: PageContext): Found | undefined =>
  sidesOf(c)
    .map(({ id }) => ({ sideId: id, holding: findHolding(c.var.web.books, id, c.req.param('id') ?? '') }))
    .find((one): one is Found => one.holding !== undefined)

const openingOf = (c: PageContext): Record<string, string> => ({
  side: sidesOf(c).find(({ id }) => id === c.req.query('side'))?.id ?? farmSide,
  quantity: '1',
  kind: 'equipment',
  name: c.req.query('name') ?? '',
  cost: c.req.query('cost') ?? '',
  account: c.req.query('account') ?? '',
  acquiredDay: c.req.query('bought') || c.var.web.today(),
})

/** Back to where the form was opened from: the pack of that year. */
const listOf = (c: PageContext) => `/year-pack/inputs?year=${yearAskedFor(c)}`

const classNames = Object.keys(assetClasses) as [FarmAssetClass, ...FarmAssetClass[]]

const holdingForm = z.object({
  formId: formIdField(),
  side: optionalText(80),
  name: requiredText('Give it a name, like walking tractor', 120),
  kind: choice(holdingKinds, 'Choose a kind'),
  quantity: quantity(),
  unit: optionalText(30),
  raised: checkbox(),
  cost: moneyOrNull(),
  acquiredDay: bookedDay(),
  inServiceDay: bookedDayOrNull(),
  account: z.string().regex(/^\d{0,12}$/, { error: 'Choose an account from the list' }),
  assetClass: z.union([z.literal(''), z.enum(classNames)], { error: 'Choose a class from the list' }),
  section179: moneyOrNull(),
  bonus: checkbox(),
  takesPlaceOf: optionalText(80),
  use: z
    .record(
      z.string().regex(/^y\d{4}$/),
      percentOrNull().refine((share) => share === null || (share >= 0 && share <= 1), {
        error: 'Enter a percentage from 0 to 100, like 60',
      }),
    )
    .default({}),
  marketValue: moneyOrNull(),
  valuedDay: bookedDayOrNull(),
  disposedDay: bookedDayOrNull(),
  disposedFor: moneyOrNull(),
})

const draftOf = (read: z.output<typeof holdingForm>): HoldingDraft => ({
  name: read.name,
  kind: read.kind,
  quantity: read.quantity,
  unit: read.unit,
  raised: read.raised,
  costCents: read.cost ?? cents(0),
  acquiredDay: read.acquiredDay,
  inServiceDay: read.inServiceDay,
  accountId: read.account === '' ? null : Number.parseInt(read.account, 10),
  depreciation:
    read.assetClass === ''
      ? null
      : {
          assetClass: read.assetClass,
          section179Cents: read.section179 ?? cents(0),
          bonus: read.bonus,
          ...sharesOf(read.use),
          ...(read.takesPlaceOf === '' ? {} : { takesPlaceOf: read.takesPlaceOf }),
        },
  marketValueCents: read.marketValue,
  valuedDay: read.valuedDay,
  disposedDay: read.disposedDay,
  disposedForCents: read.disposedFor,
})

/** Nothing where no year is named: all of the use is business. */
const sharesOf = (use: z.output<typeof holdingForm>['use']) => {
  const told = Object.entries(use).flatMap(([key, share]) => (share === null ? [] : [[key.slice(1), share]]))
  return told.length === 0 ? {} : { useShares: Object.fromEntries(told) as Record<string, number> }
}

/** The year it came into use and those since, the newest eight of them. */
const useYears = (c: PageContext, typed: TypedForm): number[] => {
  const now = yearIn(c.var.web.today())
  const since = /^\d{4}/.exec(typed.value('inServiceDay') || typed.value('acquiredDay'))?.[0]
  const first = Math.max(Number(since ?? now), now - 7)
  return Array.from({ length: Math.max(1, now - first + 1) }, (_, i) => first + i)
}

const textOf = (c: PageContext, holding: Holding): Record<string, string> => {
  const newest = valueOn(holdingValuesOf(c.var.web.books, null).get(holding.id) ?? [], lastOfDays)
  const amount = (value: Holding['marketValueCents']) => (value === null ? '' : centsToDecimalText(value))
  return {
    name: holding.name,
    kind: holding.kind,
    quantity: String(holding.quantity),
    unit: holding.unit,
    raised: holding.raised ? 'yes' : '',
    cost: centsToDecimalText(holding.costCents),
    acquiredDay: holding.acquiredDay,
    inServiceDay: holding.inServiceDay ?? '',
    account: holding.accountId === null ? '' : String(holding.accountId),
    assetClass: holding.depreciation?.assetClass ?? '',
    section179: amount(holding.depreciation?.section179Cents ?? null),
    bonus: holding.depreciation?.bonus ? 'yes' : '',
    takesPlaceOf: holding.depreciation?.takesPlaceOf ?? '',
    ...Object.fromEntries(
      Object.entries(holding.depreciation?.useShares ?? {}).map(([year, share]) => [
        `use.y${year}`,
        String(Math.round(share * 10_000) / 100),
      ]),
    ),
    marketValue: amount(newest?.amountCents ?? holding.marketValueCents),
    valuedDay: newest?.day ?? '',
    disposedDay: holding.disposedDay ?? '',
    disposedFor: amount(holding.disposedForCents),
  }
}

const lastOfDays = lastDayOfYear(9999)

const formOf = (c: PageContext, holding: Holding): TypedForm => {
  const shown = textOf(c, holding)
  return openingForm({ ...shown, basedOn: versionOf(shown) })
}

const save = (c: PageContext, seen: Found | null) => {
  const id = seen?.holding.id ?? null
  return posted(c, {
    check: (typed) => checkForm(holdingForm, typed),
    again: (typed, errors) => show(c, seen, typed, errors),
    keep(value, typed) {
      const draft = draftOf(value)
      const sideId = seen?.sideId ?? (value.side || farmSide)
      if (!sidesOf(c).some((side) => side.id === sideId))
        return refuse({ path: 'side', message: 'Choose whose it is' })
      if (
        draft.accountId !== null &&
        !accountsOf(c, sideId).some((account) => account.id === draft.accountId)
      )
        return refuse({ path: 'account', message: 'Choose an account from the list' })
      const place = placeProblem(c.var.web.books, sideId, id, value)
      if (place) return refuse({ path: 'takesPlaceOf', message: place })
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
  const seen = found(c)
  return posted(c, {
    check: (typed) => checkForm(z.object({ formId: formIdField() }), typed),
    again: (_, errors) =>
      seen
        ? show(c, seen, openingForm({ ...textOf(c, seen.holding), removing: 'yes' }), errors)
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

const show = (c: PageContext, seen: Found | null, typed: TypedForm, errors: FormErrors) => {
  const sides = sidesOf(c)
  const sideId = seen?.sideId ?? (typed.value('side') || farmSide)
  return answer(c, {
    title: seen === null ? 'Add stock or equipment' : 'Stock or equipment',
    status: statusOf(errors),
    page: () => (
      <HoldingForm
        id={seen?.holding.id ?? null}
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
