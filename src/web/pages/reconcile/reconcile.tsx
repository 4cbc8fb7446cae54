// Reconcile: choose an account and its statement, tick line by line, finish when nothing is left over.
import { Hono } from 'hono'
import { z } from 'zod'
import { findAccount, listAccounts, listSides } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { brokenReconciliation } from '#db/reconcile/changed-since.ts'
import { findReconciliation, lastFinished, openReconciliation } from '#db/reconcile/reconcile-reader.ts'
import {
  changeReconciliation,
  changeTicks,
  dropReconciliation,
  finishReconciliation,
  reopenReconciliation,
  startReconciliation,
} from '#db/reconcile/reconcile-store.ts'
import { type Account, balanceAsRead, isReconcilable } from '#ledger/account.ts'
import { cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import type { ReconcileListFigures } from '#today/reconcile/figures.ts'
import { fileSays } from '#today/reconcile/file-says.ts'
import { ReconcileList } from '#views/reconcile/list.tsx'
import { Apart, TickingPage } from '#views/reconcile/ticking.tsx'
import { actOf, actOfForm, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { bookedDay, formIdField, money, optionalText, rowId } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import { enterOpeningBalance, showOpeningBalance } from './opening-balance.tsx'
import { openingStatement } from './opening-statement.ts'
import { tickingFigures } from './ticking-figures.ts'

export const reconcilePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/reconcile', (c) => showList(c, openingForm(openingStatement(c)), {}))
      .post('/books/reconcile', start)
      .get('/books/reconcile/opening/:account{[0-9]{1,12}}', (c) => showOpeningBalance(c))
      .post('/books/reconcile/opening/:account{[0-9]{1,12}}', enterOpeningBalance)
      .get('/books/reconcile/:id', (c) => showTicking(c, {}))
      .post('/books/reconcile/:id/ticks', saveTicks)
      .post('/books/reconcile/:id/apart', async (c) => {
        const ticked = (await readForm(c)).values('ticked[]').filter((text) => /^\d{1,15}$/.test(text))
        return showTicking(c, {}, { ticked: new Set(ticked.map((text) => Number.parseInt(text, 10))) })
      })
      .post('/books/reconcile/:id/change', change)
      .post('/books/reconcile/:id/drop', drop)
      .post('/books/reconcile/:id/reopen', reopen),
}

const startForm = z.object({
  formId: formIdField(),
  account: rowId('Choose a bank or card account'),
  statementDay: bookedDay(),
  balance: money(),
  note: optionalText(),
})

const start = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(startForm, typed),
    again: (typed, errors) => showList(c, typed, errors),
    keep({ formId, account: accountId, statementDay, balance, note }) {
      const { books } = c.var.web
      const account = findAccount(books, accountId)
      const statementBalanceCents = account ? balanceAsRead(account.kind, balance) : balance
      const statement = { accountId, statementDay, statementBalanceCents, note }
      const started = startReconciliation(books, actOf(c, formId), statement)
      return started.ok ? moveOn(c, `/books/reconcile/${started.result.reconciliationId}`) : started
    },
  })

/** Only what was changed on this screen is sent on: ticks the other one set meanwhile stay. */
async function saveTicks(c: PageContext) {
  const typed = await readForm(c)
  const id = c.req.param('id') ?? ''
  if (!findReconciliation(c.var.web.books, id)) return notFound(c, noSuchOne)
  const ticked = new Set(typed.values('ticked[]'))
  const shown = typed.values('shown[]').flatMap((text) => {
    const match = /^(\d{1,15})\.([01])$/.exec(text)
    return match ? [{ id: match[1]!, was: match[2] === '1' }] : []
  })
  const changed = shown.filter((line) => ticked.has(line.id) !== line.was)
  const idsOf = (on: boolean) =>
    changed.filter((line) => ticked.has(line.id) === on).map((line) => Number.parseInt(line.id, 10))
  const saved = changeTicks(c.var.web.books, id, { tick: idsOf(true), untick: idsOf(false) })
  if (!saved.ok) return showTicking(c, errorsOf(saved.problems))
  if (typed.value('next') !== 'finish') return moveOn(c, `/books/reconcile/${id}`)
  const finished = finishReconciliation(c.var.web.books, actOfForm(c, typed), id)
  if (!finished.ok) return showTicking(c, errorsOf(finished.problems))
  return moveOn(c, '/books/reconcile', 'Nothing is left over: the statement is reconciled.')
}

const changeForm = z.object({
  formId: formIdField(),
  statementDay: bookedDay(),
  balance: money(),
  note: optionalText(),
  seen: z.object({ statementDay: bookedDay(), balance: money(), note: optionalText() }),
})

/** What was mistyped is put right without losing the ticks. */
async function change(c: PageContext) {
  const typed = await readForm(c)
  const { books } = c.var.web
  const id = c.req.param('id') ?? ''
  const found = findReconciliation(books, id)
  if (!found) return notFound(c, noSuchOne)
  const checked = checkForm(changeForm, typed)
  if (!checked.ok) return showTicking(c, checked.errors, { change: typed })
  const { formId, statementDay, balance, note, seen } = checked.value
  const { kind } = findAccount(books, found.accountId)!
  const changed = changeReconciliation(books, actOf(c, formId), id, {
    seen: {
      statementDay: seen.statementDay,
      statementBalanceCents: balanceAsRead(kind, seen.balance),
      note: seen.note,
    },
    statementDay,
    statementBalanceCents: balanceAsRead(kind, balance),
    note,
  })
  if (!changed.ok)
    return showTicking(c, errorsOf(changed.problems), {
      change: typed,
      status: changed.kind === 'conflict' ? 409 : 422,
    })
  const away = changed.result.ticksTakenAway
  const ticks =
    away === 0
      ? 'What was checked stays.'
      : away === 1
        ? 'One line after it is no longer checked.'
        : `${away} lines after it are no longer checked.`
  return moveOn(c, `/books/reconcile/${id}`, `The statement is changed. ${ticks}`)
}

async function drop(c: PageContext) {
  const typed = await readForm(c)
  const dropped = dropReconciliation(c.var.web.books, actOfForm(c, typed), c.req.param('id') ?? '')
  if (!dropped.ok) return showTicking(c, errorsOf(dropped.problems))
  return moveOn(c, '/books/reconcile', 'The statement is deleted, with what was checked on it.')
}

async function reopen(c: PageContext) {
  const typed = await readForm(c)
  const id = c.req.param('id') ?? ''
  const reopened = reopenReconciliation(
    c.var.web.books,
    actOfForm(c, typed),
    id,
    typed.value('reason').slice(0, 200),
  )
  if (!reopened.ok) return showTicking(c, errorsOf(reopened.problems), { reason: typed.value('reason') })
  return moveOn(c, `/books/reconcile/${id}`, 'The statement is open again.')
}

const noSuchOne = 'There is no such reconciliation.'

function showList(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  const balances = balancesOn(books)
  const sides = listSides(books)
  const accounts = listAccounts(books).filter(isReconcilable)
  const sideOf = (account: Account) => sides.find((side) => side.id === account.sideId)!
  const figures: ReconcileListFigures = {
    accounts: accounts
      .filter((account) => balances.has(account.id) || fileSays(books, account) !== null)
      .map((account) => ({
        id: account.id,
        name: account.name,
        side: { kind: sideOf(account).kind, name: sideOf(account).name },
        balanceCents: balanceAsRead(account.kind, balances.get(account.id) ?? cents(0)),
        reconciledThrough: lastFinished(books, account.id)?.statementDay ?? null,
        openId: openReconciliation(books, account.id)?.id ?? null,
        changed: changedOf(books, account),
        fileSays: fileSays(books, account),
      })),
  }
  const options = accounts.map((account) => ({
    value: String(account.id),
    label: account.name,
    group: sideOf(account).name,
  }))
  return answer(c, {
    title: 'Reconcile',
    status: statusOf(errors),
    figures,
    page: () => <ReconcileList figures={figures} typed={typed} errors={errors} options={options} />,
    tables: {
      accounts: () =>
        tableOf(figures.accounts, {
          account: (account) => account.name,
          books: (account) => account.side.name,
          balance: (account) => centsToDecimalText(account.balanceCents),
          'reconciled through': (account) => account.reconciledThrough ?? '',
          'differs since': (account) => (account.changed ? centsToDecimalText(account.changed.cents) : ''),
        }),
    },
  })
}

const changedOf = (books: Books, account: Account): ReconcileListFigures['accounts'][number]['changed'] => {
  const broken = brokenReconciliation(books, account.id)
  return broken && { id: broken.reconciliation.id, cents: balanceAsRead(account.kind, broken.changed.cents) }
}

interface CameBack {
  reason?: string
  change?: TypedForm
  status?: 409 | 422
  /** Ticks of the screen that are not saved. */
  ticked?: ReadonlySet<number>
}

function showTicking(c: PageContext, errors: FormErrors, back: CameBack = {}) {
  const figures = tickingFigures(c.var.web.books, c.req.param('id') ?? '', back.ticked)
  if (!figures) return notFound(c, noSuchOne)
  return answer(c, {
    title: `Reconcile ${figures.account.name}`,
    status: back.status ?? statusOf(errors),
    figures,
    page: () => (
      <TickingPage
        figures={figures}
        errors={errors}
        formId={newFormId()}
        dropFormId={newFormId()}
        changeFormId={newFormId()}
        changeTyped={back.change ?? null}
        reason={back.reason ?? ''}
      />
    ),
    parts: { apart: () => <Apart figures={figures} /> },
    tables: {
      lines: () =>
        tableOf(figures.lines, {
          entry: (line) => line.entryNo,
          day: (line) => line.day,
          'with whom': (line) => line.payee || line.memo,
          amount: (line) => centsToDecimalText(line.amountCents),
          'on the statement': (line) => (line.ticked ? 'yes' : ''),
        }),
    },
  })
}
