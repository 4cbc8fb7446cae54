// One address, two sets of books: your own, and beside them the sample farm, opened when first asked for and chosen by a cookie.

import type { Context } from 'hono'
import { getCookie } from 'hono/cookie'

export const sampleCookie = 'dooryard-sample'

export interface House {
  fetch(request: Request): Response | Promise<Response>
}

/** The sample opens in its own file the first time it is asked for; a failure to open it leaves your own books as they are. */
export const twoHouses = (own: House, openSample: () => Promise<House>): House => {
  let sample: Promise<House> | undefined
  return {
    async fetch(request) {
      if (!asksForSample(request)) return own.fetch(request)
      sample ??= openSample().catch((error: unknown) => {
        sample = undefined
        throw error
      })
      return (await sample).fetch(request)
    },
  }
}

export const isInSample = (c: Context): boolean => getCookie(c, sampleCookie) === 'open'

const asksForSample = (request: Request): boolean =>
  (request.headers.get('cookie') ?? '').split(/;\s*/).includes(`${sampleCookie}=open`)
