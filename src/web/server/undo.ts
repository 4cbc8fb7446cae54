// Taking back the last thing done at this screen, from a notice or from the page of what is mixed up.
import { Hono } from 'hono'
import { lastUndoable, undoChange } from '#db/undo.ts'
import type { Refusal } from '#ledger/problem.ts'
import { actOfForm } from '#web/forms/act.ts'
import { moveOn, type PageContext } from '#web/forms/answer.tsx'
import { newFormId, readForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { browserOf } from '#web/server/browser.ts'
import type { PageEnv } from '#web/server/context.ts'
import type { NoticeText } from '#web/server/notices.ts'

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
          label: 'Undo',
          formId: newFormId(),
        },
      }
    : { text }
}

/** Why not, with the way to what stands in it. */
const refusedSays = ({ problems: [problem] }: Refusal): NoticeText => ({
  text: problem ? problem.message.replace(/\.?$/, '.') : 'It could not be undone.',
  ...(problem?.way ? { way: problem.way } : {}),
})

async function takeBack(c: PageContext) {
  const typed = await readForm(c)
  const { books, today } = c.var.web
  const change = Number.parseInt(c.req.param('change') ?? '', 10)
  const done = undoChange(books, actOfForm(c, typed), change, today())
  const asked = c.req.query('next') ?? ''
  const next = /^\/[a-z][\w/-]*(\?[\w=&-]*)?$/.test(asked) ? asked : usualNext
  const isFromList = typed.value('from') === 'acts'
  const says = isFromList ? 'It is undone.' : 'The last action is undone.'
  return moveOn(c, isFromList ? '/books/acts' : next, done.ok ? says : refusedSays(done))
}
