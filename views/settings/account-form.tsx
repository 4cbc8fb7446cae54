// The form that adds an account or changes one: it offers what an account of this side and kind can be.
import { type Account, type AccountKind, holdsCash, type SideKind } from '#ledger/account.ts'
import {
  contraKindsFor,
  currentKindsFor,
  propertyLoanPartsFor,
  purposesFor,
  savingsKindsFor,
  taxKindsFor,
} from '#ledger/account-fields.ts'
import { formOfSide, linesFor } from '#ledger/schedule-lines.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  Field,
  type FieldErrors,
  FormId,
  fieldOf,
  Hidden,
  type Option,
  QuantityField,
  RadioGroup,
  Select,
} from '../parts/field.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import { SideWord } from '../parts/side.tsx'
import {
  contraKindWords,
  currentKindWords,
  propertyLoanWords,
  purposeWords,
  savingsWords,
  taxWords,
} from './account-words.ts'
import type { SideAccounts } from './accounts.tsx'

export interface AccountFormProps {
  side: SideAccounts['side']
  account: Account | null
  typed: { value(name: string): string }
  errors: FieldErrors
  /** Adults whose pay, premiums or savings an account of the household may be. */
  people: readonly Option[]
}

export const AccountForm = ({ side, account, typed, errors, people }: AccountFormProps) => {
  const field = (name: string) => fieldOf({ typed, errors }, name)
  return (
    <>
      <PageTitle purpose={`In the books of ${side.name}.`}>
        {account ? account.name : 'New account'}, <SideWord kind={side.kind}>{side.name}</SideWord>
      </PageTitle>
      <form method="post" action={account ? `/settings/accounts/${account.id}` : '/settings/accounts/new'}>
        <ErrorSummary errors={errors} />
        <FormId value={typed.value('formId')} />
        <Hidden name="basedOn" value={typed.value('basedOn')} />
        <Hidden name="side" value={side.id} />
        <div class="field-row">
          <Field {...field('name')} label="Name" />
          <QuantityField {...field('number')} label="Number" hint="Leave empty for the next free one" />
        </div>
        {account ? (
          <Hidden name="kind" value={account.kind} />
        ) : (
          <RadioGroup {...field('kind')} label="Kind" options={kindOptions} />
        )}
        <WhatItIs side={side.kind} kinds={account ? [account.kind] : kinds} field={field} />
        {people.length > 1 ? (
          <Select
            {...field('personId')}
            label="Whose pay, premium or savings it is"
            options={withKept(people, typed.value('personId'))}
            empty="Both, or not entered"
            hint="The papers of the year ask it of each: wages, health premiums, IRA and HSA."
          />
        ) : null}
        {account && holdsCash(account) ? (
          <p class="hint">
            <a href={`/books/accounts/${account.id}/earns`}>What the money in it earns a year</a> is kept with
            the plan.
          </p>
        ) : null}
        <Field {...field('note')} label="Note" />
        <OverClosed typed={typed} errors={errors} />
        {account ? <PutAway typed={typed} errors={errors} /> : null}
        <ButtonRow>
          <Button>{account ? 'Save' : 'Add the account'}</Button>
          <LinkButton quiet href="/settings/accounts">
            Cancel
          </LinkButton>
        </ButtonRow>
      </form>
    </>
  )
}

interface WhatItIsProps {
  side: SideKind
  kinds: readonly AccountKind[]
  field(name: string): { name: string; value: string; error: string | undefined }
}

const WhatItIs = ({ side, kinds, field }: WhatItIsProps) => (
  <>
    {kinds.some((kind) => kind === 'asset' || kind === 'liability') ? (
      <RadioGroup {...field('cashRole')} label="Is money kept here?" options={cashOptions} />
    ) : null}
    {[...formChoices(side, kinds), ...bookChoices(side, kinds)]
      .filter(({ options }) => options.length > 0)
      .map(({ name, options, ...words }) => (
        <Select {...field(name)} {...words} options={withKept(options, field(name).value)} />
      ))}
  </>
)

interface Choice {
  name: string
  label: string
  empty: string
  options: readonly Option[]
  hint?: string | undefined
}

/** What forms and plan take from it. */
const formChoices = (side: SideKind, kinds: readonly AccountKind[]): Choice[] => [
  {
    name: 'scheduleLine',
    label: `Line of ${formOfSide(side)}`,
    empty: 'No line',
    options: lineOptions(side, kinds),
    hint: lineHints[side],
  },
  {
    name: 'savingsKind',
    label: 'Kind of savings',
    empty: 'Nothing in particular',
    options: optionsOf(kinds, (kind) => savingsKindsFor(side, kind), savingsWords),
    hint: 'Decides which account of the plan it goes into',
  },
  {
    name: 'purpose',
    label: 'What it is for',
    empty: 'Nothing in particular',
    options: optionsOf(kinds, (kind) => purposesFor(side, kind), purposeWords),
  },
  {
    name: 'taxKind',
    label: 'Whose tax it is',
    empty: 'No tax',
    options: optionsOf(kinds, (kind) => taxKindsFor(side, kind), taxWords),
    hint: 'Decides what counts as federal tax paid',
  },
]

/** What statements and loans take from it. */
const bookChoices = (side: SideKind, kinds: readonly AccountKind[]): Choice[] => [
  {
    name: 'propertyLoan',
    label: 'Part of a loan on house or land',
    empty: 'No part of it',
    options: optionsOf(kinds, (kind) => propertyLoanPartsFor(side, kind), propertyLoanWords),
    hint: 'Decides what is proposed when a payment is split',
  },
  {
    name: 'currentKind',
    label: 'What is used, sold or settled within a year',
    empty: 'Nothing of that',
    options: optionsOf(kinds, currentKindsFor, currentKindWords),
    hint: 'Is current on the balance sheet. Empty: what is owned lasts, what is owed is a loan',
  },
  {
    name: 'contraKind',
    label: 'What is taken off here',
    empty: 'Nothing: something is owned here',
    options: optionsOf(kinds, (kind) => contraKindsFor(side, kind), contraKindWords),
    hint: 'Depreciation gathers here below zero; it is offered nowhere as something owned',
  },
]

/** What older books hold and no list offers stays to be seen, until it is put right. */
const withKept = (options: readonly Option[], value: string): readonly Option[] =>
  value === '' || options.some((option) => option.value === value)
    ? options
    : [{ value, label: `${value}, which such an account cannot have` }, ...options]

const optionsOf = <Word extends string>(
  kinds: readonly AccountKind[],
  listFor: (kind: AccountKind) => readonly Word[],
  words: Readonly<Record<Word, string>>,
): Option[] => [...new Set(kinds.flatMap(listFor))].map((value) => ({ value, label: words[value] }))

const lineOptions = (side: SideKind, kinds: readonly AccountKind[]): Option[] =>
  kinds.flatMap((kind) =>
    linesFor(side, kind).map(({ line, says }) => ({
      value: line,
      label: `${line}  ${says}`,
      ...(kinds.length > 1 ? { group: kind === 'income' ? 'Income' : 'Costs' } : {}),
    })),
  )

const lineHints: Partial<Record<SideKind, string>> = {
  farm: 'Income without a line counts as other income, line 8, until you choose',
  household: 'Pay and interest find their line by what they are for',
}

const PutAway = ({ typed, errors }: Pick<AccountFormProps, 'typed' | 'errors'>) => (
  <>
    <Checkbox
      name="archived"
      label="Archived: no longer offered in forms"
      checked={typed.value('archived') === 'yes'}
      error={errors.archived}
    />
    <Anyway typed={typed} errors={errors} />
  </>
)

/** Shown once the house has said what hangs on it. */
export const Anyway = ({ typed, errors }: Pick<AccountFormProps, 'typed' | 'errors'>) =>
  errors.anyway || typed.value('anyway') === 'yes' ? (
    <Checkbox
      name="anyway"
      label="Archive it all the same"
      checked={typed.value('anyway') === 'yes'}
      error={errors.anyway}
    />
  ) : null

const kinds: readonly AccountKind[] = ['asset', 'liability', 'income', 'expense', 'equity']

const kindOptions = [
  { value: 'asset', label: 'What is owned', hint: 'a bank account, a tractor' },
  { value: 'liability', label: 'What is owed', hint: 'a card, a loan' },
  { value: 'income', label: 'Income' },
  { value: 'expense', label: 'Cost' },
  { value: 'equity', label: 'Equity' },
]

const cashOptions = [
  { value: 'spendable', label: 'Spendable savings', hint: 'counts in months left' },
  { value: 'cash', label: 'Working cash', hint: 'does not count in months left' },
  { value: 'other', label: 'Set aside', hint: 'retirement and the like' },
  { value: 'none', label: 'No money', hint: 'equipment, land, loans' },
]
