// Sides in Settings: a new side venture, and each side's page, where it is renamed or put away.
import { Hono } from 'hono'
import { z } from 'zod'
import { addSide, listAccounts, type Side } from '#db/ledger/account-store.ts'
import { changeSide, findSide } from '#db/ledger/side-change.ts'
import { hangingSentences, whatHangs } from '#db/ledger/what-hangs.ts'
import { NewSidePage, SidePage } from '#views/settings/sides.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { checkbox, formIdField, requiredText } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { isOutdated, showOverTheirs, versionOf } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const sideSettingsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/settings/sides/new', (c) => showNew(c, openingForm({ formId: newFormId() }), {}))
      .post('/settings/sides/new', addOne)
      .get('/settings/sides/:id', (c) => {
        const side = findSide(c.var.web.books, c.req.param('id'))
        return side ? showOne(c, side, formOf(side), {}) : notFound(c, noSuchSide)
      })
      .post('/settings/sides/:id', changeOne),
}

const noSuchSide = 'There are no such books.'

const nameField = () => requiredText('Give these books a name, like “repair bench”', 80)

const newForm = z.object({ formId: formIdField(), name: nameField() })

const sideForm = z.object({
  formId: formIdField(),
  name: nameField(),
  archived: checkbox(),
  anyway: checkbox(),
})

const addOne = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(newForm, typed),
    again: (typed, errors) => showNew(c, typed, errors),
    keep({ formId, name }) {
      const done = addSide(c.var.web.books, actOf(c, formId), { kind: 'venture', name })
      return done.ok ? moveOn(c, '/books', `“${name}” has its books.`) : done
    },
  })

const changeOne = (c: PageContext) => {
  const side = findSide(c.var.web.books, c.req.param('id') ?? '')
  if (!side) return notFound(c, noSuchSide)
  return posted(c, {
    check: (typed) => checkForm(sideForm, typed),
    again: (typed, errors) => showOne(c, side, typed, errors),
    keep({ formId, ...change }, typed) {
      const saved = () => moveOn(c, '/settings/accounts', `“${change.name}” is saved.`)
      const now = formOf(side)
      if (isOutdated(c, typed, now))
        return showOverTheirs(c, {
          what: `the books of ${side.name}`,
          typed,
          now,
          subject: side.id,
          theirs: `/settings/sides/${side.id}`,
          alike: saved,
        })
      const done = changeSide(c.var.web.books, actOf(c, formId), side.id, change)
      return done.ok ? saved() : done
    },
  })
}

const formOf = (side: Side): TypedForm => {
  const shown = { name: side.name, archived: side.archivedAt === null ? '' : 'yes' }
  return openingForm({ ...shown, formId: newFormId(), basedOn: versionOf(shown) })
}

const showNew = (c: PageContext, typed: TypedForm, errors: FormErrors) =>
  answer(c, {
    title: 'New side venture',
    status: statusOf(errors),
    page: () => <NewSidePage typed={typed} errors={errors} />,
  })

function showOne(c: PageContext, { id, kind, name, archivedAt }: Side, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  const figures = {
    side: { id, kind, name, isPutAway: archivedAt !== null },
    hanging: hangingSentences(whatHangs(books, listAccounts(books, { sideId: id }))),
  }
  return answer(c, {
    title: name,
    status: statusOf(errors),
    figures,
    page: () => <SidePage {...figures} typed={typed} errors={errors} />,
  })
}
