// Before there are books, whatever writes them, or reads a year of them, has no account to offer: such pages lead to the start.
import type { MiddlewareHandler } from 'hono'
import { listSides } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { formatAsked, type PageContext } from '#web/forms/answer.tsx'
import { pageOf } from '#web/forms/navigation.ts'
import type { PageEnv } from './context.ts'

const ofBooks: ReadonlySet<string> = new Set(['/books', '/crossings', '/year-pack'])

/** The contents of a pack that has no sheet yet say what is lacking. */
const saysSoItself = '/year-pack'

/** A page asked for in a house with nothing in it is the start; files and figures are answered as ever. */
export const startBeforeBooks =
  (books: Books): MiddlewareHandler<PageEnv> =>
  async (c, next) => {
    const isPage = c.req.method === 'GET' && formatAsked(c as PageContext) === 'html'
    if (
      isPage &&
      ofBooks.has(pageOf(c.req.path)) &&
      c.req.path !== saysSoItself &&
      listSides(books).length === 0
    )
      return c.redirect('/start', 303)
    await next()
  }
