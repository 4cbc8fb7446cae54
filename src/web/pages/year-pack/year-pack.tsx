// The Year pack page: a year and a basis in, every paper of that year out, each with its CSV.
import { Hono } from 'hono'
import { yearIn } from '#calendar/month.ts'
import { yearsOfBooks } from '#db/ledger/report-store.ts'
import type { PackBasis } from '#today/year-pack/figures.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { EmptyPack, YearPackPage } from '#views/year-pack/pack.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { packTables } from './year-pack-tables.ts'

export const yearPackPages: PageRoom = {
  build: () => new Hono<PageEnv>().get('/year-pack', showPack),
}

function showPack(c: PageContext) {
  const { books } = c.var.web
  const today = c.var.web.today()
  const years = yearsOfBooks(books)
  if (years.length === 0) {
    return answer(c, { title: 'Year pack', figures: { years }, page: () => <EmptyPack /> })
  }
  const year = yearAsked(c.req.query('year'), years, yearIn(today))
  const basis: PackBasis = c.req.query('basis') === 'accrual' ? 'accrual' : 'cash'
  const figures = yearPackFigures(books, year, basis, today)
  const csv = (table: string) => `/year-pack.csv?year=${year}&basis=${basis}&table=${table}`
  return answer(c, {
    title: `Year pack ${year}`,
    figures,
    page: () => <YearPackPage figures={figures} csv={csv} />,
    tables: () => packTables(figures),
  })
}

/** The year asked for, when the books have it; else the last one that is over; else the newest. */
const yearAsked = (text: string | undefined, years: readonly number[], thisYear: number): number => {
  const asked = /^\d{4}$/.test(text ?? '') ? Number.parseInt(text!, 10) : null
  if (asked !== null && years.includes(asked)) return asked
  return years.find((year) => year < thisYear) ?? years[0]!
}
