// The sorting desk's routes: waiting lines with proposals, booked in bulk when ticked, and each line by itself.
import { Hono } from 'hono'
import type { Books } from '#db/open.ts'
import { listSetAside, takeUpLine } from '#db/statements/set-aside.ts'
import { type Desk, type DeskLine, sortingDesk } from '#db/statements/sorting-desk.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { centsToDecimalText } from '#money/format.ts'
import { type DeskFigures, DeskPage, type DeskRow } from '#views/books-sorting/desk.tsx'
import { SetAsidePage } from '#views/books-sorting/set-aside.tsx'
import type { PagerProps } from '#views/parts/table.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { formIdField } from '#web/forms/fields.ts'
import {
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { deskRow, groundOf } from './desk-rows.ts'
import { showLine, sortOneLine } from './sorting-line.tsx'
import { readTarget, type TargetGround, targetOptions } from './sorting-targets.ts'

export const sortingPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/sorting', (c) => showDesk(c, openingForm({ formId: newFormId() }), {}))
      .post('/books/sorting', sortTicked)
      .get('/books/sorting/set-aside', showSetAside)
      .post('/books/sorting/set-aside/:id', async (c) => {
        const id = wholeOrNull(c.req.param('id'))
        const formId = formIdField().safeParse((await readForm(c)).value('formId'))
        if (id !== null && formId.success) takeUpLine(c.var.web.books, actOf(c, formId.data), id)
        return moveOn(c, '/books/sorting', 'The line waits to be sorted again.')
      })
      .get('/books/sorting/lines/:id', (c) => showLine(c, c.req.param('id')))
      .post('/books/sorting/lines/:id', (c) => sortOneLine(c, c.req.param('id'))),
}

const rowsPerPage = 30

async function sortTicked(c: PageContext) {
  const typed = await readForm(c)
  const { books } = c.var.web
  const formId = formIdField().safeParse(typed.value('formId'))
  if (!formId.success)
    return showDesk(c, typed, { '': 'This form has lost its number. Look at the lines again' })
  const ground = groundOf(books)
  const errors: Record<string, string> = {}
  const sortings: Sorting[] = []
  const indexOf = new Map<number, number>()
  for (let index = 0; index < rowsPerPage; index += 1) {
    const id = typed.value(`lines.${index}.id`)
    if (typed.value(`lines.${index}.take`) !== 'yes' || !/^\d{1,15}$/.test(id)) continue
    const sorting = readChoice(Number.parseInt(id, 10), typed.value(`lines.${index}.to`))
    indexOf.set(Number.parseInt(id, 10), index)
    if (sorting) sortings.push(sorting)
    else errors[`lines.${index}.to`] = 'Choose what this line was for, or take its tick away'
  }
  if (sortings.length === 0 && Object.keys(errors).length === 0)
    errors[''] = 'Tick the lines to book, and choose what each was for'
  if (Object.keys(errors).length > 0) return showDesk(c, typed, errors)
  const outcome = sortLines(books, actOf(c, formId.data), sortings)
  if (!outcome.ok) {
    for (const { path, message } of outcome.problems) {
      const index = indexOf.get(Number.parseInt(path.slice('lines.'.length), 10))
      errors[index === undefined ? '' : `lines.${index}.to`] = message
    }
    return showDesk(c, typed, errors, ground)
  }
  const { posted, matched, setAside } = outcome.result
  const says = [
    posted > 0 ? `${posted} booked` : '',
    matched > 0 ? `${matched} matched to what the books had` : '',
    setAside > 0 ? `${setAside} set aside` : '',
  ].filter(Boolean)
  return moveOn(c, deskAddress(c), `Lines sorted: ${says.join(', ')}.`)
}

/** `e:5` an entry of the books, `t:9` the other half of a transfer, `ignore`, or a target. */
const readChoice = (lineId: number, value: string): Sorting | null => {
  const entry = /^e:(\d{1,15})$/.exec(value)
  if (entry) return { lineId, kind: 'entry', postingId: Number.parseInt(entry[1]!, 10) }
  const transfer = /^t:(\d{1,15})$/.exec(value)
  if (transfer) return { lineId, kind: 'transfer', otherLineId: Number.parseInt(transfer[1]!, 10) }
  const target = readTarget(value)
  return target ? { lineId, kind: 'target', target } : null
}

function showDesk(c: PageContext, typed: TypedForm, errors: FormErrors, ground = groundOf(c.var.web.books)) {
  const { books } = c.var.web
  const account = wholeOrNull(c.req.query('account'))
  const desk = sortingDesk(books, account === null ? {} : { accountId: account })
  const page = wholeOrNull(c.req.query('page')) ?? 1
  const shown = onPage(desk.lines, page)
  const figures = deskFigures(desk, shown, account, ground, books)
  const indexById = new Map(
    Array.from({ length: rowsPerPage }, (_, index) => [typed.value(`lines.${index}.id`), index]),
  )
  const typedAt = (row: DeskRow, name: string) => {
    const index = indexById.get(String(row.id))
    return index === undefined ? undefined : typed.value(`lines.${index}.${name}`)
  }
  const cameBack = typed.value('lines.0.id') !== ''
  const accounts = new Map(ground.accounts.map((each) => [each.id, each]))
  const options = optionCache((row: DeskRow) =>
    targetOptions(accounts.get(row.accountId)!, row.amount < 0, ground),
  )
  return answer(c, {
    title: 'Sort statement lines',
    status: statusOf(errors),
    figures,
    page: () => (
      <DeskPage
        figures={figures}
        formId={typed.value('formId') || newFormId()}
        optionsFor={options}
        ticked={(_, row) => (cameBack ? typedAt(row, 'take') === 'yes' : (row.proposal?.isSure ?? false))}
        chosen={(_, row) => (cameBack ? typedAt(row, 'to') : row.proposal?.value) ?? ''}
        errors={errors}
        pager={pagerOf(desk, page, account)}
        address={deskAddress(c)}
      />
    ),
    tables: {
      lines: () => ({
        header: ['day', 'account', 'payee', 'note', 'amount', 'state', 'proposal'],
        rows: deskFigures(desk, desk.lines, account, ground, books).rows.map((row) => [
          row.day,
          row.account,
          row.payee,
          row.memo,
          centsToDecimalText(row.amount),
          row.doubt === '' ? 'waiting' : 'doubtful',
          row.proposal?.says ?? '',
        ]),
      }),
    },
  })
}

/** Doubtful lines first; a transfer's halves stay on one page with the earlier half. */
const onPage = (lines: readonly DeskLine[], page: number): DeskLine[] => {
  const doubtful = lines.filter(({ line }) => line.state === 'doubtful').slice(0, 50)
  const open = lines.filter(({ line }) => line.state !== 'doubtful')
  return [...doubtful, ...open.slice((page - 1) * rowsPerPage, page * rowsPerPage)]
}

const pagerOf = (desk: Desk, page: number, account: number | null): PagerProps => {
  const open = desk.lines.filter(({ line }) => line.state !== 'doubtful').length
  const address = (to: number) => `/books/sorting?${account === null ? '' : `account=${account}&`}page=${to}`
  const last = Math.min(page * rowsPerPage, open)
  return {
    says: `${Math.min((page - 1) * rowsPerPage + 1, open)} to ${last} of ${open} waiting lines, oldest first`,
    earlier: page > 1 ? address(page - 1) : undefined,
    later: last < open ? address(page + 1) : undefined,
  }
}

const deskFigures = (
  desk: Desk,
  shown: readonly DeskLine[],
  account: number | null,
  ground: TargetGround,
  books: Books,
): DeskFigures => {
  const perAccount = new Map<number, { name: string; waiting: number }>()
  const all = account === null ? desk.lines : sortingDesk(books).lines
  for (const { line } of all) {
    const known = perAccount.get(line.accountId)
    perAccount.set(line.accountId, { name: line.accountName, waiting: (known?.waiting ?? 0) + 1 })
  }
  return {
    waiting: desk.waiting,
    doubtful: desk.doubtful,
    accounts: [...perAccount].map(([id, each]) => ({ id, ...each })),
    account,
    rows: shown.map((each) => deskRow(each, ground)),
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
    title: 'Lines set aside',
    figures: { lines },
    page: () => <SetAsidePage lines={lines} formIdOf={newFormId} />,
    tables: {
      lines: () => ({
        header: ['day', 'account', 'payee', 'note', 'amount', 'why'],
        rows: lines.map((line) => [
          line.day,
          line.account,
          line.payee,
          line.memo,
          centsToDecimalText(line.amount),
          line.note,
        ]),
      }),
    },
  })
}

const deskAddress = (c: PageContext): string => {
  const account = wholeOrNull(c.req.query('account'))
  return account === null ? '/books/sorting' : `/books/sorting?account=${account}`
}

const wholeOrNull = (text: string | undefined): number | null =>
  text !== undefined && /^\d{1,9}$/.test(text) && text !== '0' ? Number.parseInt(text, 10) : null
