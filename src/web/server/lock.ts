// Lets no page out without the passphrase, once one is set.
import { timingSafeEqual } from 'node:crypto'
import type { MiddlewareHandler } from 'hono'
import { getCookie, setCookie } from 'hono/cookie'
import type { PageContext } from '#web/forms/answer.tsx'
import { formatAsked } from '#web/forms/answer.tsx'
import type { Access } from './access.ts'
import { browserOf } from './browser.ts'
import type { PageEnv } from './context.ts'

const sessionCookie = 'dooryard-session'
const knownCookie = 'dooryard-known'

export const unlockedOnly =
  (access: Access): MiddlewareHandler<PageEnv> =>
  async (c, next) => {
    if (!access.isSet() || c.req.path === '/unlock' || access.isOpen(sessionOf(c))) return next()
    if (formatAsked(c) !== 'html' || c.req.header('HX-Request')) {
      return c.json({ error: 'Locked. Open /unlock and give the passphrase.' }, 401, {
        'HX-Redirect': '/unlock',
      })
    }
    const { pathname, search } = new URL(c.req.url)
    return c.req.method === 'GET'
      ? c.redirect(`/unlock?next=${encodeURIComponent(pathname + search)}`, 303)
      : c.redirect('/unlock?late=yes', 303)
  }

export const sessionOf = (c: PageContext): string | undefined => getCookie(c, sessionCookie)

/** A cookie for this session of the browser only, closed to scripts and to other sites. */
export const keepSession = (c: PageContext, token: string): void =>
  setCookie(c, sessionCookie, token, {
    path: '/',
    httpOnly: true,
    sameSite: 'Strict',
    secure: c.req.url.startsWith('https:'),
  })

/** The browser has given the passphrase: others' wrong tries from the same address are not counted against it. */
export const keepKnown = (c: PageContext, access: Access): void => {
  const browser = browserOf(c)
  setCookie(c, knownCookie, `${browser}.${access.markOf(browser)}`, {
    path: '/unlock',
    httpOnly: true,
    sameSite: 'Strict',
    secure: c.req.url.startsWith('https:'),
    maxAge: 31_536_000,
  })
}

/** Whose tries are counted together: a browser that is known, or else the address they come from. */
export const clientOf = (c: PageContext, access: Access): string => {
  const [browser = '', mark = ''] = (getCookie(c, knownCookie) ?? '').split('.')
  const real = Buffer.from(access.markOf(browser))
  if (mark.length === real.length && timingSafeEqual(Buffer.from(mark), real)) return `known ${browser}`
  const address = c.env?.incoming?.socket.remoteAddress ?? ''
  // One house has 2^64 addresses of version 6: their first half says which house.
  return `from ${address.includes('.') ? address : address.split(':').slice(0, 4).join(':')}`
}

/** Only addresses of this house, so that a link cannot lead elsewhere after unlocking. */
export const safeNext = (text: string | undefined): string =>
  text && /^\/(?![/\\])[\w\-./?=&%#]*$/.test(text) && !text.startsWith('/unlock') ? text : '/now'
