// The dates ahead as a page, and as an iCalendar file that a calendar program can read or follow.
import { Hono } from 'hono'
import ical, { ICalAlarmType } from 'ical-generator'
import { z } from 'zod'
import { refuse } from '#ledger/problem.ts'
import { salesTaxPeriods } from '#rules/due/business-dates.ts'
import { type CalendarDate, calendarDates } from '#today/now/calendar-dates.ts'
import { collectsSalesTax, salesTaxSaid, salesTaxSetting, saySalesTax } from '#today/now/sales-tax.ts'
import { CalendarPage } from '#views/settings/calendar.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { wholeNumber, wholeNumberOrNull } from '#web/forms/fields.ts'
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
import { showOverTheirs } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const calendarPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/settings/calendar', (c) => show(c, null, {}))
      .post('/settings/calendar', keepSalesTax)
      .get('/calendar.ics', feed),
}

const show = (c: PageContext, typed: TypedForm | null, errors: FormErrors) => {
  const { books } = c.var.web
  const dates = calendarDates(books, c.var.web.today())
  const isAsked = collectsSalesTax(books) || salesTaxSaid(books).due !== null
  return answer(c, {
    title: 'Dates ahead',
    status: statusOf(errors),
    figures: { dates },
    page: () => (
      <CalendarPage
        dates={dates}
        today={c.var.web.today()}
        salesTax={isAsked ? { typed: typed ?? salesTaxForm(c), errors } : null}
      />
    ),
    tables: {
      dates: () =>
        tableOf(dates, {
          day: (date) => date.day,
          what: (date) => date.title,
          kind: (date) => date.kind,
          says: (date) => date.says,
          source: (date) => date.source,
        }),
    },
  })
}

const salesTaxFields = z.object({
  basedOn: wholeNumber(0, 1_000_000_000),
  every: z.union([z.literal(''), z.enum(salesTaxPeriods)], { error: 'Choose how often' }).default(''),
  dayOfMonth: wholeNumberOrNull(1, 31),
})

const salesTaxForm = (c: PageContext): TypedForm => {
  const { due, revision } = salesTaxSaid(c.var.web.books)
  return openingForm({
    basedOn: String(revision),
    every: due?.every ?? '',
    dayOfMonth: due ? String(due.dayOfMonth) : '20',
  })
}

const keepSalesTax = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(salesTaxFields, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep({ basedOn, every, dayOfMonth }, typed) {
      if (every !== '' && dayOfMonth === null)
        return refuse({ path: 'dayOfMonth', message: 'Enter the day of the month, like 20' })
      const due = every === '' ? null : { every, dayOfMonth: dayOfMonth! }
      const kept = () => moveOn(c, '/settings/calendar', 'Kept: when sales tax is due.')
      const saved = saySalesTax(c.var.web.books, actOf(c, newFormId()), due, basedOn)
      return saved.ok
        ? kept()
        : showOverTheirs(c, {
            what: 'when sales tax is due',
            typed,
            now: salesTaxForm(c),
            subject: salesTaxSetting,
            theirs: '/settings/calendar',
            alike: kept,
          })
    },
  })

const feed = (c: PageContext): Response => {
  const text = calendarText(calendarDates(c.var.web.books, c.var.web.today()), c.var.web.clock.now())
  return c.body(text, 200, {
    'Content-Type': 'text/calendar; charset=utf-8',
    'Content-Disposition': 'inline; filename="dooryard.ics"',
  })
}

/** RFC 5545, whole-day events with a reminder; an id stays the same from one reading to the next, so that nothing is added twice. */
const calendarText = (dates: readonly CalendarDate[], stamp: Date): string => {
  const calendar = ical({
    name: 'Dooryard: dates ahead',
    prodId: { company: 'Dooryard', product: 'Dates ahead' },
  })
  for (const date of dates) {
    const event = calendar.createEvent({
      id: `${date.id}@dooryard.invalid`,
      stamp,
      start: new Date(`${date.day}T00:00:00Z`),
      allDay: true,
      summary: date.title,
      description: [date.says, date.source ? `Source: ${date.source}.` : '', caution]
        .filter(Boolean)
        .join('\n'),
    })
    event.createAlarm({
      type: ICalAlarmType.display,
      description: date.title,
      triggerBefore: reminderDays(date) * 86_400 - morningSeconds,
    })
  }
  // Every content line ends with CRLF, the last one too (RFC 5545 3.1).
  return `${calendar.toString()}\r\n`
}

/** A transfer is made in a minute; what the law asks for takes papers. */
const reminderDays = ({ kind }: CalendarDate): number => (kind === 'standing' ? 1 : 7)

/** A whole day begins at midnight: the reminder comes at nine in the morning. */
const morningSeconds = 9 * 3600

const caution =
  'A reminder, not advice. Check the date with the agency, your marketplace or a licensed preparer.'
