// Closing a year with its pack, keeping an amended copy, and a kept copy as page, JSON and CSV.
import { Hono } from 'hono'
import { z } from 'zod'
import { keepPack, keptPacksOf } from '#db/year/kept-packs.ts'
import { refuse } from '#ledger/problem.ts'
import type { PackBasis } from '#today/year-pack/figures.ts'
import { KeptCopy } from '#views/year-pack/whole/kept-copy.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { tableOf } from '#web/forms/csv.ts'
import { formIdField, optionalText, wholeNumber } from '#web/forms/fields.ts'
import { checkForm } from '#web/forms/form.ts'
import {
  type KeptSheets,
  newSheets,
  type PackDifference,
  packDifferences,
  sheetsToKeep,
} from '#web/forms/pack/kept-sheets.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import { beforeClosing } from './closing.ts'
import { showPack, withoutPack } from './year-pack.tsx'

export const closedYearPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>().post('/year-pack/close', close).get('/year-pack/kept/:year/:copy', showCopy),
}

const closeForm = z.object({
  formId: formIdField(),
  over: wholeNumber(0, 1_000_000),
  note: optionalText(200),
})

const close = (c: PageContext) =>
  withoutPack(c, yearAskedFor(c)) ??
  posted(c, {
    check: (typed) => checkForm(closeForm, typed),
    again: (typed, errors) => showPack(c, { typed, errors }),
    keep({ formId, over, note }) {
      const { books, today } = c.var.web
      const year = yearAskedFor(c)
      const [first] = beforeClosing(c, year)
      if (over === 0 && first) return refuse({ path: '', message: first.says })
      const sheets = JSON.stringify(sheetsToKeep(books, year, today()))
      const kept = keepPack(books, actOf(c, formId), { year, sheets, note, over })
      return kept.ok
        ? moveOn(
            c,
            `/year-pack?year=${year}#closed`,
            over === 0 ? `${year} is closed; its pack is kept.` : 'The amended copy is kept.',
          )
        : kept
    },
  })

const showCopy = (c: PageContext) => {
  const year = Number(c.req.param('year'))
  const copies = keptPacksOf(c.var.web.books, year)
  const copy = copies.find(({ copyNo }) => String(copyNo) === c.req.param('copy'))
  if (!copy) return notFound(c, 'No such copy of a year pack was kept.')
  const sheets = JSON.parse(copy.sheets) as KeptSheets
  const basis: PackBasis = c.req.query('basis') === 'accrual' ? 'accrual' : 'cash'
  const { copyNo, digest, note, chainEnd } = copy
  const before = copies.find((one) => one.copyNo === copyNo - 1)
  const then = before ? (JSON.parse(before.sheets) as KeptSheets) : null
  const changes = then && packDifferences(then, sheets)
  const added = then ? newSheets(then, sheets) : []
  const head = { year, copyNo, digest, note, chainEnd, at: copy.keptAt }
  return answer(c, {
    title: `Year pack ${year}, copy ${copyNo}`,
    figures: { ...head, changes, newSheets: added, kept: sheets },
    tables: {
      ...Object.fromEntries(
        sheets[basis].sheets.map(({ id, header, rows }) => [id, () => ({ header, rows })]),
      ),
      ...(changes ? { changes: () => changesTable(changes) } : {}),
    },
    page: () => (
      <KeptCopy
        {...head}
        when={c.var.web.timeName(head.at)}
        changes={changes?.filter((line) => line.basis === basis) ?? null}
        newSheets={added}
        shown={{ basis, ...sheets[basis] }}
      />
    ),
  })
}

const changesTable = (changes: readonly PackDifference[]) =>
  tableOf(changes, {
    basis: (line) => line.basis,
    sheet: (line) => line.sheet,
    line: (line) => line.line,
    before: (line) => line.before,
    now: (line) => line.now,
  })
