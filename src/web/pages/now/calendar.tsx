// The dates ahead as a page, and as an iCalendar file that a calendar program can read or follow.
import { Hono } from 'hono'
import ical, { ICalAlarmType } from 'ical-generator'
import { type CalendarDate, calendarDates } from '#today/now/calendar-dates.ts'
import { CalendarPage } from '#views/settings/calendar.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'

export const calendarPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/settings/calendar', (c) => {
        const dates = calendarDates(c.var.web.books, c.var.web.today())
        return answer(c, {
          title: 'Dates ahead',
          figures: { dates },
          page: () => <CalendarPage dates={dates} today={c.var.web.today()} />,
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
      })
      .get('/calendar.ics', feed),
}

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
