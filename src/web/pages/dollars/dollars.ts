// The switch between today's dollars and those of each year: kept with the browser, and back to where it was pressed.
import { Hono } from 'hono'
import { moveOn } from '#web/forms/answer.tsx'
import { readForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { keepDollars } from '#web/forms/shown-dollars.ts'
import type { PageEnv } from '#web/server/context.ts'

export const dollarsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>().post('/dollars', async (c) => {
      const typed = await readForm(c)
      keepDollars(c, typed.value('of') === 'year' ? 'year' : 'today')
      const back = typed.value('back')
      return moveOn(c, isOurs(back) ? back : '/runway')
    }),
}

/** A path of this house with its query; never another host. */
const isOurs = (back: string): boolean => /^\/[a-z][\w./-]*(\?[^\s#\\]*)?$/i.test(back)
