// Files chosen together: what is new in each, what is asked, and one press for all that is clear.
import { type Day, dayName } from '#calendar/day.ts'
import { numberShown } from '#ledger/statements/bank-number.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId, Hidden, type Option, Select } from '../parts/field.tsx'
import { DataTable } from '../parts/table.tsx'
import { LeftOutList, remarksCounted } from './left-out.tsx'

export interface SeveralRow {
  fileName: string
  bankAccount: string
  account: string | null
  /** Null where the account or the columns are not known yet. */
  counts: { new: number; seen: number; doubtful: number } | null
  /** Lines of the file that are no transactions, like totals, each with why. */
  leftOut: readonly { fileLine: number; message: string; isRead?: true }[]
  closing: { balance: Cents; asOf: Day } | null
  /** `clear`: can be read in. `seen`: the books have all of it. `asks`: a person must say something first. */
  state: 'clear' | 'seen' | 'asks'
  asks: string
  href: string
}

interface SeveralProps {
  rows: readonly SeveralRow[]
  /** So many transactions of what is clear will be read in. */
  toRead: number
  refused: readonly { fileName: string; message: string }[]
  address: string
  /** Which account each number is, as chosen here: by the bank's number. */
  named: ReadonlyMap<string, string>
  accounts: readonly Option[]
  errors: FieldErrors
  formId: string
}

export const SeveralPage = (props: SeveralProps) => {
  const { rows, refused, address, errors, formId } = props
  const clear = rows.filter((row) => row.state === 'clear')
  const stored = rows.filter((row) => row.state === 'seen').length
  return (
    <>
      <PageTitle
        purpose={`${stored === 0 ? 'Nothing is stored yet.' : stored === rows.length ? 'The books have all of it.' : `The books have ${stored} of the ${rows.length} already; of the others nothing is stored yet.`} Files that are clear are read in together; one with a question is opened by itself.`}
      >
        Look at the files
      </PageTitle>
      <ErrorSummary errors={errors} title="Nothing was read in" />
      <Unknown {...props} />
      <DataTable
        caption="What the files bring"
        stack
        csv={`${address}.csv`}
        rows={rows}
        columns={[
          {
            title: 'Account',
            isHeader: true,
            cell: (row) => row.account ?? `Not known: ${numberShown(row.bankAccount) || row.fileName}`,
          },
          { title: 'File', cell: (row) => row.fileName },
          { title: 'New', isNumber: true, cell: (row) => row.counts?.new ?? '' },
          { title: 'Seen before', isNumber: true, cell: (row) => row.counts?.seen ?? '' },
          { title: 'Doubtful', isNumber: true, cell: (row) => row.counts?.doubtful ?? '' },
          {
            title: 'Left out, or with a remark',
            cell: (row) => <LeftOut remarks={row.leftOut} of={row.fileName} />,
          },
          { title: 'Balance', cell: balanceOf },
          { title: 'To do', cell: (row) => <ToDo row={row} /> },
        ]}
      />
      <Refused refused={refused} />
      <ButtonRow>
        {clear.length === 0 ? null : (
          <form method="post" action={address}>
            <FormId value={formId} />
            {[...props.named].map(([bank, account], at) => (
              <>
                <Hidden name={`bank.${at}`} value={bank} />
                <Hidden name={`account.${at}`} value={account} />
              </>
            ))}
            <Button>
              Read in {props.toRead} {props.toRead === 1 ? 'transaction' : 'transactions'}
            </Button>
          </form>
        )}
        <LinkButton quiet href="/month">
          This month
        </LinkButton>
      </ButtonRow>
    </>
  )
}

const balanceOf = ({ closing }: SeveralRow): string =>
  closing ? `${formatCents(closing.balance)}, ${dayName(closing.asOf)}` : ''

const Refused = ({ refused }: Pick<SeveralProps, 'refused'>) =>
  refused.length === 0 ? null : (
    <section aria-labelledby="refused-title">
      <h2 id="refused-title">Not read</h2>
      <ul>
        {refused.map(({ fileName, message }) => (
          <li>
            {fileName}: {message}
          </li>
        ))}
      </ul>
    </section>
  )

/** Accounts that no file named before are told once each, however many files are theirs. */
const Unknown = ({ rows, named, accounts, address }: SeveralProps) => {
  const unknown = rows.filter((row) => row.account === null).map((row) => row.bankAccount)
  const banks = [...new Set([...named.keys(), ...unknown])].filter((bank) => isOpen(bank, rows))
  if (banks.length === 0) return null
  return (
    <form method="get" action={address}>
      <fieldset class="group">
        <legend>Accounts that no file named before</legend>
        <div class="field-row">
          {banks.map((bank, at) => (
            <>
              <Hidden name={`bank.${at}`} value={bank} />
              <Select
                name={`account.${at}`}
                label={`${numberShown(bank)} is`}
                options={accounts}
                empty="Choose the account"
                value={named.get(bank) ?? ''}
              />
            </>
          ))}
          <Button quiet>Preview again</Button>
        </div>
      </fieldset>
    </form>
  )
}

/** Once a file of it is read in, a number is known. */
const isOpen = (bank: string, rows: readonly SeveralRow[]): boolean =>
  bank !== '' && rows.some((row) => row.bankAccount === bank && row.state !== 'seen')

const LeftOut = ({ remarks, of }: { remarks: SeveralRow['leftOut']; of: string }) =>
  remarks.length === 0 ? null : (
    <details>
      <summary>
        {remarksCounted(remarks)}
        <span class="hidden-text"> of {of}</span>
      </summary>
      <LeftOutList remarks={remarks} />
    </details>
  )

const ToDo = ({ row }: { row: SeveralRow }) =>
  row.state === 'asks' ? (
    <>
      {row.asks.replace(/[.?]$/, '')}. <a href={row.href}>Look at {row.fileName}</a>
    </>
  ) : row.state === 'seen' ? (
    'Nothing: the books have it'
  ) : (
    'Nothing: it can be read in'
  )
