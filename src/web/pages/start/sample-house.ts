// The door between your own books and the sample farm, which lies in a file of its own.
import { Hono } from 'hono'
import { deleteCookie, setCookie } from 'hono/cookie'
import { moveOn } from '#web/forms/answer.tsx'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { sampleCookie } from '#web/server/open-house.ts'

export const samplePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .post('/sample/open', (c) => {
        setCookie(c, sampleCookie, 'open', { path: '/', httpOnly: true, sameSite: 'Strict' })
        return moveOn(c, '/now')
      })
      .post('/sample/leave', (c) => {
        deleteCookie(c, sampleCookie, { path: '/' })
        return moveOn(c, '/now')
      }),
}
