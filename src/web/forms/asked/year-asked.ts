// The year that a page is asked for in its address: never another one than it names.
import { HTTPException } from 'hono/http-exception'
import { yearIn } from '#calendar/month.ts'
import { type Answered, notFound, type PageContext } from '#web/forms/answer.tsx'

/** This year, where the address names none. */
export const yearAskedFor = (c: PageContext): number => yearNamed(c) ?? yearIn(c.var.web.today())

/** Today, while the year asked for runs: in what is entered for another one, no day is as good as today. */
export const todayInYear = (c: PageContext): string => {
  const today = c.var.web.today()
  return yearAskedFor(c) === yearIn(today) ? today : ''
}

/** Null where the address names none. What it names and is no year is nothing to answer with another one: 404. */
export const yearNamed = (c: PageContext): number | null => {
  const text = c.req.query('year') ?? ''
  if (text === '') return null
  if (/^\d{4}$/.test(text)) return Number.parseInt(text, 10)
  throw new HTTPException(404, {
    message: `This address asks for the year “${text.slice(0, 40)}”. A year has four digits, like ${yearIn(c.var.web.today())}.`,
  })
}

/** 404 with the years there are, each a link to `path`. `whose`: what has no such year, in the singular. */
export const noSuchYear = (
  c: PageContext,
  whose: string,
  year: number,
  { path, years }: { path: string; years: readonly number[] },
): Answered => {
  const there = [...years].sort((one, other) => one - other)
  return notFound(
    c,
    `${whose} does not reach ${year}. It has ${spans(there).join(', ') || 'none yet'}.`,
    there.map((one) => ({ says: String(one), href: `${path}?year=${one}` })),
  )
}

/** Years in their order, those that follow each other as `2026 to 2030`. */
const spans = (years: readonly number[]): string[] =>
  years
    .filter((year, i) => year - 1 !== years[i - 1])
    .map((first) => {
      let last = first
      while (years.includes(last + 1)) last += 1
      return first === last ? String(first) : `${first} to ${last}`
    })
