// A name for the browser, kept in its cookie: tells the two people's changes apart, and is no proof of anything.
import { randomUUID } from 'node:crypto'
import type { Context } from 'hono'
import { getCookie, setCookie } from 'hono/cookie'

const browserCookie = 'dooryard-browser'

/** Lets a page tell changes made here from those made at another screen. */
export const browserOf = (c: Context): string => {
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
