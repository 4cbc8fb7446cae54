// What was done in the books, newest first, with who and when, and the way to take each act back.
import { Hono } from 'hono'
import { nameAt, saveName, whoDid } from '#db/acts/names.ts'
import { listActs } from '#db/undo.ts'
import { actsTold } from '#today/acts/act-about.ts'
import { type ActRow, ActsPage } from '#views/books/acts.tsx'
import { actOfForm } from '#web/forms/act.ts'
import { answer, formatAsked, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { newFormId, readForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { browserOf } from '#web/server/browser.ts'
import type { PageEnv } from '#web/server/context.ts'

export const actsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>().get('/books/acts', showActs).post('/books/acts/name', async (c) => {
      const typed = await readForm(c)
      const name = typed.value('name').trim().slice(0, 40)
      const done = saveName(c.var.web.books, actOfForm(c, typed), name)
      const says = name === '' ? 'No name is kept for this browser.' : `What is done here says ${name}.`
      return moveOn(c, '/books/acts', done.ok ? says : done.problems[0]!.message)
    }),
}

/** A page is read, a file is kept: it holds all. */
const actsShown = { html: 25, json: 200, csv: 20_000 } as const

function showActs(c: PageContext) {
  const { books, timeName } = c.var.web
  const own = browserOf(c)
  const who = whoDid(books, own)
  const before = /^\d{1,15}$/.exec(c.req.query('before') ?? '')?.[0]
  const limit = actsShown[formatAsked(c)]
  const found = listActs(books, {
    limit: limit + 1,
    withLone: true,
    ...(before ? { before: Number(before) } : {}),
  })
  const told = actsTold(books)
  const acts = found.slice(0, limit).map(({ isTakenBack, hasOpposite, ...change }): ActRow => {
    const about = told(change)
    return {
      id: change.id,
      at: change.at,
      when: timeName(change.at),
      who: who(change.actor),
      says: change.summary,
      about: about.says,
      href: about.href,
      isTakenBack,
      hasOpposite,
    }
  })
  return answer(c, {
    title: 'What was done',
    figures: { acts },
    page: () => (
      <ActsPage
        acts={acts}
        pager={{
          says: acts.length === 1 ? '1 act' : `${acts.length} acts`,
          earlier: found.length > limit ? `/books/acts?before=${acts.at(-1)!.id}` : undefined,
          later: before ? '/books/acts' : undefined,
        }}
        name={nameAt(books, own)}
        nameFormId={newFormId()}
        formIdOf={newFormId}
      />
    ),
    tables: {
      acts: () =>
        tableOf(acts, {
          when: (act) => act.at,
          who: (act) => act.who,
          what: (act) => act.says,
          of: (act) => act.about,
          undone: (act) => (act.isTakenBack ? 'yes' : act.hasOpposite ? 'no' : 'on its own page'),
        }),
    },
  })
}
