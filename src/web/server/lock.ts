// Lets no page out without the passphrase, once one is set.
import type { MiddlewareHandler } from 'hono'
import { getCookie, setCookie } from 'hono/cookie'
import type { PageContext } from '#web/forms/answer.tsx'
import { formatAsked } from '#web/forms/answer.tsx'
import type { Access } from './access.ts'
import type { PageEnv } from './context.ts'

const sessionCookie = 'dooryard-session'

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

/** Only addresses of this house, so that a link cannot lead elsewhere after unlocking. */
export const safeNext = (text: string | undefined): string =>
  text && /^\/(?![/\\])[\w\-./?=&%#]*$/.test(text) && !text.startsWith('/unlock') ? text : '/now'
