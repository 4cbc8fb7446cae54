// What keeps other sites, and other people's names for this address, out: Host allow-list, same-site posts, strict content policy, size limits.
import type { MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { csrf } from 'hono/csrf'
import { HTTPException } from 'hono/http-exception'
import { secureHeaders } from 'hono/secure-headers'
import type { PageEnv } from './context.ts'

export const loopbackNames: readonly string[] = ['localhost', '127.0.0.1', '[::1]']

/**
 * Refuses a Host that is not ours before anything compares Origin with it: a page that rebinds its own name to this
 * address would otherwise pass as same-origin.
 */
export const onlyHosts = (names: readonly string[]): MiddlewareHandler<PageEnv> => {
  const allowed = new Set(names.map((name) => name.toLowerCase()))
  return async (c, next) => {
    const host = c.req.header('host') ?? new URL(c.req.url).host
    const name = host.replace(/:\d+$/, '').toLowerCase()
    if (allowed.has(name)) return next()
    return c.text(
      `Dooryard does not answer to the name “${name.slice(0, 100)}”. Use the address it printed at start.`,
      403,
    )
  }
}

/** Headers of every answer, errors too. No HSTS: the house is at home on plain http. */
export const headers = (): MiddlewareHandler =>
  secureHeaders({
    strictTransportSecurity: false,
    referrerPolicy: 'same-origin',
    xFrameOptions: 'DENY',
    contentSecurityPolicy: {
      defaultSrc: ["'none'"],
      scriptSrc: ["'self'"],
      styleSrc: ["'self'"],
      imgSrc: ["'self'"],
      connectSrc: ["'self'"],
      formAction: ["'self'"],
      baseUri: ["'none'"],
      frameAncestors: ["'none'"],
    },
  })

/** Pages hold people's money: no cache keeps them, and a part is never taken for the page. */
export const privateAnswers: MiddlewareHandler = async (c, next) => {
  await next()
  if (!c.res.headers.has('Cache-Control')) c.res.headers.set('Cache-Control', 'no-store')
  c.res.headers.append('Vary', 'HX-Request')
}

export const sameSitePosts = (): MiddlewareHandler => csrf()

/** Changes come only from our own forms: other content types are not asked for, and csrf() does not watch them. */
export const onlyForms: MiddlewareHandler = async (c, next) => {
  if (c.req.method === 'GET' || c.req.method === 'HEAD') return next()
  const type = (c.req.header('content-type') ?? '').split(';')[0]?.trim().toLowerCase()
  if (type === 'application/x-www-form-urlencoded' || type === 'multipart/form-data') return next()
  throw new HTTPException(415, { message: 'Send this as a form.' })
}

const formBytes = 1024 * 1024
const uploadMegabytes = 25

/** Forms up to 1 MB; pages that take a file up to 25 MB. */
export const sizeLimits = (isUpload: (path: string) => boolean): MiddlewareHandler => {
  const small = limit(formBytes, 'That form is too large: at most 1 MB. Enter it in parts.')
  const large = limit(
    uploadMegabytes * 1024 * 1024,
    `That file is too large: at most ${uploadMegabytes} MB. Ask your bank for a shorter span, or split the file; a larger backup is restored on the command line.`,
  )
  return (c, next) => (isUpload(c.req.path) ? large(c, next) : small(c, next))
}

const limit = (maxSize: number, message: string): MiddlewareHandler =>
  bodyLimit({
    maxSize,
    onError: () => {
      throw new HTTPException(413, { message })
    },
  })
