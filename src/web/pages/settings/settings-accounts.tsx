// Accounts in Settings: listed, added, changed, put away.
import { Hono } from 'hono'
import { z } from 'zod'
import { changeAccount } from '#db/ledger/account-change.ts'
import {
  addAccount,
  findAccount,
  type KeptAccount,
  listAccounts,
  listSides,
} from '#db/ledger/account-store.ts'
import {
  type Account,
  accountKinds,
  accountPurposes,
  cashRoles,
  contraKinds,
  currentKinds,
  propertyLoanParts,
  savingsKinds,
  taxKinds,
} from '#ledger/account.ts'
import { refuse } from '#ledger/problem.ts'
import { currentPlan } from '#today/current-plan.ts'
import { AccountForm } from '#views/settings/account-form.tsx'
import { AccountsPage } from '#views/settings/accounts.tsx'
import { houseFirst } from '#web/forms/account-options.ts'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
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
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { overClosedYears } from '#web/forms/pack/closed-years.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { showOverTheirs } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const accountSettingsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/settings/accounts', (c) => {
        const { books } = c.var.web
        const accounts = listAccounts(books, { withArchived: true })
        const sides = houseFirst(listSides(books, { withArchived: true })).map((side) => ({
          side: { id: side.id, kind: side.kind, name: side.name },
          accounts: accounts.filter((account) => account.sideId === side.id),
        }))
        return answer(c, {
          title: 'Accounts',
          figures: sides,
          page: () => <AccountsPage sides={sides} />,
          tables: {
            accounts: () =>
              tableOf(
                sides.flatMap(({ side, accounts }) => accounts.map((one) => ({ side, one }))),
                {
                  side: ({ side }) => side.name,
                  number: ({ one }) => one.number,
                  account: ({ one }) => one.name,
                  kind: ({ one }) => one.kind,
                  money: ({ one }) => one.cashRole,
                  line: ({ one }) => one.scheduleLine,
                  purpose: ({ one }) => one.purpose,
                  tax: ({ one }) => one.taxKind,
                  savings: ({ one }) => one.savingsKind,
                  propertyLoan: ({ one }) => one.propertyLoan,
                  currentKind: ({ one }) => one.currentKind,
                  contraKind: ({ one }) => one.contraKind,
                  whose: ({ one }) => one.personId,
                },
              ),
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
      .post('/settings/accounts/:id{[0-9]{1,12}}', changeOne),
}

const noSuchAccount = 'There is no account of this number.'

const oneOrNone = <const Words extends readonly [string, ...string[]]>(words: Words) =>
  z.union([z.literal(''), z.enum(words)], { error: 'Choose from the list' }).optional()

const accountForm = z.object({
  formId: formIdField(),
  side: requiredText('Choose whose books the account belongs to'),
  kind: choice(accountKinds, 'Choose a kind'),
  name: requiredText('Give the account a name', 80),
  number: wholeNumberOrNull(1, 9999),
  cashRole: z.enum(cashRoles, { error: 'Choose whether money lies here' }).optional(),
  scheduleLine: z.string().max(8, { error: 'Choose a line from the list' }).optional(),
  purpose: oneOrNone(accountPurposes),
  taxKind: oneOrNone(taxKinds),
  savingsKind: oneOrNone(savingsKinds),
  propertyLoan: oneOrNone(propertyLoanParts),
  currentKind: oneOrNone(currentKinds),
  contraKind: oneOrNone(contraKinds),
  personId: z.string().max(60, { error: 'Choose from the list' }).optional(),
  note: optionalText(500),
  basedOn: wholeNumberOrNull(1, 1_000_000_000),
  archived: checkbox(),
  anyway: checkbox(),
})

type AccountTyped = z.output<typeof accountForm>

const fieldsOf = (typed: AccountTyped) => ({
  name: typed.name,
  cashRole:
    typed.kind === 'asset' || typed.kind === 'liability' ? (typed.cashRole ?? 'none') : ('none' as const),
  ...whereShown('scheduleLine', typed.scheduleLine),
  ...whereShown('purpose', typed.purpose),
  ...whereShown('taxKind', typed.taxKind),
  ...whereShown('savingsKind', typed.savingsKind),
  ...whereShown('propertyLoan', typed.propertyLoan),
  ...whereShown('currentKind', typed.currentKind),
  ...whereShown('contraKind', typed.contraKind),
  ...whereShown('personId', typed.personId),
  note: typed.note,
  ...(typed.number === null ? {} : { number: typed.number }),
})

/** A field that the form did not show, since it does not fit the account, stays as it is. */
const whereShown = <Name extends string, Value extends string>(
  name: Name,
  value: Value | '' | undefined,
): Partial<Record<Name, Value | null>> =>
  value === undefined ? {} : ({ [name]: value || null } as Partial<Record<Name, Value | null>>)

const addOne = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(accountForm, typed),
    again: (typed, errors) => showForm(c, null, typed, errors),
    keep(value, typed) {
      if (isNobody(c, null, value.personId)) return nobody
      const draft = { sideId: value.side, kind: value.kind, ...fieldsOf(value) }
      const act = actOf(c, value.formId)
      const done = overClosedYears(c, typed, act, () => addAccount(c.var.web.books, act, draft))
      return done.ok ? moveOn(c, '/settings/accounts', `“${draft.name}” is added.`) : done
    },
  })

const changeOne = (c: PageContext) => {
  const account = accountOf(c)
  if (!account) return notFound(c, noSuchAccount)
  return posted(c, {
    check: (typed) => checkForm(accountForm, typed),
    again: (typed, errors) => showForm(c, account, typed, errors),
    keep(value, typed) {
      if (isNobody(c, account, value.personId)) return nobody
      const { archived, anyway, basedOn } = value
      const seen = { id: account.id, revision: basedOn ?? 0 }
      const change = { ...fieldsOf(value), archived, anyway }
      const act = actOf(c, value.formId)
      const done = overClosedYears(c, typed, act, () => changeAccount(c.var.web.books, act, seen, change))
      const saved = () => moveOn(c, '/settings/accounts', `“${change.name}” is saved.`)
      if (!done.ok && done.kind === 'conflict' && account.revision !== seen.revision)
        return showOverTheirs(c, {
          what: `the account “${account.name}”`,
          typed,
          now: formOf(account),
          subject: `account ${account.id}`,
          theirs: `/settings/accounts/${account.id}`,
          alike: saved,
        })
      return done.ok ? saved() : done
    },
  })
}

const accountOf = (c: PageContext): KeptAccount | undefined =>
  findAccount(c.var.web.books, Number.parseInt(c.req.param('id') ?? '', 10))

const formOf = (account: KeptAccount): TypedForm =>
  openingForm({
    formId: newFormId(),
    basedOn: String(account.revision),
    side: account.sideId,
    kind: account.kind,
    name: account.name,
    number: String(account.number),
    cashRole: account.cashRole,
    scheduleLine: account.scheduleLine ?? '',
    purpose: account.purpose ?? '',
    taxKind: account.taxKind ?? '',
    savingsKind: account.savingsKind ?? '',
    propertyLoan: account.propertyLoan ?? '',
    currentKind: account.currentKind ?? '',
    contraKind: account.contraKind ?? '',
    personId: account.personId ?? '',
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
        people={side.kind === 'household' ? peopleOf(c) : []}
      />
    ),
  })
}

const peopleOf = (c: PageContext) => {
  const current = currentPlan(c.var.web.books)
  const people = current.status === 'read' ? current.plan.household.people : []
  return people.map(({ id, name }) => ({ value: id, label: name }))
}

const isNobody = (c: PageContext, account: Account | null, personId: string | undefined): boolean =>
  !!personId && personId !== account?.personId && !peopleOf(c).some(({ value }) => value === personId)

const nobody = refuse({ path: 'personId', message: 'Choose from the list' })
