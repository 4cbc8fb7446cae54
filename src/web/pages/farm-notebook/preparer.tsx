// What the notebook tells the preparer of a year, as page, JSON and CSV.
import { Hono } from 'hono'
import { hoursText } from '#farm/notebook/words.ts'
import { centsToDecimalText } from '#money/format.ts'
import { preparerFigures } from '#today/farm/preparer-figures.ts'
import { PreparerPage } from '#views/farm-notebook/preparer.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { tableOf } from '#web/forms/csv.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'

export const preparerPages: PageRoom = {
  build: () => new Hono<PageEnv>().get('/farm/preparer', showPreparer),
}

function showPreparer(c: PageContext) {
  const today = c.var.web.today()
  const year = yearAskedFor(c)
  const figures = preparerFigures(c.var.web.books, year, today)
  return answer(c, {
    title: 'For the preparer',
    figures: { year, ...figures },
    page: () => <PreparerPage figures={figures} year={year} />,
    tables: {
      miles: () =>
        tableOf(figures.trips, {
          day: (row) => row.day,
          'where and why': (row) => row.where,
          vehicle: (row) => row.vehicle,
          miles: (row) => String(row.miles),
        }),
      hired: () =>
        tableOf(figures.hired, {
          who: (row) => row.person,
          hours: (row) => hoursText(row.minutes),
          paid: (row) => centsToDecimalText(row.payCents),
        }),
      goods: () =>
        tableOf(figures.goods, {
          day: (row) => row.day,
          kind: (row) => row.kind,
          what: (row) => row.says,
          value: (row) => (row.valueCents === null ? '' : centsToDecimalText(row.valueCents)),
          booked: (row) => (row.isBooked ? 'yes' : 'no'),
        }),
    },
  })
}
