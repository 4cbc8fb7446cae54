// The register of one account, by pages, with its search in the address.
import { Hono } from 'hono'
import { z } from 'zod'
import { type Day, parseDay } from '#calendar/day.ts'
import { findAccount, listSides, type Side } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import {
  type RegisterPage as Found,
  type RegisterFilter,
  type RegisterKey,
  registerPage,
} from '#db/ledger/register.ts'
import { type Account, balanceAsRead, holdsCash, isCash, isMoney } from '#ledger/account.ts'
import { cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { hasTerms } from '#today/loan-terms.ts'
import {
  type RegisterFigures,
  RegisterPage,
  type RegisterPageProps,
  RegisterRows,
} from '#views/books/register.tsx'
import { kindNames } from '#web/forms/account-options.ts'
import { answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'
import { checkbox, dayOrNull, moneyOrNull, optionalText } from '#web/forms/fields.ts'
import { checkForm, readQuery } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'

export const registerPages: PageRoom = {
  build: () => new Hono<PageEnv>().get('/books/accounts/:id{[0-9]{1,12}}', showRegister),
}

export const searchForm = z.object({
  text: optionalText(100),
  from: dayOrNull(),
  to: dayOrNull(),
  least: moneyOrNull(),
  most: moneyOrNull(),
  living: checkbox(),
})

export const noSuchAccount = 'There is no account of this number.'

function showRegister(c: PageContext) {
  const { books } = c.var.web
  const register = registerOf(c)
  if (!register) return notFound(c, noSuchAccount)
  const { account, side } = register
  const typed = readQuery(c)
  const checked = checkForm(searchForm, typed)
  const filter = checked.ok ? filterOf(checked.value) : {}
  const found = registerPage(books, { accountId: account.id, filter, ...keysOf(c) })
  const figures: RegisterFigures = {
    account: {
      id: account.id,
      number: account.number,
      name: account.name,
      kindSays: kindNames[account.kind],
      isMoney: isMoney(account),
    },
    side: { id: side.id, kind: side.kind, name: side.name },
    balanceCents: balanceAsRead(account.kind, balancesOn(books).get(account.id) ?? cents(0)),
    rows: found.rows.map((row) => rowFigures(account, row)),
    isFiltered: Object.keys(filter).length > 0,
  }
  const address = addressWith(c)
  const props: RegisterPageProps = {
    figures,
    typed,
    errors: checked.ok ? {} : checked.errors,
    pager: {
      says: `${figures.rows.length} rows`,
      earlier: found.older ? address({ older: keyText(found.older) }) : undefined,
      later: found.newer ? address({ newer: keyText(found.newer) }) : undefined,
    },
    choosing: choosingOf(c, figures, address),
    csv: address({}).replace(/^[^?]+/, '$&.csv'),
    doors: [
      ...(isCash(account) ? [{ href: `/books/reconcile?account=${account.id}`, name: 'Reconcile' }] : []),
      ...(hasTerms(account)
        ? [{ href: `/books/accounts/${account.id}/loan`, name: 'Rate and payment' }]
        : []),
      ...(holdsCash(account) ? [{ href: `/books/accounts/${account.id}/earns`, name: 'What it earns' }] : []),
    ],
  }
  return answer(c, {
    title: account.name,
    status: checked.ok ? 200 : 422,
    page: () => <RegisterPage {...props} />,
    parts: { register: () => <RegisterRows {...props} /> },
    figures,
    // A page is read, a file is kept: it holds every row that was found.
    tables: {
      register: () => {
        const all = registerPage(books, { accountId: account.id, filter, limit: allRows })
        return csvOf(all.rows.map((row) => rowFigures(account, row)))
      },
    },
  })
}

export interface Register {
  account: Account
  side: Side
}

/** The account of the address, with the books it lies in. */
export const registerOf = (c: PageContext): Register | undefined => {
  const { books } = c.var.web
  const account = findAccount(books, Number.parseInt(c.req.param('id') ?? '', 10))
  const side = account && listSides(books, { withArchived: true }).find((one) => one.id === account.sideId)
  return account && side && { account, side }
}

export const filterOf = (typed: z.output<typeof searchForm>): RegisterFilter => ({
  ...(typed.text ? { text: typed.text } : {}),
  ...(typed.from ? { from: typed.from } : {}),
  ...(typed.to ? { to: typed.to } : {}),
  ...(typed.least === null ? {} : { minimumCents: typed.least }),
  ...(typed.most === null ? {} : { maximumCents: typed.most }),
  ...(typed.living ? { withoutTakenBack: true } : {}),
})

export const rowFigures = (
  account: Account,
  row: Found['rows'][number],
): RegisterFigures['rows'][number] => ({
  postingId: row.postingId,
  entryNo: row.entryNo,
  day: row.day,
  payee: row.payee,
  memo: row.lineMemo || row.memo,
  others: row.others.map((other) => ({ accountId: other.accountId, name: other.name })),
  amountCents: balanceAsRead(account.kind, row.amountCents),
  balanceCents: balanceAsRead(account.kind, row.balanceCents),
  isCrossing: row.crossingId !== null,
  isReversed: row.isReversed,
  reversesNo: row.reversesNo,
  reconciled: row.reconciled,
  bankDay: row.bankDay,
})

const keysOf = (c: PageContext): { olderThan?: RegisterKey; newerThan?: RegisterKey } => {
  const older = keyFrom(c.req.query('older'))
  const newer = keyFrom(c.req.query('newer'))
  return older ? { olderThan: older } : newer ? { newerThan: newer } : {}
}

const keyText = (key: RegisterKey): string => `${key.day}.${key.postingId}`

const keyFrom = (text: string | undefined): RegisterKey | null => {
  const match = /^([\d-]{10})\.(\d{1,15})$/.exec(text ?? '')
  const day: Day | null = match ? parseDay(match[1]!) : null
  return match && day ? { day, postingId: Number.parseInt(match[2]!, 10) } : null
}

/** Where ticked lines go, and the ways to tick all of this page, none of it, or all that the search finds. */
const choosingOf = (
  c: PageContext,
  figures: RegisterFigures,
  address: ReturnType<typeof addressWith>,
): RegisterPageProps['choosing'] => {
  const keys = Object.fromEntries(
    ['older', 'newer'].flatMap((name) => {
      const value = c.req.query(name)
      return value ? [[name, value]] : []
    }),
  )
  const back = (extra: Record<string, string>) => address(extra).split('?')[1] ?? ''
  const found = new URLSearchParams([
    ...new URLSearchParams(back({})),
    ['chosen', 'found'],
    ['back', back({})],
  ])
  return {
    isAll: c.req.query('chosen') === 'page',
    back: back(keys),
    allAddress: address({ ...keys, chosen: 'page' }),
    noneAddress: address(keys),
    foundAddress: figures.isFiltered ? `/books/accounts/${figures.account.id}/change?${found}` : undefined,
  }
}

/** This address with its search kept and the page keys replaced. */
const addressWith = (c: PageContext) => (keys: Record<string, string>) => {
  const search = new URL(c.req.url).searchParams
  const kept = [...search].filter(
    ([name, value]) => value !== '' && !['older', 'newer', 'notice', 'chosen'].includes(name),
  )
  const text = new URLSearchParams([...kept, ...Object.entries(keys)]).toString()
  return text ? `${c.req.path}?${text}` : c.req.path
}

const allRows = 1_000_000_000

const csvOf = (rows: RegisterFigures['rows']): CsvTable =>
  tableOf(rows, {
    day: (row) => row.day,
    entry: (row) => row.entryNo,
    payee: (row) => row.payee,
    memo: (row) => row.memo,
    'other accounts': (row) => row.others.map((other) => other.name).join('; '),
    amount: (row) => centsToDecimalText(row.amountCents),
    balance: (row) => centsToDecimalText(row.balanceCents),
    statement: (row) => row.reconciled,
  })
