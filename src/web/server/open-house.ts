// One address, two sets of books: your own, and beside them the sample farm, opened when first asked for and chosen by a cookie.

import type { Context } from 'hono'
import { getCookie } from 'hono/cookie'

export const sampleCookie = 'dooryard-sample'

export interface House {
  /** `env` is what the server knows of the connection. */
  fetch(request: Request, env?: object): Response | Promise<Response>
}

/** The sample opens in its own file the first time it is asked for; a failure to open it leaves your own books as they are. */
export const twoHouses = (own: House, openSample: () => Promise<House>): House => {
  let sample: Promise<House> | undefined
  return {
    async fetch(request, env) {
      if (!asksForSample(request)) return own.fetch(request, env)
      sample ??= openSample()
      try {
        return (await sample).fetch(request, env)
      } catch {
        sample = undefined
        return sampleClosed()
      }
    },
  }
}

/** Says so and lets go of the cookie, so that the next page is one's own again. */
const sampleClosed = (): Response =>
  new Response(
    'The sample farm could not be opened. Check that the data folder can be written, then try again. Your own books are as they were: load this page again.',
    {
      status: 503,
      headers: {
        'Content-Type': 'text/plain; charset=utf-8',
        'Cache-Control': 'no-store',
        'Set-Cookie': `${sampleCookie}=; Path=/; Max-Age=0; HttpOnly; SameSite=Strict`,
      },
    },
  )

export const isInSample = (c: Context): boolean => getCookie(c, sampleCookie) === 'open'

const asksForSample = (request: Request): boolean =>
  (request.headers.get('cookie') ?? '').split(/;\s*/).includes(`${sampleCookie}=open`)
