// The year that a page of the pack is asked for in its address.
import { yearIn } from '#calendar/month.ts'
import type { PageContext } from '#web/forms/answer.tsx'

/** This year, where the address names none. */
export const yearAskedFor = (c: PageContext): number => {
  const text = c.req.query('year') ?? ''
  return /^\d{4}$/.test(text) ? Number.parseInt(text, 10) : yearIn(c.var.web.today())
}
