// "What was it for?" on an entry: chosen anew in one step, on either side or split; the books keep both.
import { Hono } from 'hono'
import { changePurpose, type Purpose, purposeOf } from '#db/acts/entry-purpose.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { partsOf } from '#ledger/statements/split-shares.ts'
import { cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { EntryPurposePage } from '#views/books/entry-purpose.tsx'
import { isOpenAccount, optionsBySide } from '#web/forms/account-options.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { findEnterprises } from '#web/forms/enterprise-options.ts'
import { formIdField } from '#web/forms/fields.ts'
import {
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  rowCount,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'
import { freedSays } from './entry-form.ts'
import { readShares } from './read-shares.ts'

export const entryPurposePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/entries/:no{[0-9]{1,12}}/for', (c) => {
        const found = purposeOf(c.var.web.books, entryNo(c))
        return found.ok ? showPurpose(c, found.purpose, opening(found.purpose), {}) : notFound(c, found.why)
      })
      .post('/books/entries/:no{[0-9]{1,12}}/for', postPurpose),
}

async function postPurpose(c: PageContext) {
  const { books, today } = c.var.web
  const typed = await readForm(c)
  const formId = formIdField().safeParse(typed.value('formId'))
  const found = purposeOf(books, entryNo(c))
  const again = (errors: FormErrors) =>
    found.ok ? showPurpose(c, found.purpose, typed, errors) : notFound(c, found.why)
  if (typed.value('more')) return again({})
  if (!formId.success) return again({ '': 'This form has lost its number. Open it again' })
  const size = cents(Math.abs(found.ok ? found.purpose.line.amount : Number(typed.value('size')) || 0))
  const read = readShares(typed, found.ok ? [size] : [])
  if ('errors' in read) return again(read.errors)
  const done = changePurpose(books, actOf(c, formId.data), entryNo(c), partsOf(read.shares, size), today())
  if (!done.ok) return again(errorsOf(done.problems))
  return moveOn(
    c,
    `/books/entries/${done.result.entryNo}`,
    undoable(c, `Entry ${entryNo(c)} is corrected by this one.${freedSays(done.result.freedLines)}`),
  )
}

const entryNo = (c: PageContext): number => Number.parseInt(c.req.param('no') ?? '', 10)

/** As it is booked: one account takes all, several have their sums. */
const opening = ({ parts }: Purpose): TypedForm =>
  openingForm({
    formId: newFormId(),
    ...Object.fromEntries(
      parts.flatMap(({ accountId, size, enterpriseId }, index) => [
        [`parts.${index}.account`, String(accountId)],
        [`parts.${index}.amount`, parts.length === 1 ? '' : centsToDecimalText(size)],
        [`parts.${index}.enterprise`, enterpriseId ?? ''],
      ]),
    ),
  })

function showPurpose(c: PageContext, { entry, line, parts }: Purpose, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  const accounts = listAccounts(books, { withArchived: true })
  const partCount = Math.min(
    40,
    rowCount(typed, 'parts', Math.max(2, parts.length)) + (typed.value('more') ? 2 : 0),
  )
  const nameOf = (id: number) => accounts.find((account) => account.id === id)?.name ?? ''
  const figures = {
    no: entry.no,
    day: line.day,
    payee: line.payee || line.memo,
    amount: line.amount,
    account: nameOf(line.accountId),
    was: parts.map(({ accountId }) => nameOf(accountId)),
  }
  return answer(c, {
    title: 'What was it for?',
    status: statusOf(errors),
    figures,
    page: () => (
      <EntryPurposePage
        figures={figures}
        formId={typed.value('formId')}
        value={(name) => typed.value(name)}
        errors={errors}
        partCount={partCount}
        accountOptions={optionsBySide(
          accounts.filter((account) => isOpenAccount(account) && account.id !== line.accountId),
          listSides(books),
        )}
        enterprises={findEnterprises(books)}
      />
    ),
  })
}
