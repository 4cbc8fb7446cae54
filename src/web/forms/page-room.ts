// What a page room is: a file of routes with full paths, built from the shared context and listed in pages/all-pages.ts.
//
//   export const coverPages: PageRoom = {
//     build: () =>
//       new Hono<PageEnv>()
//         .get('/cover', (c) => {
//           const figures = coverFigures(c.var.web.books, c.var.web.today())
//           return answer(c, { title: 'Cover', page: () => <CoverPage figures={figures} />, figures })
//         })
//         .post('/cover/people', async (c) => {
//           const typed = await readForm(c)
//           const checked = checkForm(peopleForm, typed)
//           if (!checked.ok) return showForm(c, typed, checked.errors)   // answer(…, { status: 422 })
//           const saved = savePeople(c.var.web.books, actOf(c, checked.value.formId), checked.value)
//           if (!saved.ok) return showForm(c, typed, errorsOf(saved.problems))
//           return moveOn(c, '/cover', 'Saved.')
//         }),
//   }
import type { Hono } from 'hono'
import type { PageEnv, WebContext } from '#web/server/context.ts'

export interface PageRoom {
  build: (web: WebContext) => Hono<PageEnv>
  /** Paths under which a file may be sent (statements, attachments, backups): the larger size limit holds there. */
  uploads?: readonly string[]
}
