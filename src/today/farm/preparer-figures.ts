// The notebook of a year as the preparer asks for it: read here, told by a pure function (`farm/notebook/preparer.ts`).
import { type Day, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { headMoves, listGoods, listMarketDays, listTrips } from '#db/notebook/field-notes.ts'
import { listHours } from '#db/notebook/hours-store.ts'
import type { Books } from '#db/open.ts'
import { countedLast, headsOn } from '#farm/notebook/heads.ts'
import { type PreparerNotes, preparerNotes } from '#farm/notebook/preparer.ts'
import { notebookNames } from './notebook-names.ts'

/** Miles, hired hours and goods of a calendar year up to today. */
export const preparerFigures = (books: Books, year: number, today: Day): PreparerNotes => {
  const from = firstDayOfYear(year)
  const end = lastDayOfYear(year)
  const to = end < today ? end : today
  const names = notebookNames(books)
  const moves = headMoves(books, to)
  return preparerNotes({
    herds: names.herds.map(({ id, name, kind }) => ({
      herd: name,
      kind,
      began: headsOn(moves, id, lastDayOfYear(year - 1)),
      ended: headsOn(moves, id, to),
      countedOn: countedLast(moves, id),
    })),
    trips: listTrips(books, from, to),
    marketDays: listMarketDays(books, from, to).map(({ day, marketId, miles }) => ({
      day,
      market: names.ofMarket(marketId),
      miles,
    })),
    hired: listHours(books, from, to).filter(({ hired }) => hired),
    goods: listGoods(books, from, to),
  })
}
