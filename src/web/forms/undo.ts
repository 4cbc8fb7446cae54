// Taking back the last thing done at this screen, from a notice or from the page of what is mixed up.
import { Hono } from 'hono'
import { lastUndoable, undoChange } from '#db/undo.ts'
import { browserOf } from '#web/server/browser.ts'
import type { PageEnv } from '#web/server/context.ts'
import type { NoticeText } from '#web/server/notices.ts'
import { actOfForm } from './act.ts'
import { moveOn, type PageContext } from './answer.tsx'
import { newFormId, readForm } from './form.ts'
import type { PageRoom } from './page-room.ts'

export const undoPages: PageRoom = {
  build: () => new Hono<PageEnv>().post('/undo/:change{[0-9]{1,15}}', takeBack),
}

/** Where a taking back leads from a page that says nothing else. */
const usualNext = '/books'

/** A notice that offers to take back what was just done here. Without anything to take back it is the plain text. */
export const undoable = (c: PageContext, text: string, next = usualNext): NoticeText => {
  const last = lastUndoable(c.var.web.books, browserOf(c))
  return last
    ? {
        text,
        undo: {
          action: `/undo/${last.id}?next=${encodeURIComponent(next)}`,
          label: 'Take it back',
          formId: newFormId(),
        },
      }
    : { text }
}

async function takeBack(c: PageContext) {
  const typed = await readForm(c)
  const { books, today } = c.var.web
  const change = Number.parseInt(c.req.param('change') ?? '', 10)
  const done = undoChange(books, actOfForm(c, typed), change, today())
  const next = c.req.query('next') ?? ''
  return moveOn(
    c,
    /^\/[a-z][\w/-]*(\?[\w=&-]*)?$/.test(next) ? next : usualNext,
    done.ok ? 'The last action is taken back.' : (done.problems[0]?.message ?? 'It could not be taken back.'),
  )
}
