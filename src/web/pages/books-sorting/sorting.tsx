// The sorting desk's pages: waiting transactions by payee, what is skipped, and the ways to one of them.
import { Hono } from 'hono'
import type { Books } from '#db/open.ts'
import { keepLineChoices, listLineChoices } from '#db/statements/line-choices.ts'
import { listSetAside, takeUpLine } from '#db/statements/set-aside.ts'
import type { DeskLine } from '#db/statements/sorting-desk.ts'
import { centsToDecimalText } from '#money/format.ts'
import { type DeskFigures, DeskPage, type DeskProps } from '#views/books-sorting/desk.tsx'
import { type DeskGroup, GroupLines, type GroupProps, linesId, rowName } from '#views/books-sorting/group.tsx'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import { SetAsidePage } from '#views/books-sorting/set-aside.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { formIdField } from '#web/forms/fields.ts'
import { newFormId, readForm, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { type DeskAgain, sendDesk, sentDesk } from './book-lines.ts'
import {
  asProposed,
  type DeskPlace,
  deskAddress,
  groupsPerPage,
  placeOf,
  wholeOrNull,
} from './desk-choices.ts'
import { deskGroup, isShown, largestFirst, proposedChoice } from './desk-groups.ts'
import { type DeskRead, readDesk } from './desk-read.ts'
import { forgetLearned, learnedBy } from './learned.ts'
import { netAskedOf, payPlaces } from './net-pay.ts'
import { showLine, sortOneLine } from './sorting-line.tsx'

export const sortingPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/sorting', (c) =>
        showDesk(c, { chosen: new Map(), formId: newFormId(), wrong: new Map(), unnamed: [] }),
      )
      .post('/books/sorting', (c) => sendDesk(c, showDesk))
      // What the script tells as it is chosen, so that leaving the page by a link drops nothing either.
      .post('/books/sorting/choices', async (c) => {
        const { books, clock } = c.var.web
        keepLineChoices(books, clock.now().toISOString(), sentDesk(books, await readForm(c)).changed)
        return c.body(null, 204)
      })
      .post('/books/sorting/learned', forgetLearned)
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
  const read = readDesk(books)
  const { ground } = read
  const place = placeOf(c)
  const desk = deskOf(books, read, place, again)
  const figures: DeskFigures = { ...desk.figures, learned: learnedBy(books, c.req.query('learned'), ground) }
  const errors = errorsOn(desk.groups, again.wrong)
  const isNetAsked = netAskedOf(read)
  const pay = payPlaces(read)
  const rowProps = (group: DeskGroup): GroupProps => ({
    group,
    likely: read.offers.likely(group),
    places: read.offers.places(group.rows[0]!),
    enterprises: read.offers.enterprises(group),
    isForFarm: read.offers.isForFarm,
    isForPay: (value) => isNetAsked(group.rows[0]!, value),
    error: errors[`${rowName(group)}.to`],
    address: deskAddress({ ...place, open: group.rows[0]!.id, from: 0 }),
  })
  return answer(c, {
    title: 'Sort transactions',
    status: statusOf(errors),
    figures,
    page: () => (
      <DeskPage
        figures={figures}
        formId={again.formId || newFormId()}
        groups={desk.groups.map(rowProps)}
        isPay={(value) => pay.has(value)}
        keptToBook={desk.keptToBook}
        errors={errors}
        pages={desk.pages}
        address={deskAddress(place)}
      />
    ),
    parts: { [linesId(place.open ?? 0)]: () => openedLines(desk.groups, place.open, rowProps) },
    tables: {
      lines: () =>
        tableOf(desk.all, {
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

/** The transactions of one row, asked for where it stands on the page. */
const openedLines = (
  groups: readonly DeskGroup[],
  open: number | null,
  rowProps: (group: DeskGroup) => GroupProps,
) => {
  const group = groups.find(({ rows }) => rows[0]!.id === open)
  return group ? <GroupLines {...rowProps(group)} /> : <p>They were sorted meanwhile. Open the page again.</p>
}

const mostDoubtful = 200

/** The desk as it is looked at: what is kept as chosen, and over it what was just sent. */
function deskOf(books: Books, read: DeskRead, place: DeskPlace, again: DeskAgain) {
  const { desk: whole, rows: all, groups: allGroups } = read
  const chosen = new Map([...listLineChoices(books), ...again.chosen])
  const choiceOf = (row: DeskRow) => chosen.get(row.id) ?? proposedChoice(row)
  const isNetAsked = netAskedOf(read)
  const isLookedFor = (row: DeskRow) =>
    (place.account === null || row.accountId === place.account) &&
    isShown(row, place.find, place.show, choiceOf(row))
  const rows = all.filter(isLookedFor)
  const doubtful = rows.filter((row) => row.doubt !== '').slice(0, mostDoubtful)
  const groups = largestFirst(
    allGroups.map((group) => group.filter(isLookedFor)).filter(({ length }) => length > 0),
  )
  const from = (place.page - 1) * groupsPerPage
  const onPage = groups.slice(from, from + groupsPerPage)
  const shown = onPage.flat()
  const isOnPage = new Set(shown.map(({ id }) => id))
  const waits = new Set(whole.lines.map(({ line }) => line.id))
  return {
    figures: {
      waiting: whole.waiting,
      doubtful: whole.doubtful,
      accounts: accountsOf(whole.lines),
      account: place.account,
      find: place.find,
      show: place.show,
      rows: [...doubtful, ...shown],
    },
    all: rows,
    groups: onPage.map((group) =>
      deskGroup(group, chosen, {
        isOpen: group.some(({ id }) => id === place.open),
        from: place.from < group.length ? place.from : 0,
        typed: typedFor(group, again.unnamed),
        asksPay: group.some((row) => choiceOf(row).take && isNetAsked(row, accountOf(row, choiceOf(row).to))),
      }),
    ),
    keptToBook: [...chosen].filter(([id, { take }]) => take && waits.has(id) && !isOnPage.has(id)).length,
    pages: pagesOf(groups, place.page),
  }
}

/** The account that a line goes to, without the enterprise or batch beside it. */
const accountOf = (row: DeskRow, to: string): string =>
  /^a:\d+/.exec(to === asProposed ? (row.proposal?.value ?? '') : to)?.[0] ?? ''

const typedFor = (rows: readonly DeskRow[], unnamed: DeskAgain['unnamed']): Record<string, string> =>
  Object.fromEntries(
    unnamed
      .filter(({ lineId }) => rows.some(({ id }) => id === lineId))
      .map(({ lineId, of, words }) => [of === 'to' ? '' : lineId, words]),
  )

const pagesOf = (groups: readonly DeskRow[][], page: number): DeskProps['pages'] => {
  const sizes = groups.map(({ length }) => length)
  const sum = (list: readonly number[]) => list.reduce((all, one) => all + one, 0)
  const before = sum(sizes.slice(0, (page - 1) * groupsPerPage))
  const on = sum(sizes.slice((page - 1) * groupsPerPage, page * groupsPerPage))
  const all = sum(sizes)
  const which = on === all ? `${all}` : `${on === 0 ? 0 : before + 1} to ${before + on} of ${all}`
  return {
    says: `${which} waiting ${all === 1 ? 'transaction' : 'transactions'}; the payee with the most comes first`,
    earlier: page > 1 ? page - 1 : null,
    later: page * groupsPerPage < groups.length ? page + 1 : null,
  }
}

const accountsOf = (lines: readonly DeskLine[]): DeskFigures['accounts'] => {
  const accounts = new Map<number, { name: string; waiting: number }>()
  for (const { line } of lines) {
    const known = accounts.get(line.accountId)
    accounts.set(line.accountId, { name: line.accountName, waiting: (known?.waiting ?? 0) + 1 })
  }
  return [...accounts].map(([id, each]) => ({ id, ...each }))
}

const errorsOn = (
  groups: readonly DeskGroup[],
  wrong: DeskAgain['wrong'],
): Readonly<Record<string, string>> =>
  Object.fromEntries(
    [...wrong].map(([id, message]) => {
      const group = groups.find(({ rows }) => rows.some((row) => row.id === id))
      return [group ? `${rowName(group)}.to` : '', message]
    }),
  )

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
