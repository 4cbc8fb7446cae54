// The table at home: goods that left without money become crossings, cash and fee of a market day an entry, each by one press.
import { Hono } from 'hono'
import { z } from 'zod'
import type { Day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { firstOpenDay } from '#db/ledger/ledger-writer.ts'
import { findBatch } from '#db/notebook/batch-store.ts'
import type { GoodsNote } from '#db/notebook/field-notes.ts'
import { cashOf, leaveToBank, settleMarketDay, waitingMarketDays } from '#db/notebook/settle-market.ts'
import { lastPriceOf, setGoodsAside, settleGoods, waitingGoods } from '#db/notebook/settle-notes.ts'
import { salesBefore } from '#db/notebook/settled-before.ts'
import type { Books } from '#db/open.ts'
import { goodsSays } from '#farm/notebook/words.ts'
import { type Account, householdSide } from '#ledger/account.ts'
import { barterLine } from '#ledger/schedule-f-lines.ts'
import { type Cents, cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { notebookNames } from '#today/farm/notebook-names.ts'
import { type TableFigures, TablePage } from '#views/farm-notebook/table.tsx'
import { sure } from '#views/parts/sure-box.tsx'
import { actOf, actOfForm } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { bookedDayOrNull, formIdField, moneyAboveZero, rowId } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'
import {
  cashAccounts,
  feeCosts,
  feeWays,
  marketForm,
  productsOf,
  settledLikeBefore,
  settlingOf,
} from './market-cash.ts'

const home = '/farm/notebook/table'

export const tablePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get(home, (c) => showTable(c))
      .post(`${home}/goods/:id`, (c) => postGoods(c, c.req.param('id')))
      .post(`${home}/goods/:id/aside`, async (c) => {
        const typed = await readForm(c)
        const done = setGoodsAside(c.var.web.books, actOfForm(c, typed), c.req.param('id'))
        return moveOn(
          c,
          home,
          done.ok ? undoable(c, 'Nothing is booked for it.', home) : (done.problems[0]?.message ?? ''),
        )
      })
      .post(`${home}/markets`, async (c) => {
        const typed = await readForm(c)
        const done = leaveToBank(c.var.web.books, actOfForm(c, typed), typed.values('days[]'))
        return moveOn(
          c,
          home,
          done.ok
            ? `Nothing is booked for ${done.result.days} market ${done.result.days === 1 ? 'day' : 'days'}: the bank’s statements show ${done.result.days === 1 ? 'it' : 'them'}.`
            : (done.problems[0]?.message ?? ''),
        )
      })
      .post(`${home}/market/:id`, (c) => postMarketDay(c, c.req.param('id'))),
}

const goodsForm = z.object({
  formId: formIdField(),
  day: bookedDayOrNull(),
  price: moneyAboveZero(),
  fromAccount: rowId('Choose the account it is income of'),
  toAccount: rowId('Choose what house or farm would have paid for'),
})

const postGoods = (c: PageContext, id: string) =>
  posted(c, {
    check: (typed) => checkForm(goodsForm, typed),
    again: (typed, errors) => showTable(c, { id, typed, errors }),
    keep({ formId, day, price, fromAccount, toAccount }) {
      const done = settleGoods(c.var.web.books, actOf(c, formId), {
        id,
        ...(day === null ? {} : { bookedOn: day }),
        unitPriceCents: price,
        fromAccountId: fromAccount,
        toAccountId: toAccount,
      })
      return done.ok
        ? moveOn(
            c,
            home,
            undoable(
              c,
              'crossingId' in done.result
                ? 'It is in the books of farm and house.'
                : 'It is in the books of the farm: income, and a cost of the same amount.',
            ),
          )
        : done
    },
  })

const postMarketDay = (c: PageContext, id: string) =>
  posted(c, {
    check: (typed) => checkForm(marketForm, typed),
    again: (typed, errors) => showTable(c, { id, typed, errors }),
    keep({ formId, ...said }, typed) {
      const { books } = c.var.web
      const read = settlingOf(books, id, said, (question) => typed.values(sure).includes(question))
      if (!read.ok) return read
      const done = settleMarketDay(books, actOf(c, formId), read.settling)
      if (!done.ok) return done
      return done.result.entryNo === null
        ? moveOn(c, home, undoable(c, 'Nothing is booked: the bank’s statement will show it.', home))
        : moveOn(c, home, undoable(c, 'The market day is in the books.'))
    },
  })

interface Again {
  id: string
  typed: TypedForm
  errors: FormErrors
}

function showTable(c: PageContext, again?: Again) {
  const figures = tableFigures(c.var.web.books, again)
  return answer(c, {
    title: 'At the table',
    status: statusOf(again?.errors ?? {}),
    figures: {
      goods: figures.goods.map(({ id, day, says }) => ({ id, day, says })),
      marketDays: figures.marketDays.map(({ id, day, market, cashCents, feeCents }) => ({
        id,
        day,
        market,
        cashCents,
        feeCents,
      })),
    },
    page: () => <TablePage figures={figures} newFormId={newFormId} />,
  })
}

function tableFigures(books: Books, again?: Again): TableFigures {
  const names = notebookNames(books)
  const { value, sold, eaten, others, ofFarm } = accountsOfTable(books)
  const barter = sold.find(({ scheduleLine }) => scheduleLine === barterLine)
  const typedOf = (id: string, opening: Record<string, string>) =>
    again?.id === id
      ? { typed: again.typed, errors: again.errors }
      : { typed: openingForm(opening), errors: {} as FormErrors }
  /** A day is asked for only where its own lies in a closed month; the first open one stands there. */
  const openDay = (day: Day | null, id: string, opening: Record<string, string>) => ({
    opensOn: day,
    ...typedOf(id, day === null ? opening : { day, ...opening }),
  })
  return {
    goods: waitingGoods(books).map((note) => {
      const isKitchen = note.kind === 'kitchen'
      const from = isKitchen ? value : sold
      const to = isKitchen ? [...eaten, ...others] : others
      const price = likelyPrice(books, note)
      return {
        id: note.id,
        day: note.day,
        says: goodsSays(note),
        isKitchen,
        fromOptions: options(from),
        toOptions: isKitchen
          ? options(to)
          : [
              ...options(ofFarm).map(({ value, label }) => ({ value, label: `Farm: ${label}` })),
              ...options(to).map(({ value, label }) => ({ value, label: `House: ${label}` })),
            ],
        ...openDay(firstOpenDay(books, ['farm', householdSide], note.day), note.id, {
          price: price === null ? '' : centsToDecimalText(price),
          fromAccount: String((isKitchen ? from[0]?.id : (barter?.id ?? soldBefore(books, note))) ?? ''),
          toAccount: isKitchen ? String(to[0]?.id ?? '') : '',
        }),
      }
    }),
    marketDays: waitingMarketDays(books).map((day) => ({
      id: day.id,
      day: day.day,
      market: names.ofMarket(day.marketId),
      cashCents: cashOf(day),
      feeCents: day.feeCents ?? cents(0),
      cashOptions: options(cashAccounts(books)),
      feeOptions: feeWays(books, day),
      costOptions: options(feeCosts(books)),
      salesOptions: options(sold),
      products: productsOf(books, day).map(({ said, enterpriseId: _, ...product }) => ({
        ...said,
        ...product,
      })),
      ...openDay(
        firstOpenDay(books, day.feeCents ? ['farm', householdSide] : ['farm'], day.day),
        day.id,
        settledLikeBefore(books, day),
      ),
    })),
  }
}

/** As it was noted, was booked last, or is hoped for. */
const likelyPrice = (books: Books, { unitPriceCents, what, batchId }: GoodsNote): Cents | null =>
  unitPriceCents ??
  lastPriceOf(books, what) ??
  (batchId === null ? null : (findBatch(books, batchId)?.hopedPriceCents ?? null))

/** The account to which sales of the same were booked last; null where nothing tells. */
const soldBefore = (books: Books, { enterpriseId, batchId, herdId }: GoodsNote): number | null => {
  const ofHerd = notebookNames(books).herds.find(({ id }) => id === herdId)?.tag
  const ofBatch = batchId === null ? undefined : findBatch(books, batchId)?.enterpriseId
  const sold = enterpriseId ?? ofBatch ?? ofHerd
  return sold === undefined ? null : salesBefore(books, sold, '')
}

const options = (some: readonly Account[]) => some.map(({ id, name }) => ({ value: String(id), label: name }))

/** Incomes of the farm, costs of the house, and costs of the farm that bartered goods may have paid. */
function accountsOfTable(books: Books) {
  const accounts = listAccounts(books).filter((one) => one.crossingRole === null)
  const sales = accounts.filter((one) => one.sideId === 'farm' && one.kind === 'income')
  const costs = accounts.filter((one) => one.sideId === householdSide && one.kind === 'expense')
  return {
    value: sales.filter(({ systemRole }) => systemRole === 'goods_value'),
    sold: sales.filter(({ systemRole }) => systemRole === null),
    eaten: costs.filter(({ systemRole }) => systemRole === 'goods_cost'),
    others: costs.filter(({ systemRole }) => systemRole === null),
    ofFarm: accounts.filter((one) => one.sideId === 'farm' && one.kind === 'expense'),
  }
}
