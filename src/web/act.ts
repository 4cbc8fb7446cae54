// Who does what when: the form's id, the edge's clock, and a name for the browser that lasts as long as its cookie.
import { randomUUID } from 'node:crypto'
import { getCookie, setCookie } from 'hono/cookie'
import type { Act } from '#db/once.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import type { PageContext } from './answer.tsx'
import type { FormErrors } from './form.ts'

const browserCookie = 'dooryard-browser'

export const actOf = (c: PageContext, formId: string): Act => ({
  formId,
  at: c.var.web.clock.now().toISOString(),
  actor: browserOf(c),
})

/** Lets a page tell changes made here from those made at another screen. */
export const browserOf = (c: PageContext): string => {
  const known = getCookie(c, browserCookie)
  if (known && /^[\w-]{8,40}$/.test(known)) return known
  const made = `browser-${randomUUID().slice(0, 8)}`
  setCookie(c, browserCookie, made, {
    path: '/',
    httpOnly: true,
    sameSite: 'Strict',
    secure: c.req.url.startsWith('https:'),
    maxAge: 31_536_000,
  })
  return made
}

/** What a store refused, by input name: stores name their fields as the forms do. */
export const errorsOf = (problems: readonly FieldProblem[]): FormErrors => {
  const errors: Record<string, string> = {}
  for (const problem of problems) errors[problem.path] ??= problem.message
  return errors
}
