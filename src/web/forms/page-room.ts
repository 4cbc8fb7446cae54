// What a page room is: a file of routes with full paths, built from the shared context and listed in pages/all-pages.ts.
//
//   export const coverPages: PageRoom = {
//     build: () =>
//       new Hono<PageEnv>()
//         .get('/cover', (c) => {
//           const figures = coverFigures(c.var.web.books, planOpen(c), c.var.web.today())
//           return answer(c, { title: 'Cover', page: () => <CoverPage figures={figures} />, figures })
//         })
//         .post('/cover/people', (c) =>
//           posted(c, {
//             check: (typed) => checkForm(peopleForm, typed),
//             again: (typed, errors) => showForm(c, typed, errors),   // answer(…, { status: statusOf(errors) })
//             keep({ formId, ...people }) {
//               const saved = savePeople(c.var.web.books, actOf(c, formId), people)
//               return saved.ok ? moveOn(c, '/cover', 'Saved.') : saved
//             },
//           }),
//         ),
//   }
import type { Hono } from 'hono'
import type { PageEnv, WebContext } from '#web/server/context.ts'

export interface PageRoom {
  build: (web: WebContext) => Hono<PageEnv>
  /** Paths under which a file may be sent (statements, attachments, backups): the larger size limit holds there. */
  uploads?: readonly string[]
}
