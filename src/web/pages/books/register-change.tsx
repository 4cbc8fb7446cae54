// Changing several entries of a register: ticked lines, what is to change, a look at what would be booked, then all of it or nothing.
import { Hono } from 'hono'
import { z } from 'zod'
import { listAccounts, type Side } from '#db/ledger/account-store.ts'
import { changeEntries, mostLinesAtOnce, planChange } from '#db/ledger/ledger-bulk.ts'
import { registerPage } from '#db/ledger/register.ts'
import { isMoney } from '#ledger/account.ts'
import type { BulkChange } from '#ledger/bulk-change.ts'
import { centsToDecimalText } from '#money/format.ts'
import { ChangePage } from '#views/books/change.tsx'
import type { ChangeFigures, ChangePreview } from '#views/books/change-figures.ts'
import { registerAddress } from '#views/books/tick-line.tsx'
import { openAccounts, optionsByKind } from '#web/forms/account-options.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'
import { findEnterprises } from '#web/forms/enterprise-options.ts'
import { choice, formIdField, optionalText } from '#web/forms/fields.ts'
import {
  type Checked,
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  readQuery,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'
import { previewFigures } from './change-figures.ts'
import { filterOf, noSuchAccount, type Register, registerOf, rowFigures, searchForm } from './register.tsx'

export const registerChangePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/accounts/:id{[0-9]{1,12}}/change', choose)
      .post('/books/accounts/:id{[0-9]{1,12}}/change', book),
}

const changeForm = z.object({
  lines: choice(['chosen', 'others'], 'Choose what goes to the other account'),
  account: optionalText(15),
  enterprise: optionalText(82),
  payee: optionalText(),
  memo: optionalText(500),
})

/** The ticked lines; with `look` also what would be booked. */
function choose(c: PageContext) {
  const register = registerOf(c)
  if (!register) return notFound(c, noSuchAccount)
  const typed = readQuery(c)
  const postingIds = typed.value('chosen') === 'found' ? foundLines(c, register) : tickedLines(typed)
  const isTooMuch = postingIds.length > mostLinesAtOnce
  const errors: FormErrors =
    postingIds.length === 0
      ? { ticked: 'Check the lines to change on the register first' }
      : isTooMuch
        ? {
            ticked: `This is more than ${mostLinesAtOnce} lines. Find fewer on the register, by days for one`,
          }
        : {}
  const shown = isTooMuch ? [] : postingIds
  if (Object.keys(errors).length > 0 || typed.value('look') !== 'yes')
    return show(c, register, typed, { postingIds: shown, errors })
  const change = changeOf(c, register, typed)
  if (!change.ok) return show(c, register, typed, { postingIds, errors: change.errors })
  const request = { accountId: register.account.id, postingIds, change: change.value }
  const looked = planChange(c.var.web.books, request)
  return looked.ok
    ? show(c, register, typed, {
        postingIds,
        errors: {},
        preview: previewFigures(c.var.web.books, register.account, looked.planned),
      })
    : show(c, register, typed, { postingIds, errors: tickedErrors(errorsOf(looked.problems)) })
}

async function book(c: PageContext) {
  const register = registerOf(c)
  if (!register) return notFound(c, noSuchAccount)
  const { books } = c.var.web
  const typed = await readForm(c)
  const postingIds = tickedLines(typed)
  const formId = formIdField().safeParse(typed.value('formId'))
  const change = changeOf(c, register, typed)
  if (!formId.success) {
    const errors = { '': 'This form has lost its number. Look at what would be booked again' }
    return show(c, register, typed, { postingIds, errors })
  }
  if (!change.ok) return show(c, register, typed, { postingIds, errors: change.errors })
  const request = { accountId: register.account.id, postingIds, change: change.value }
  const done = changeEntries(books, actOf(c, formId.data), request)
  if (!done.ok) {
    const looked = planChange(books, request)
    return show(c, register, typed, {
      postingIds,
      errors: tickedErrors(errorsOf(done.problems)),
      ...(looked.ok ? { preview: previewFigures(books, register.account, looked.planned) } : {}),
      status: done.kind === 'conflict' ? 409 : 422,
    })
  }
  const count = done.result.entryNos.length
  const says =
    count === 1
      ? '1 entry is reversed and recorded again.'
      : `${count} entries are reversed and recorded again.`
  return moveOn(c, registerAddress(register.account.id, backOf(typed)), undoable(c, says))
}

const tickedLines = (typed: TypedForm): number[] => [
  ...new Set(
    typed.values('ticked[]').flatMap((text) => (/^\d{1,15}$/.test(text) ? [Number.parseInt(text, 10)] : [])),
  ),
]

/** All lines the register's search finds and that still stand; one more than may be changed shows that they are too many. */
const foundLines = (c: PageContext, { account }: Register): number[] => {
  const checked = checkForm(searchForm, readQuery(c))
  if (!checked.ok) return []
  const filter = { ...filterOf(checked.value), withoutTakenBack: true }
  const limit = mostLinesAtOnce + 1
  return registerPage(c.var.web.books, { accountId: account.id, filter, limit }).rows.map(
    (row) => row.postingId,
  )
}

const changeOf = (c: PageContext, { side }: Register, typed: TypedForm): Checked<BulkChange> => {
  const checked = checkForm(changeForm, typed)
  if (!checked.ok) return checked
  const { lines, account, enterprise, payee, memo } = checked.value
  const offered = enterpriseOptions(c, side).map((option) => option.value)
  if (enterprise !== '' && !offered.includes(enterprise))
    return { ok: false, errors: { enterprise: 'Choose an enterprise from the list' } }
  return {
    ok: true,
    value: {
      lines,
      accountId: account === '' ? null : /^\d+$/.test(account) ? Number.parseInt(account, 10) : -1,
      enterpriseId: enterprise === '' ? null : enterprise === noEnterprise ? '' : enterprise.slice(2),
      payee: payee || null,
      memo: memo || null,
    },
  }
}

const noEnterprise = 'none'

const enterpriseOptions = (c: PageContext, side: Side) => {
  if (side.kind === 'household') return []
  const named = findEnterprises(c.var.web.books)
  if (named.length === 0) return []
  return [
    ...named.map(({ value, label }) => ({ value: `e:${value}`, label })),
    { value: noEnterprise, label: 'None' },
  ]
}

/** The store speaks of lines; on this page they are ticks. */
const tickedErrors = ({ lines, ...others }: Record<string, string> & FormErrors): FormErrors =>
  lines === undefined ? others : { ...others, ticked: lines }

interface Shown {
  postingIds: readonly number[]
  errors: FormErrors
  preview?: ChangePreview
  status?: 409 | 422
}

function show(c: PageContext, { account, side }: Register, typed: TypedForm, shown: Shown) {
  const { books } = c.var.web
  const filter = { postingIds: shown.postingIds }
  const found = registerPage(books, { accountId: account.id, filter, limit: mostLinesAtOnce })
  const figures: ChangeFigures = {
    account: { id: account.id, name: account.name },
    side: { kind: side.kind, name: side.name },
    rows: found.rows.map((row) => rowFigures(account, row)),
    preview: shown.preview ?? null,
  }
  const accounts = openAccounts(listAccounts(books, { sideId: side.id }))
  const values = {
    lines: typed.value('lines') || (isMoney(account) ? 'others' : 'chosen'),
    ...Object.fromEntries(
      ['account', 'enterprise', 'payee', 'memo'].map((name) => [name, typed.value(name)]),
    ),
  }
  return answer(c, {
    title: `Change entries of ${account.name}`,
    status: shown.status ?? (Object.keys(shown.errors).length > 0 ? 422 : 200),
    figures,
    page: () => (
      <ChangePage
        figures={figures}
        typed={openingForm(values)}
        errors={shown.errors}
        formId={newFormId()}
        accounts={optionsByKind(
          accounts.filter((one) => one.id !== account.id),
          [isMoney(account) ? 'expense' : account.kind],
        )}
        enterprises={enterpriseOptions(c, side)}
        back={backOf(typed)}
        csv={
          c.req.method === 'GET'
            ? (table) => `${c.req.path}.csv${new URL(c.req.url).search}&table=${table}`
            : undefined
        }
      />
    ),
    tables: tablesOf(figures.preview),
  })
}

const tablesOf = (preview: ChangePreview | null): Record<'booked' | 'staying', () => CsvTable> => ({
  booked: () =>
    tableOf(preview?.booked ?? [], { ...lookedColumns, 'what changes': (row) => row.says.join('; ') }),
  staying: () => tableOf(preview?.staying ?? [], { ...lookedColumns, why: (row) => row.why }),
})

type Looked = ChangePreview['staying'][number] | ChangePreview['booked'][number]

const lookedColumns = {
  entry: (row: Looked) => row.entryNo,
  day: (row: Looked) => row.day,
  'with whom': (row: Looked) => row.payee,
  amount: (row: Looked) => centsToDecimalText(row.amountCents),
}

/** The register's own search and nothing else, so that going back leads there and nowhere else. */
const backOf = (typed: TypedForm): string => {
  const kept = [...new URLSearchParams(typed.value('back'))].filter(([name]) => backNames.has(name))
  return new URLSearchParams(kept).toString()
}

const backNames = new Set(['text', 'from', 'to', 'least', 'most', 'living', 'older', 'newer'])
