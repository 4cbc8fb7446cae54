// The list of page rooms: each file exports a room whose app has full paths, built from the shared context.
//
//   export const coverPages: PageRoom = {
//     build: (web) =>
//       new Hono<PageEnv>()
//         .get('/cover', (c) => {
//           const figures = coverFigures(web.books, web.today())
//           return answer(c, { title: 'Cover', page: () => <CoverPage figures={figures} />, figures })
//         })
//         .post('/cover/people', async (c) => {
//           const typed = await readForm(c)
//           const checked = checkForm(peopleForm, typed)
//           if (!checked.ok) return showForm(c, typed, checked.errors)   // answer(…, { status: 422 })
//           …
//           return moveOn(c, '/cover', 'Saved.')
//         }),
//   }
import type { Hono } from 'hono'
import type { PageEnv, WebContext } from './context.ts'

export interface PageRoom {
  build: (web: WebContext) => Hono<PageEnv>
  /** Paths under which a file may be sent (statements, attachments, backups): the larger size limit holds there. */
  uploads?: readonly string[]
}

export const pageRooms: readonly PageRoom[] = []
