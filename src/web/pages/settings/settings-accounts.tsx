// Accounts in Settings: listed, added, changed, put away; and new side ventures.
import { Hono } from 'hono'
import { z } from 'zod'
import {
  addAccount,
  addSide,
  changeAccount,
  findAccount,
  listAccounts,
  listSides,
} from '#db/ledger/account-store.ts'
import { type Account, accountKinds, accountPurposes, cashRoles } from '#ledger/account.ts'
import { AccountForm, AccountsPage, SideForm } from '#views/settings/accounts.tsx'
import { houseFirst } from '#web/forms/account-options.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import {
  checkbox,
  choice,
  formIdField,
  optionalText,
  requiredText,
  wholeNumberOrNull,
} from '#web/forms/fields.ts'
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
import type { PageEnv } from '#web/server/context.ts'

export const accountSettingsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/settings/accounts', (c) => {
        const { books } = c.var.web
        const accounts = listAccounts(books, { withArchived: true })
        const sides = houseFirst(listSides(books)).map((side) => ({
          side: { id: side.id, kind: side.kind, name: side.name },
          accounts: accounts.filter((account) => account.sideId === side.id),
        }))
        return answer(c, {
          title: 'Accounts',
          figures: sides,
          page: () => <AccountsPage sides={sides} />,
          tables: {
            accounts: () => ({
              header: ['side', 'number', 'account', 'kind', 'money', 'schedule line', 'purpose'],
              rows: sides.flatMap(({ side, accounts }) =>
                accounts.map((one) => [
                  side.name,
                  one.number,
                  one.name,
                  one.kind,
                  one.cashRole,
                  one.scheduleLine,
                  one.purpose,
                ]),
              ),
            }),
          },
        })
      })
      .get('/settings/accounts/new', (c) =>
        showForm(
          c,
          null,
          openingForm({ formId: newFormId(), side: c.req.query('side') ?? '', cashRole: 'none' }),
          {},
        ),
      )
      .post('/settings/accounts/new', addOne)
      .get('/settings/accounts/:id{[0-9]{1,12}}', (c) => {
        const account = accountOf(c)
        return account ? showForm(c, account, formOf(account), {}) : notFound(c, noSuchAccount)
      })
      .post('/settings/accounts/:id{[0-9]{1,12}}', changeOne)
      .get('/settings/sides/new', (c) => showSide(c, openingForm({ formId: newFormId() }), {}))
      .post('/settings/sides/new', async (c) => {
        const typed = await readForm(c)
        const checked = checkForm(sideForm, typed)
        if (!checked.ok) return showSide(c, typed, checked.errors)
        const { formId, name } = checked.value
        const done = addSide(c.var.web.books, actOf(c, formId), { kind: 'venture', name })
        if (!done.ok) return showSide(c, typed, errorsOf(done.problems))
        return moveOn(c, '/books', `“${name}” has its books.`)
      }),
}

const noSuchAccount = 'There is no account of this number.'

const sideForm = z.object({
  formId: formIdField(),
  name: requiredText('Give the venture a name, like “repair bench”', 80),
})

const accountForm = z.object({
  formId: formIdField(),
  side: requiredText('Choose whose books the account belongs to'),
  kind: choice(accountKinds, 'Choose a kind'),
  name: requiredText('Give the account a name', 80),
  number: wholeNumberOrNull(1, 9999),
  cashRole: z.enum(cashRoles, { error: 'Choose whether money lies here' }).optional(),
  scheduleLine: optionalText(8).refine((text) => text === '' || /^\d{1,2}[a-z]?$/.test(text), {
    error: 'Enter a line of Schedule F, like 2 or 32a',
  }),
  purpose: z.union([z.literal(''), z.enum(accountPurposes)], { error: 'Choose from the list' }).optional(),
  note: optionalText(500),
  archived: checkbox(),
})

type AccountTyped = z.output<typeof accountForm>

const fieldsOf = (typed: AccountTyped) => ({
  name: typed.name,
  cashRole:
    typed.kind === 'asset' || typed.kind === 'liability' ? (typed.cashRole ?? 'none') : ('none' as const),
  scheduleLine: typed.scheduleLine || null,
  purpose: typed.purpose || null,
  note: typed.note,
  ...(typed.number === null ? {} : { number: typed.number }),
})

async function addOne(c: PageContext) {
  const typed = await readForm(c)
  const checked = checkForm(accountForm, typed)
  if (!checked.ok) return showForm(c, null, typed, checked.errors)
  const { formId, side, kind } = checked.value
  const draft = { sideId: side, kind, ...fieldsOf(checked.value) }
  const done = addAccount(c.var.web.books, actOf(c, formId), draft)
  if (!done.ok) return showForm(c, null, typed, errorsOf(done.problems))
  return moveOn(c, '/settings/accounts', `“${draft.name}” is added.`)
}

async function changeOne(c: PageContext) {
  const account = accountOf(c)
  if (!account) return notFound(c, noSuchAccount)
  const typed = await readForm(c)
  const checked = checkForm(accountForm, typed)
  if (!checked.ok) return showForm(c, account, typed, checked.errors)
  const change = { ...fieldsOf(checked.value), archived: checked.value.archived }
  const done = changeAccount(c.var.web.books, actOf(c, checked.value.formId), account.id, change)
  if (!done.ok) return showForm(c, account, typed, errorsOf(done.problems))
  return moveOn(c, '/settings/accounts', `“${change.name}” is saved.`)
}

const accountOf = (c: PageContext): Account | undefined =>
  findAccount(c.var.web.books, Number.parseInt(c.req.param('id') ?? '', 10))

const formOf = (account: Account): TypedForm =>
  openingForm({
    formId: newFormId(),
    side: account.sideId,
    kind: account.kind,
    name: account.name,
    number: String(account.number),
    cashRole: account.cashRole,
    scheduleLine: account.scheduleLine ?? '',
    purpose: account.purpose ?? '',
    note: account.note,
    archived: account.archivedAt === null ? '' : 'yes',
  })

function showForm(c: PageContext, account: Account | null, typed: TypedForm, errors: FormErrors) {
  const sides = listSides(c.var.web.books, { withArchived: true })
  const side = sides.find((one) => one.id === (account?.sideId ?? typed.value('side')))
  if (!side) return notFound(c, 'There are no such books.')
  return answer(c, {
    title: account ? account.name : 'New account',
    status: statusOf(errors),
    page: () => (
      <AccountForm
        side={{ id: side.id, kind: side.kind, name: side.name }}
        account={account}
        typed={typed}
        errors={errors}
      />
    ),
  })
}

const showSide = (c: PageContext, typed: TypedForm, errors: FormErrors) =>
  answer(c, {
    title: 'New side venture',
    status: statusOf(errors),
    page: () => <SideForm typed={typed} errors={errors} />,
  })
