// Entries of one side or of all, newest first, found by words, payee, account, amount and day; the address holds the search.
import { Hono } from 'hono'
import { parseDay } from '#calendar/day.ts'
import { findAccount, listAccounts, listSides } from '#db/ledger/account-store.ts'
import { type EntryQuery, latestEntries } from '#db/ledger/latest-entries.ts'
import { centsToDecimalText } from '#money/format.ts'
import { type EntriesFigures, EntriesPage } from '#views/books/entries.tsx'
import { optionsBySide } from '#web/forms/account-options.ts'
import { answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { checkbox, optionalText } from '#web/forms/fields.ts'
import { checkForm, readQuery } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { entryLine, moneyIds } from './books.tsx'
import { filterOf, searchForm } from './register.tsx'
import { waitingFound } from './waiting-found.ts'

export const entriesPages: PageRoom = {
  build: () => new Hono<PageEnv>().get('/books/entries', showEntries),
}

const entriesForm = searchForm.extend({
  side: optionalText(40),
  payee: optionalText(100),
  account: optionalText(15),
  receipt: checkbox(),
})

function showEntries(c: PageContext) {
  const { books } = c.var.web
  const sides = listSides(books, { withArchived: true })
  const asked = c.req.query('side') ?? ''
  const side = sides.find((one) => one.id === asked)
  if (asked !== '' && !side) return notFound(c, 'There are no such books.')
  const typed = readQuery(c)
  const checked = checkForm(entriesForm, typed)
  const search = checked.ok ? queryOf(c, checked.value) : {}
  const accounts = listAccounts(books, { withArchived: true })
  const money = moneyIds(accounts)
  const rowsOf = (query: EntryQuery): (EntriesFigures['entries'][number] & { key: string })[] =>
    latestEntries(books, { ...search, ...query }).map((entry) => ({
      ...entryLine(entry, money),
      key: `${entry.day}.${entry.entryNo}`,
      side: sides.find((one) => one.id === entry.sideId)!,
      memo: entry.payee ? entry.memo : '',
      accounts: entry.lines.map((line) => ({ id: line.accountId, name: line.name })),
      receipts: entry.receipts,
    }))
  const before = entryKey(c.req.query('before'))
  const found = checked.ok ? rowsOf({ limit: 51, ...(before ? { before } : {}) }) : []
  const rows = found.slice(0, 50)
  const last = rows.at(-1)
  const isFiltered = Object.keys(search).some((name) => name !== 'sideId')
  const figures: EntriesFigures = {
    side: side ? { id: side.id, kind: side.kind, name: side.name } : null,
    isFiltered,
    entries: rows.map(({ key: _, ...row }) => row),
    waiting:
      isFiltered && before === null
        ? waitingFound(books, { ...search, ...(side ? { sideId: side.id } : {}) })
        : [],
  }
  const query = new URLSearchParams(c.req.query())
  query.delete('before')
  return answer(c, {
    title: side ? `Entries of ${side.name}` : 'Search',
    status: checked.ok ? 200 : 422,
    figures,
    page: () => (
      <EntriesPage
        figures={figures}
        typed={typed}
        errors={checked.ok ? {} : checked.errors}
        sides={sides.map(({ id, name }) => ({ value: id, label: name }))}
        accounts={optionsBySide(accounts, sides)}
        csv={`/books/entries.csv?${query}`}
        earlier={found.length > 50 && last ? `/books/entries?${query}&before=${last.key}` : undefined}
      />
    ),
    tables: {
      // A page is read, a file is kept: it holds every entry that was found.
      entries: () => csvOf(checked.ok ? rowsOf({ limit: 1_000_000_000 }) : []),
      waiting: () => waitingCsv(figures.waiting),
    },
  })
}

const waitingCsv = (rows: EntriesFigures['waiting']) =>
  tableOf(rows, {
    day: (row) => row.day,
    account: (row) => row.account,
    payee: (row) => row.payee,
    note: (row) => row.memo,
    amount: (row) => centsToDecimalText(row.amount),
  })

const csvOf = (rows: EntriesFigures['entries']) =>
  tableOf(rows, {
    entry: (entry) => entry.no,
    day: (entry) => entry.day,
    books: (entry) => entry.side.name,
    what: (entry) => entry.says,
    note: (entry) => entry.memo,
    accounts: (entry) => entry.accounts.map(({ name }) => name).join('; '),
    amount: (entry) => centsToDecimalText(entry.amountCents),
    receipts: (entry) => entry.receipts,
    reversed: (entry) => (entry.isTakenBack ? 'yes' : ''),
  })

type Typed = Extract<ReturnType<typeof checkForm<typeof entriesForm>>, { ok: true }>['value']

const queryOf = (c: PageContext, typed: Typed): EntryQuery => {
  const account = /^\d{1,12}$/.test(typed.account)
    ? findAccount(c.var.web.books, Number.parseInt(typed.account, 10))
    : undefined
  return {
    ...filterOf(typed),
    ...(typed.side ? { sideId: typed.side } : {}),
    ...(typed.payee ? { payee: typed.payee } : {}),
    ...(account ? { accountId: account.id } : {}),
    ...(typed.receipt ? { withReceipt: true } : {}),
  }
}

const entryKey = (text: string | undefined) => {
  const match = /^([\d-]{10})\.(\d{1,12})$/.exec(text ?? '')
  const day = match && parseDay(match[1]!)
  return match && day ? { day, entryNo: Number.parseInt(match[2]!, 10) } : null
}
