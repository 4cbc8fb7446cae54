// The accounts of each side, with what each counts as.
import type { Account, AccountKind, SideKind } from '#ledger/account.ts'
import { formOfSide, sideKindOf } from '#ledger/schedule-lines.ts'
import { PageTitle } from '../layout.tsx'
import { ButtonRow, LinkButton } from '../parts/button.tsx'
import { Fold } from '../parts/fold.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable } from '../parts/table.tsx'
import {
  contraKindWords,
  currentKindWords,
  propertyLoanWords,
  purposeWords,
  savingsWords,
  taxWords,
} from './account-words.ts'

export interface SideAccounts {
  side: { id: string; kind: SideKind; name: string }
  accounts: readonly Account[]
}

export const AccountsPage = ({ sides }: { sides: readonly SideAccounts[] }) => (
  <>
    <PageTitle purpose="Which accounts there are, which count as spendable savings, and which line of the tax form each belongs to.">
      Accounts
    </PageTitle>
    {sides.map(({ side, accounts }, place) => (
      <Fold
        id={side.id}
        name={<SideWord kind={side.kind}>{side.name}</SideWord>}
        holds={`${accounts.length} accounts`}
        isOpen={place === 0}
      >
        <DataTable
          caption={`Accounts of ${side.name}`}
          hideCaption
          cards
          rows={accounts}
          rowClass={(account) => (account.archivedAt === null ? undefined : 'void')}
          columns={[
            { title: 'Number', onCard: 'end', cell: (account) => String(account.number) },
            {
              title: 'Account',
              isHeader: true,
              cell: (account) => <a href={`/settings/accounts/${account.id}`}>{account.name}</a>,
            },
            { title: 'Kind', cell: (account) => kindWords[account.kind] },
            { title: 'Counts as', cell: countsAs },
          ]}
        />
        <ButtonRow>
          <LinkButton quiet href={`/settings/accounts/new?side=${side.id}`}>
            Add an account<span class="hidden-text"> to {side.name}</span>
          </LinkButton>
          <LinkButton quiet href={`/settings/sides/${side.id}`}>
            {side.kind === 'venture' ? 'Rename or archive' : 'Rename'}
            <span class="hidden-text"> {side.name}</span>
          </LinkButton>
        </ButtonRow>
      </Fold>
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
    account.scheduleLine ? `${formOfSide(sideKindOf(account))} line ${account.scheduleLine}` : '',
    account.savingsKind ? savingsWords[account.savingsKind] : '',
    account.purpose ? purposeWords[account.purpose] : '',
    account.taxKind ? taxWords[account.taxKind] : '',
    account.propertyLoan ? propertyLoanWords[account.propertyLoan] : '',
    account.currentKind ? currentKindWords[account.currentKind] : '',
    account.contraKind ? contraKindWords[account.contraKind] : '',
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
