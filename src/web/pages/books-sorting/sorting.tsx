// The sorting desk's routes: waiting lines with proposals, booked in bulk when ticked, and each line by itself.
import { Hono } from 'hono'
import type { Books } from '#db/open.ts'
import { listSetAside, takeUpLine } from '#db/statements/set-aside.ts'
import { type Desk, type DeskLine, sortingDesk } from '#db/statements/sorting-desk.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { centsToDecimalText } from '#money/format.ts'
import { loanBook } from '#today/loan-terms.ts'
import { type DeskFigures, DeskPage, type DeskProps } from '#views/books-sorting/desk.tsx'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import { SetAsidePage } from '#views/books-sorting/set-aside.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { formIdField } from '#web/forms/fields.ts'
import { newFormId, readForm, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { alikeLines } from './alike-lines.ts'
import { type DeskAgain, sendDesk } from './book-lines.ts'
import {
  type Choice,
  choiceText,
  deskAddress,
  keptInAddress,
  keptText,
  placeOf,
  rowsPerPage,
  wholeOrNull,
} from './desk-choices.ts'
import { deskRow, groundOf, loanSplits } from './desk-rows.ts'
import { showLine, sortOneLine } from './sorting-line.tsx'
import { type TargetGround, targetOptions } from './sorting-targets.ts'

export const sortingPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/sorting', (c) =>
        showDesk(c, { choices: keptInAddress(c), formId: newFormId(), wrong: new Map() }),
      )
      .post('/books/sorting', (c) => sendDesk(c, showDesk))
      .get('/books/sorting/set-aside', showSetAside)
      .post('/books/sorting/set-aside/:id', async (c) => {
        const id = wholeOrNull(c.req.param('id'))
        const formId = formIdField().safeParse((await readForm(c)).value('formId'))
        if (id !== null && formId.success) takeUpLine(c.var.web.books, actOf(c, formId.data), id)
        return moveOn(c, '/books/sorting', 'The transaction waits to be sorted again.')
      })
      .get('/books/sorting/lines/:id', (c) => showLine(c, c.req.param('id')))
      .post('/books/sorting/lines/:id', (c) => sortOneLine(c, c.req.param('id'))),
}

function showDesk(c: PageContext, again: DeskAgain) {
  const { books } = c.var.web
  const ground = groundOf(books)
  const place = placeOf(c)
  const whole = sortingDesk(books)
  const desk = place.account === null ? whole : onlyOf(whole, place.account, books)
  const shown = onPage(desk.lines, place.page)
  const splits = loanSplits(books, whole.lines)
  const loans = loanBook(books)
  const figures = deskFigures(whole, desk, shown, place.account, ground, splits)
  const onThisPage = new Set(shown.map(({ line }) => line.id))
  const stillWaits = new Set(whole.lines.map(({ line }) => line.id))
  const elsewhere = [...again.choices].filter(([id]) => stillWaits.has(id) && !onThisPage.has(id))
  const accounts = new Map(ground.accounts.map((each) => [each.id, each]))
  const open = figures.rows.filter((row) => row.doubt === '')
  const proposed = (row: DeskRow): Choice => ({
    take: row.proposal?.isSure ?? false,
    to: row.proposal?.value ?? '',
  })
  const errors = Object.fromEntries(
    [...again.wrong].map(([id, message]) => {
      const index = open.findIndex((row) => row.id === id)
      return [index < 0 ? '' : `lines.${index}.to`, message]
    }),
  )
  return answer(c, {
    title: 'Sort transactions',
    status: statusOf(errors),
    figures,
    page: () => (
      <DeskPage
        figures={figures}
        formId={again.formId || newFormId()}
        optionsFor={optionCache((row: DeskRow) =>
          targetOptions(accounts.get(row.accountId)!, row.amount < 0, ground, loans),
        )}
        choice={(row) => again.choices.get(row.id) ?? proposed(row)}
        was={(row) => choiceText(proposed(row))}
        kept={elsewhere.map(([id, choice]) => keptText(id, choice))}
        keptToBook={elsewhere.filter(([, choice]) => choice.take).length}
        errors={errors}
        pages={pagesOf(desk, place.page)}
        address={deskAddress(place)}
      />
    ),
    tables: {
      lines: () =>
        tableOf(deskFigures(whole, desk, desk.lines, place.account, ground, splits).rows, {
          day: (row) => row.day,
          account: (row) => row.account,
          payee: (row) => row.payee,
          note: (row) => row.memo,
          amount: (row) => centsToDecimalText(row.amount),
          state: (row) => (row.doubt === '' ? 'waiting' : 'doubtful'),
          proposal: (row) => row.proposal?.says ?? '',
        }),
    },
  })
}

const onlyOf = (whole: Desk, account: number, books: Books): Desk => ({
  lines: whole.lines.filter(({ line }) => line.accountId === account),
  ...countWaiting(books, account),
})

const mostDoubtful = 200

/** Doubtful transactions first; a transfer's halves stay on one page with the earlier half. */
const onPage = (lines: readonly DeskLine[], page: number): DeskLine[] => {
  const doubtful = lines.filter(({ line }) => line.state === 'doubtful').slice(0, mostDoubtful)
  const open = lines.filter(({ line }) => line.state !== 'doubtful')
  return [...doubtful, ...open.slice((page - 1) * rowsPerPage, page * rowsPerPage)]
}

const pagesOf = (desk: Desk, page: number): DeskProps['pages'] => {
  const open = desk.lines.filter(({ line }) => line.state !== 'doubtful').length
  const last = Math.min(page * rowsPerPage, open)
  return {
    says: `${Math.min((page - 1) * rowsPerPage + 1, open)} to ${last} of ${open} waiting transactions, oldest first`,
    earlier: page > 1 ? page - 1 : null,
    later: last < open ? page + 1 : null,
  }
}

const deskFigures = (
  whole: Desk,
  desk: Desk,
  shown: readonly DeskLine[],
  account: number | null,
  ground: TargetGround,
  splits: ReturnType<typeof loanSplits>,
): DeskFigures => {
  const perAccount = new Map<number, { name: string; waiting: number }>()
  for (const { line } of whole.lines) {
    const known = perAccount.get(line.accountId)
    perAccount.set(line.accountId, { name: line.accountName, waiting: (known?.waiting ?? 0) + 1 })
  }
  const alike = alikeLines(desk.lines)
  return {
    waiting: desk.waiting,
    doubtful: desk.doubtful,
    accounts: [...perAccount].map(([id, each]) => ({ id, ...each })),
    account,
    rows: shown.map((each) => deskRow(each, ground, splits.get(each.line.id), alike.get(each.line.id))),
  }
}

/** One list of choices per account and direction: pages of thirty rows share them. */
const optionCache = (make: (row: DeskRow) => ReturnType<typeof targetOptions>) => {
  const made = new Map<string, ReturnType<typeof targetOptions>>()
  return (row: DeskRow) => {
    const key = `${row.accountId}|${row.amount < 0}`
    const known = made.get(key) ?? make(row)
    made.set(key, known)
    return known
  }
}

function showSetAside(c: PageContext) {
  const lines = listSetAside(c.var.web.books)
  return answer(c, {
    title: 'Skipped transactions',
    figures: { lines },
    page: () => <SetAsidePage lines={lines} formIdOf={newFormId} />,
    tables: {
      lines: () =>
        tableOf(lines, {
          day: (line) => line.day,
          account: (line) => line.account,
          payee: (line) => line.payee,
          note: (line) => line.memo,
          amount: (line) => centsToDecimalText(line.amount),
          why: (line) => line.note,
        }),
    },
  })
}
