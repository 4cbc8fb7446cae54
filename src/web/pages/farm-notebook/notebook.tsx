// The notebook of the farm, for two thumbs: hours, heads, a market day, goods to the kitchen, miles. Each form writes one note.
import { Hono } from 'hono'
import type { z } from 'zod'
import { findBatch } from '#db/notebook/batch-store.ts'
import { writeGoods, writeHeads, writeMarketDay, writeTrip } from '#db/notebook/field-notes.ts'
import { startClock, stopClock, writeHours } from '#db/notebook/hours-store.ts'
import { isNoteKind, removeNote } from '#db/notebook/note-rows.ts'
import { headWords } from '#farm/herd/species-words.ts'
import type { GoodsKind, HeadKind } from '#farm/notebook/kinds.ts'
import { parseSubject } from '#farm/notebook/subject.ts'
import { hoursText } from '#farm/notebook/words.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import { centsToDecimalText } from '#money/format.ts'
import { type NotebookFigures, notebookFigures } from '#today/farm/notebook-figures.ts'
import { NotebookPage, type Section } from '#views/farm-notebook/notebook.tsx'
import { actOf, actOfForm } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
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
import { browserOf } from '#web/server/browser.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'
import { goodsForm, headsForm, hoursForm, marketDayOf, marketForm, tripForm } from './note-forms.ts'

const home = '/farm/notebook'

export const notebookPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get(home, (c) => showNotebook(c, sectionOf(c.req.query('open')) ?? 'hours'))
      .post(`${home}/hours`, postHours)
      .post(`${home}/heads`, postHeads)
      .post(`${home}/market`, postMarket)
      .post(`${home}/goods`, postGoods)
      .post(`${home}/trip`, postTrip)
      .post(`${home}/clock/:id/stop`, async (c) => {
        const typed = await readForm(c)
        const done = stopClock(c.var.web.books, actOfForm(c, typed), c.req.param('id'))
        return moveOn(
          c,
          home,
          done.ok
            ? `${hoursText(done.result.minutes)} hours are written down.`
            : (done.problems[0]?.message ?? 'The clock could not be stopped.'),
        )
      })
      .post(`${home}/:kind/:id/remove`, async (c) => {
        const typed = await readForm(c)
        const kind = c.req.param('kind')
        if (!isNoteKind(kind)) return moveOn(c, home, 'There is no such note.')
        const done = removeNote(c.var.web.books, actOfForm(c, typed), kind, c.req.param('id'))
        const back = typed.value('back')
        return moveOn(
          c,
          /^\/farm\/[\w/?=&-]*$/.test(back) ? back : home,
          done.ok ? 'It is removed.' : (done.problems[0]?.message ?? 'It could not be removed.'),
        )
      }),
}

const sections: readonly Section[] = ['hours', 'heads', 'market', 'goods', 'trip']
const sectionOf = (text: string | undefined): Section | undefined => sections.find((one) => one === text)

/** One form of the notebook: checked by its schema, written by its store, told in a line. */
const postNote = <Schema extends z.ZodType<{ formId: string }>>(
  c: PageContext,
  section: Section,
  schema: Schema,
  write: (value: z.output<Schema>, typed: TypedForm) => { outcome: Outcome<unknown>; says: string },
) =>
  posted(c, {
    check: (typed) => checkForm(schema, typed),
    again: (typed, errors) => showNotebook(c, section, typed, inSection(section, errors)),
    keep(value, typed) {
      // Checked by the form already: a day.
      if (typed.value(`${section}.day`) > c.var.web.today())
        return refuse({ path: 'day', message: 'That day has not come yet. The notebook holds what was' })
      const { outcome, says } = write(value, typed)
      const next = `${home}?open=${section}`
      return outcome.ok ? moveOn(c, next, undoable(c, says, next)) : outcome
    },
  })

/** Stores name a field by itself; the form's names begin with their section. */
const inSection = (section: Section, errors: FormErrors): FormErrors =>
  Object.fromEntries(
    Object.entries(errors).map(([name, message]) => [
      name === '' || name.startsWith(`${section}.`) || name === 'formId' ? name : `${section}.${name}`,
      message,
    ]),
  )

const problem = (path: string, message: string): { outcome: Outcome<unknown>; says: string } => ({
  outcome: { ok: false, problems: [{ path, message }] } as Outcome<unknown>,
  says: '',
})

const postHours = (c: PageContext) =>
  postNote(c, 'hours', hoursForm, ({ formId, hours }, typed) => {
    const { books } = c.var.web
    const { day, isHired, hiredName, pay, subject, minutes, note } = hours
    const person = isHired ? hiredName : hours.person
    if (subject.kind === 'batch' && !findBatch(books, subject.id))
      return problem('subject', 'Choose what the work was for')
    if (typed.value('clock') === 'start')
      return {
        outcome: startClock(books, actOf(c, formId), { day, person, hired: isHired, subject }),
        says: 'The clock runs.',
      }
    if (minutes === null) return problem('time', 'Choose how long, or enter hours like 1.5, 1:30 or 1h 30')
    const payCents = isHired ? pay : null
    return {
      outcome: writeHours(books, actOf(c, formId), {
        day,
        person,
        hired: isHired,
        subject,
        minutes,
        payCents,
        note,
      }),
      says: `${hoursText(minutes)} hours are written down.`,
    }
  })

const postHeads = (c: PageContext) =>
  postNote(c, 'heads', headsForm, ({ formId, heads }) => {
    const { books } = c.var.web
    const { day, herd, kind, headClass, count, tradedFor, note } = heads
    if (kind !== 'kitchen' && kind !== 'bartered')
      return {
        outcome: writeHeads(books, actOf(c, formId), {
          day,
          herdId: herd,
          kind: kind satisfies HeadKind,
          headClass,
          count,
          note,
        }),
        says: 'The head count is written down.',
      }
    const { herds } = figuresOf(c)
    // A price of the same is offered next time: a lamb's is no ewe's.
    const whichHeads = (one: (typeof herds)[number] | undefined) =>
      one && `${one.name} (${headWords(headClass, [one.kind], 1)})`
    return {
      outcome: writeGoods(books, actOf(c, formId), {
        day,
        kind: kind satisfies GoodsKind,
        what: whichHeads(herds.find((one) => one.id === herd)) ?? herd,
        enterpriseId: null,
        batchId: null,
        herdId: herd,
        headClass,
        quantity: count,
        unit: 'head',
        unitPriceCents: null,
        tradedFor,
      }),
      says: 'The head count is written down. Their value waits for the table at home.',
    }
  })

const postMarket = (c: PageContext) =>
  postNote(c, 'market', marketForm, ({ formId, market }) => ({
    outcome: writeMarketDay(c.var.web.books, actOf(c, formId), marketDayOf(market)),
    says: 'The market day is written down.',
  }))

const postGoods = (c: PageContext) =>
  postNote(c, 'goods', goodsForm, ({ formId, goods }) => {
    const { price, of, ...rest } = goods
    const from = parseSubject(of)
    if (from?.kind === 'batch' && !findBatch(c.var.web.books, from.id))
      return problem('of', 'Choose one of the list')
    return {
      outcome: writeGoods(c.var.web.books, actOf(c, formId), {
        ...rest,
        enterpriseId: from?.kind === 'enterprise' ? from.id : null,
        batchId: from?.kind === 'batch' ? from.id : null,
        herdId: null,
        headClass: null,
        unitPriceCents: price,
      }),
      says: 'It is written down, and waits for the table at home.',
    }
  })

const postTrip = (c: PageContext) =>
  postNote(c, 'trip', tripForm, ({ formId, trip }) => {
    const { kind, amount, ...rest } = trip
    return {
      outcome: writeTrip(c.var.web.books, actOf(c, formId), {
        ...rest,
        kind,
        miles: kind === 'farm' ? amount : null,
        odometer: kind === 'reading' ? amount : null,
      }),
      says: kind === 'farm' ? 'The trip is written down.' : 'The odometer is written down.',
    }
  })

const figuresOf = (c: PageContext): NotebookFigures =>
  notebookFigures(c.var.web.books, c.var.web.today(), c.var.web.clock.now().toISOString(), browserOf(c))

/** Every section opens with what was chosen last; the one that was sent, with what was typed. */
function showNotebook(c: PageContext, open: Section, typed?: TypedForm, errors: FormErrors = {}) {
  const figures = figuresOf(c)
  const opening = openingForm(openingOf(figures))
  return answer(c, {
    title: 'Notebook',
    status: statusOf(errors),
    figures,
    page: () => (
      <NotebookPage
        figures={figures}
        open={open}
        errors={errors}
        typedOf={(section) => (typed && section === open ? typed : opening)}
        newFormId={newFormId}
        formIdOf={(section) => (typed && section === open && typed.value('formId')) || newFormId()}
      />
    ),
  })
}

const openingOf = (figures: NotebookFigures): Record<string, string> => {
  const { today, last, people, subjects, herds, markets, lastMarketDay, vehicles } = figures
  const usual =
    last && ['30', '60', '120', '240'].includes(String(last.minutes)) ? String(last.minutes) : '60'
  const opening: Record<string, string> = {
    'hours.person': people.find(({ id }) => id === last?.person)?.id ?? people[0]?.id ?? '',
    'hours.subject': subjects.find(({ value }) => value === last?.subject)?.value ?? subjects[0]?.value ?? '',
    'hours.length': usual,
    'heads.herd': herds[0]?.id ?? '',
    'heads.kind': 'counted',
    'heads.headClass': 'females',
    'market.market': lastMarketDay?.marketId ?? markets[0]?.id ?? '',
    'market.hours': lastMarketDay?.minutes ? hoursText(lastMarketDay.minutes) : '',
    'market.miles': String(lastMarketDay?.miles ?? ''),
    'market.fee': lastMarketDay?.feeCents ? centsToDecimalText(lastMarketDay.feeCents) : '',
    'goods.kind': 'kitchen',
    'trip.kind': 'farm',
    'trip.vehicle': vehicles[0] ?? '',
  }
  for (const section of sections) opening[`${section}.day`] = today
  return opening
}
