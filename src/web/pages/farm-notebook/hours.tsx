// Hours by week, by season and by market.
import { Hono } from 'hono'
import { parseDay } from '#calendar/day.ts'
import { hoursText } from '#farm/notebook/words.ts'
import { centsToDecimalText } from '#money/format.ts'
import { type HoursFigures, hoursFigures } from '#today/farm/hours-figures.ts'
import { HoursPage } from '#views/farm-notebook/hours.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { newFormId } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'

export const hoursPages: PageRoom = {
  build: () => new Hono<PageEnv>().get('/farm/hours', showHours),
}

function showHours(c: PageContext) {
  const today = c.var.web.today()
  const figures = hoursFigures(c.var.web.books, parseDay(c.req.query('week') ?? '') ?? today)
  return answer(c, {
    title: 'Hours',
    figures,
    page: () => <HoursPage figures={figures} today={today} newFormId={newFormId} />,
    tables: () => tablesOf(figures),
  })
}

const tablesOf = (figures: HoursFigures) => ({
  week: () =>
    tableOf(figures.rows, {
      day: (row) => row.day,
      who: (row) => row.person,
      'what for': (row) => row.what,
      hours: (row) => hoursText(row.minutes),
      paid: (row) => (row.payCents === null ? '' : centsToDecimalText(row.payCents)),
      note: (row) => row.note,
    }),
  seasons: () =>
    tableOf(figures.seasons, {
      'what for': (row) => row.what,
      winter: (row) => hoursText(row.minutes[0]),
      spring: (row) => hoursText(row.minutes[1]),
      summer: (row) => hoursText(row.minutes[2]),
      fall: (row) => hoursText(row.minutes[3]),
      year: (row) => hoursText(row.total),
    }),
  markets: () =>
    tableOf(figures.markets, {
      market: (row) => row.market,
      days: (row) => String(row.days),
      taken: (row) => centsToDecimalText(row.takenCents),
      hours: (row) => hoursText(row.minutes),
      'taken an hour': (row) => (row.perHourCents === null ? '' : centsToDecimalText(row.perHourCents)),
      fees: (row) => centsToDecimalText(row.feesCents),
      miles: (row) => String(row.miles),
    }),
})
