// Batches: the list, one of them, the form that starts, changes and ends it, notes on it, and the lines of the books tied to it.
import { Hono } from 'hono'
import { z } from 'zod'
import { changeBatch, findBatch, startBatch, writeMark } from '#db/notebook/batch-store.ts'
import type { Batch } from '#db/notebook/schema-batches.ts'
import { batchMarkKinds } from '#farm/notebook/kinds.ts'
import { hoursText } from '#farm/notebook/words.ts'
import { centsToDecimalText } from '#money/format.ts'
import { type BatchFigures, type BatchRow, batchFigures, batchRows } from '#today/farm/batch-figures.ts'
import { notebookNames } from '#today/farm/notebook-names.ts'
import { BatchPage } from '#views/farm-notebook/batch.tsx'
import { BatchEditPage } from '#views/farm-notebook/batch-edit.tsx'
import { BatchesPage } from '#views/farm-notebook/batches.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import {
  bookedDay,
  bookedDayOrNull,
  choice,
  formIdField,
  moneyOrNull,
  optionalText,
  quantity,
  quantityOrNull,
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
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'
import { postHeads, postHours, postTies, postUntie } from './batch-ties.ts'

const home = '/farm/batches'

export const batchPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get(home, showBatches)
      .get(`${home}/new`, (c) => {
        const opening = { formId: newFormId(), startedDay: c.var.web.today() }
        return showForm(c, null, openingForm(opening), {})
      })
      .post(`${home}/new`, (c) => postForm(c, null))
      .get(`${home}/:id`, (c) => showBatch(c, idOf(c)))
      .get(`${home}/:id/edit`, (c) => withBatch(c, (batch) => showForm(c, batch, formOf(batch), {})))
      .post(`${home}/:id/edit`, (c) => withBatch(c, (batch) => postForm(c, batch)))
      .post(`${home}/:id/mark`, (c) => withBatch(c, (batch) => postMark(c, batch)))
      .post(`${home}/:id/tie`, (c) => withBatch(c, (batch) => postTies(c, batch)))
      .post(`${home}/:id/tie-hours`, (c) => withBatch(c, (batch) => postHours(c, batch)))
      .post(`${home}/:id/tie-heads`, (c) => withBatch(c, (batch) => postHeads(c, batch)))
      .post(`${home}/:id/untie`, (c) => withBatch(c, (batch) => postUntie(c, batch))),
}

const idOf = (c: PageContext): string => (c.req.param('id') ?? '').replace(/\.(json|csv)$/, '')

const withBatch = (c: PageContext, show: (batch: Batch) => Response | Promise<Response>) => {
  const batch = findBatch(c.var.web.books, idOf(c))
  return batch ? show(batch) : notFound(c, 'There is no such batch.')
}

function showBatches(c: PageContext) {
  const rows = batchRows(c.var.web.books)
  return answer(c, {
    title: 'Batches',
    figures: { batches: rows },
    page: () => <BatchesPage rows={rows} />,
    tables: { batches: () => batchTable(rows) },
  })
}

const batchTable = (rows: readonly BatchRow[]) =>
  tableOf(rows, {
    batch: ({ batch }) => batch.name,
    enterprise: ({ enterprise }) => enterprise,
    started: ({ batch }) => batch.startedDay,
    ended: ({ batch }) => batch.endedDay ?? '',
    size: ({ batch }) => String(batch.size),
    unit: ({ batch }) => batch.unit,
    lost: ({ result }) => String(result.lost),
    sold: ({ result }) => String(result.sold),
    kitchen: ({ result }) => String(result.kitchen),
    bartered: ({ result }) => String(result.bartered),
    kept: ({ result }) => String(result.kept),
    left: ({ result }) => String(result.left),
    'not known': ({ result }) => String(result.untold),
    sales: ({ result }) => centsToDecimalText(result.salesCents),
    'own goods': ({ result }) => centsToDecimalText(result.goodsCents),
    costs: ({ result }) => centsToDecimalText(result.costsCents),
    hours: ({ result }) => hoursText(result.minutes),
    'return to labor an hour': ({ result }) =>
      result.perHourCents === null ? '' : centsToDecimalText(result.perHourCents),
  })

function showBatch(c: PageContext, id: string, typed?: TypedForm, errors: FormErrors = {}) {
  const { books } = c.var.web
  const figures = batchFigures(books, id, c.var.web.today(), placeAsked(c))
  if (!figures) return notFound(c, 'There is no such batch.')
  const markets = notebookNames(books).markets.map((one) => ({ value: one.id, label: one.name }))
  return answer(c, {
    title: figures.batch.name,
    status: statusOf(errors),
    figures,
    page: () => (
      <BatchPage
        figures={figures}
        typed={typed ?? openingForm({ day: c.var.web.today(), kind: 'lost' })}
        errors={errors}
        markets={markets}
        newFormId={newFormId}
      />
    ),
    tables: { lines: () => lineTable(figures) },
  })
}

/** How many of the lines that may be its stand before those asked for. */
const placeAsked = (c: PageContext): number => {
  const text = c.req.query('after') ?? ''
  return /^\d{1,7}$/.test(text) ? Number.parseInt(text, 10) : 0
}

const lineTable = (figures: BatchFigures) =>
  tableOf(figures.lines, {
    day: (line) => line.day,
    entry: (line) => String(line.entryNo),
    payee: (line) => line.payee,
    account: (line) => line.accountName,
    debit: (line) => centsToDecimalText(line.amountCents),
    note: (line) => line.memo,
  })

/** How many of those that no note tells of; empty is none. */
const leftOver = () =>
  quantityOrNull()
    .refine((value) => value === null || value >= 0, { error: 'Enter how many, from 0 on' })
    .transform((value) => value ?? 0)

const batchForm = z.object({
  formId: formIdField(),
  enterprise: requiredText('Choose the enterprise', 80),
  name: requiredText('Give the batch a name', 120),
  size: quantity().refine((value) => value > 0 && value < 10_000_000, { error: 'Enter how many, like 150' }),
  unit: requiredText('Say of what, like birds', 40),
  startedDay: bookedDay(),
  place: optionalText(120),
  hopedPrice: moneyOrNull(),
  endedDay: bookedDayOrNull(),
  restSold: leftOver(),
  restLost: leftOver(),
  restKitchen: leftOver(),
  kept: leftOver(),
  note: optionalText(500),
})

const postForm = (c: PageContext, batch: Batch | null) =>
  posted(c, {
    check: (typed) => checkForm(batchForm, typed),
    again: (typed, errors) => showForm(c, batch, typed, errors),
    keep({ formId, enterprise, hopedPrice, restSold, restLost, restKitchen, kept, ...said }, typed) {
      const { books } = c.var.web
      const draft = { ...said, enterpriseId: enterprise, hopedPriceCents: hopedPrice }
      const done = batch
        ? changeBatch(books, actOf(c, formId), {
            id: batch.id,
            basedOn: Number(typed.value('basedOn')),
            draft,
            rest: { sold: restSold, lost: restLost, kitchen: restKitchen, kept },
          })
        : startBatch(books, actOf(c, formId), draft)
      if (!done.ok) return done
      return moveOn(
        c,
        `${home}/${done.result.batchId}`,
        batch ? 'The batch is saved.' : 'The batch is started.',
      )
    },
  })

const formOf = (batch: Batch): TypedForm =>
  openingForm({
    formId: newFormId(),
    basedOn: String(batch.revision),
    enterprise: batch.enterpriseId,
    name: batch.name,
    size: String(batch.size),
    unit: batch.unit,
    startedDay: batch.startedDay,
    place: batch.place,
    hopedPrice: batch.hopedPriceCents === null ? '' : centsToDecimalText(batch.hopedPriceCents),
    endedDay: batch.endedDay ?? '',
    kept: batch.kept > 0 ? String(batch.kept) : '',
    note: batch.note,
  })

function showForm(c: PageContext, batch: Batch | null, typed: TypedForm, errors: FormErrors) {
  const { enterprises, herds } = notebookNames(c.var.web.books)
  const options = [
    ...enterprises.map(({ id, name }) => ({ value: id, label: name })),
    ...herds.map(({ tag, name }) => ({ value: tag, label: name })),
  ]
  const row = batch && batchRows(c.var.web.books).find((one) => one.batch.id === batch.id)
  const named = batch && !options.some(({ value }) => value === batch.enterpriseId)
  return answer(c, {
    title: batch ? batch.name : 'Start a batch',
    status: statusOf(errors),
    page: () => (
      <BatchEditPage
        batch={batch}
        untold={row ? row.result.left + row.result.untold + row.result.kept : 0}
        enterprises={named ? [{ value: batch.enterpriseId, label: batch.enterpriseId }, ...options] : options}
        typed={typed}
        errors={errors}
      />
    ),
  })
}

const markForm = z.object({
  formId: formIdField(),
  kind: choice(batchMarkKinds, 'Choose what happened'),
  day: bookedDay(),
  quantity: quantity().refine((value) => value > 0 && value < 10_000_000, {
    error: 'Enter how many, like 3',
  }),
  pounds: quantityOrNull().refine((value) => value === null || value > 0, {
    error: 'Enter pounds above zero',
  }),
  market: optionalText(80),
  note: optionalText(200),
})

const postMark = (c: PageContext, batch: Batch) =>
  posted(c, {
    check: (typed) => checkForm(markForm, typed),
    again: (typed, errors) => showBatch(c, batch.id, typed, errors),
    keep({ formId, market, ...mark }) {
      const done = writeMark(c.var.web.books, actOf(c, formId), {
        ...mark,
        batchId: batch.id,
        marketId: mark.kind === 'sold' && market !== '' ? market : null,
      })
      const next = `${home}/${batch.id}`
      return done.ok ? moveOn(c, next, undoable(c, 'It is written down.', next)) : done
    },
  })
