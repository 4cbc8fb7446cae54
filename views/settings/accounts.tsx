// The accounts of each side, and the form that adds or changes one.
import type { Account, AccountKind, SideKind } from '#ledger/account.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  Field,
  type FieldErrors,
  FormId,
  Hidden,
  type Option,
  QuantityField,
  RadioGroup,
  Select,
} from '../parts/field.tsx'
import { OnThisPage } from '../parts/on-this-page.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable } from '../parts/table.tsx'

interface SideAccounts {
  side: { id: string; kind: SideKind; name: string }
  accounts: readonly Account[]
}

export const AccountsPage = ({ sides }: { sides: readonly SideAccounts[] }) => (
  <>
    <PageTitle purpose="Which accounts there are, which count as spendable savings, and which line of Schedule F each of the farm’s belongs to.">
      Accounts
    </PageTitle>
    <OnThisPage parts={sides.map(({ side }) => ({ id: side.id, name: side.name }))} />
    {sides.map(({ side, accounts }) => (
      <section id={side.id}>
        <DataTable
          caption={<SideWord kind={side.kind}>{side.name}</SideWord>}
          name={`Accounts of ${side.name}`}
          rows={accounts}
          stack
          rowClass={(account) => (account.archivedAt === null ? undefined : 'void')}
          columns={[
            { title: 'Number', cell: (account) => String(account.number) },
            {
              title: 'Account',
              isHeader: true,
              cell: (account) => <a href={`/settings/accounts/${account.id}`}>{account.name}</a>,
            },
            { title: 'Kind', cell: (account) => kindWords[account.kind] },
            { title: 'Counts as', cell: countsAs },
          ]}
        />
        <LinkButton quiet href={`/settings/accounts/new?side=${side.id}`}>
          Add an account<span class="hidden-text"> to {side.name}</span>
        </LinkButton>
      </section>
    ))}
  </>
)

const kindWords: Record<AccountKind, string> = {
  asset: 'owned',
  liability: 'owed',
  equity: 'equity',
  income: 'income',
  expense: 'cost',
}

const countsAs = (account: Account): string =>
  [
    cashWords[account.cashRole],
    account.scheduleLine ? `Schedule F line ${account.scheduleLine}` : '',
    account.purpose ? purposeWords[account.purpose] : '',
    account.crossingRole ? 'filled by crossings' : '',
  ]
    .filter(Boolean)
    .join(', ')

const cashWords = {
  spendable: 'spendable savings',
  cash: 'working cash',
  other: 'set aside',
  none: '',
} as const

export const purposeWords = {
  living: 'living',
  premium: 'health premiums',
  care: 'care',
  tax: 'income taxes',
  farm_food: 'food from the farm',
  debt: 'debt',
  pay: 'off-farm pay',
  benefit: 'benefits',
  interest: 'interest',
  retirement: 'retirement',
} as const

export interface AccountFormProps {
  side: SideAccounts['side']
  account: Account | null
  typed: { value(name: string): string }
  errors: FieldErrors
}

export const AccountForm = ({ side, account, typed, errors }: AccountFormProps) => {
  const field = (name: string) => ({ name, value: typed.value(name), error: errors[name] })
  const kind = (account?.kind ?? typed.value('kind')) as AccountKind | ''
  return (
    <>
      <PageTitle purpose={`In the books of ${side.name}.`}>
        {account ? account.name : 'New account'}, <SideWord kind={side.kind}>{side.name}</SideWord>
      </PageTitle>
      <form method="post" action={account ? `/settings/accounts/${account.id}` : '/settings/accounts/new'}>
        <ErrorSummary errors={errors} />
        <FormId value={typed.value('formId')} />
        <Hidden name="side" value={side.id} />
        <div class="field-row">
          <Field {...field('name')} label="Name" />
          <QuantityField {...field('number')} label="Number" hint="Leave empty for the next free one" />
        </div>
        {account ? (
          <Hidden name="kind" value={account.kind} />
        ) : (
          <RadioGroup
            {...field('kind')}
            label="Kind"
            options={[
              { value: 'asset', label: 'What is owned', hint: 'a bank account, a tractor' },
              { value: 'liability', label: 'What is owed', hint: 'a card, a loan' },
              { value: 'income', label: 'Income' },
              { value: 'expense', label: 'Cost' },
              { value: 'equity', label: 'Equity' },
            ]}
          />
        )}
        {kind === 'income' || kind === 'expense' || kind === 'equity' ? null : (
          <RadioGroup
            {...field('cashRole')}
            label="Does money lie here?"
            options={[
              { value: 'spendable', label: 'Spendable savings', hint: 'counts in months left' },
              { value: 'cash', label: 'Working cash', hint: 'does not count in months left' },
              { value: 'other', label: 'Set aside', hint: 'retirement and the like' },
              { value: 'none', label: 'No money', hint: 'equipment, land, loans' },
            ]}
          />
        )}
        {side.kind === 'farm' ? (
          <Field
            {...field('scheduleLine')}
            label="Line of Schedule F"
            hint="Like 2 or 32a, if it has one"
            class="short-field"
          />
        ) : (
          <Select
            {...field('purpose')}
            label="What it is for"
            empty="Nothing in particular"
            options={purposeOptions}
          />
        )}
        <Field {...field('note')} label="Note" />
        {account ? (
          <Checkbox
            name="archived"
            label="Put away: no longer offered in forms"
            checked={typed.value('archived') === 'yes'}
            error={errors.archived}
          />
        ) : null}
        <ButtonRow>
          <Button>{account ? 'Save' : 'Add the account'}</Button>
          <LinkButton quiet href="/settings/accounts">
            Leave it
          </LinkButton>
        </ButtonRow>
      </form>
    </>
  )
}

const purposeOptions: readonly Option[] = Object.entries(purposeWords).map(([value, label]) => ({
  value,
  label,
}))

export const SideForm = (props: { typed: { value(name: string): string }; errors: FieldErrors }) => (
  <>
    <PageTitle purpose="Work beside the farm with books of its own, like a repair bench or a teaching job on the side.">
      New side venture
    </PageTitle>
    <form method="post" action="/settings/sides/new">
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      <Field name="name" label="Name" value={props.typed.value('name')} error={props.errors.name} />
      <ButtonRow>
        <Button>Set up its books</Button>
        <LinkButton quiet href="/settings">
          Leave it
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)
