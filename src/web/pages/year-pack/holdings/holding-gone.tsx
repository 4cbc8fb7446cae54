// A thing of the inventory that is gone: sold, lost or given away, all of it or a part, or given in trade for a new one.
import { Hono } from 'hono'
import { z } from 'zod'
import { dayName } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { takePartBack } from '#db/year/holding-parts.ts'
import { isCash, isLasting, isLoan, type SideId } from '#ledger/account.ts'
import { quantityLeft } from '#ledger/reports/sold-parts.ts'
import { holdingKinds } from '#ledger/reports/stock-inventory.ts'
import { sellsAssets } from '#ledger/schedule-lines.ts'
import { assetClasses, type FarmAssetClass } from '#rules/depreciation/recovery.ts'
import { HoldingGonePage } from '#views/year-pack/holdings/holding-gone.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { todayInYear, yearAskedFor } from '#web/forms/asked/year-asked.ts'
import {
  bookedDay,
  choice,
  formIdField,
  moneyZeroOrMoreOrNull,
  optionalText,
  quantity,
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
import { type FoundHolding, foundHolding, noSuchThing } from './found-holding.ts'
import { type Gone, goneByForm } from './trade-in.ts'

export const holdingGonePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/holdings/:id/gone', (c) => {
        const one = foundHolding(c)
        return one ? show(c, one, openingForm(openingOf(c, one)), {}) : notFound(c, noSuchThing)
      })
      .post('/year-pack/holdings/:id/gone', (c) => {
        const one = foundHolding(c)
        return one ? save(c, one) : notFound(c, noSuchThing)
      })
      .post('/year-pack/holdings/:id/parts/:part/back', (c) => {
        const one = foundHolding(c)
        return one ? takeBack(c, one) : notFound(c, noSuchThing)
      }),
}

const classNames = Object.keys(assetClasses) as [FarmAssetClass, ...FarmAssetClass[]]
const accountField = () => z.string().regex(/^\d{0,12}$/, { error: 'Choose an account from the list' })

const goneForm = z.object({
  formId: formIdField(),
  quantity: quantity(),
  disposedDay: bookedDay(),
  disposedFor: moneyZeroOrMoreOrNull(),
  newName: optionalText(120),
  newKind: choice(holdingKinds, 'Choose a kind'),
  newClass: z.union([z.literal(''), z.enum(classNames)], { error: 'Choose a class from the list' }),
  newAccount: accountField(),
  paid: moneyZeroOrMoreOrNull(),
  received: moneyZeroOrMoreOrNull(),
  paidFrom: accountField(),
})

const goneOf = (read: z.output<typeof goneForm>): Gone => ({
  quantity: read.quantity,
  disposedDay: read.disposedDay,
  disposedForCents: read.disposedFor,
  trade:
    read.newName === ''
      ? null
      : {
          name: read.newName,
          kind: read.newKind,
          assetClass: read.newClass === '' ? null : read.newClass,
          accountId: read.newAccount === '' ? null : Number.parseInt(read.newAccount, 10),
          paidCents: read.paid,
          receivedCents: read.received,
          paidFromId: read.paidFrom === '' ? null : Number.parseInt(read.paidFrom, 10),
        },
})

const openingOf = (c: PageContext, { holding }: FoundHolding): Record<string, string> => ({
  formId: newFormId(),
  quantity: String(quantityLeft(holding)),
  disposedDay: todayInYear(c),
  newKind: holding.kind,
  newAccount: holding.accountId === null ? '' : String(holding.accountId),
})

const accountsFor = (c: PageContext, sideId: SideId) => {
  const all = listAccounts(c.var.web.books, { sideId })
  return {
    lasting: all.filter(isLasting),
    // A new machine is often paid for by its maker's loan.
    paidFrom: all.filter((one) => (one.kind === 'asset' && isCash(one)) || isLoan(one)),
    sales: all.find(sellsAssets) ?? null,
  }
}

const save = (c: PageContext, seen: FoundHolding) =>
  posted(c, {
    check: (typed) => checkForm(goneForm, typed),
    again: (typed, errors) => show(c, seen, typed, errors),
    keep(read, typed) {
      const act = actOf(c, read.formId)
      const gone = goneOf(read)
      const done = overClosedYears(c, typed, act, () =>
        goneByForm(c.var.web.books, act, seen, gone, accountsFor(c, seen.sideId)),
      )
      if (!done.ok) return done
      const { newId } = done.result
      const year = yearIn(read.disposedDay)
      return newId === null
        ? moveOn(
            c,
            `/year-pack/inputs?year=${year}#holdings`,
            `“${seen.holding.name}”: gone on ${dayName(read.disposedDay)}.`,
          )
        : moveOn(
            c,
            `/year-pack/holdings/${newId}?year=${year}`,
            `“${gone.trade!.name}” is on the inventory at its full cost. Check its class, and what is deducted at once.`,
          )
    },
  })

const takeBack = (c: PageContext, seen: FoundHolding) =>
  posted(c, {
    check: (typed) => checkForm(z.object({ formId: formIdField() }), typed),
    again: (typed, errors) =>
      show(c, seen, openingForm({ ...openingOf(c, seen), back: typed.value('back') }), errors),
    keep({ formId }, typed) {
      const act = actOf(c, formId)
      const id = seen.holding.id
      const done = overClosedYears(c, typed, act, () =>
        takePartBack(c.var.web.books, act, seen.sideId, id, c.req.param('part') ?? ''),
      )
      return done.ok
        ? moveOn(
            c,
            `/year-pack/holdings/${id}?year=${yearAskedFor(c)}`,
            'The sale of that part is undone. What was booked of it stays in the books.',
          )
        : done
    },
  })

const show = (c: PageContext, seen: FoundHolding, typed: TypedForm, errors: FormErrors) => {
  const { lasting, paidFrom } = accountsFor(c, seen.sideId)
  const options = (accounts: typeof lasting) =>
    accounts.map(({ id, name }) => ({ value: String(id), label: name }))
  return answer(c, {
    title: 'Sold, lost or traded in',
    status: statusOf(errors),
    page: () => (
      <HoldingGonePage
        holding={seen.holding}
        left={quantityLeft(seen.holding)}
        year={yearAskedFor(c)}
        typed={typed}
        errors={errors}
        accounts={options(lasting)}
        paidFrom={options(paidFrom)}
      />
    ),
  })
}
