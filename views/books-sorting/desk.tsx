// The sorting desk: waiting transactions by payee with what is proposed for each; ticked ones are booked together, nothing by itself.
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Field,
  type FieldErrors,
  FormId,
  Hidden,
  neverRestored,
  type Option,
  Select,
} from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { Doubtful } from './doubtful.tsx'
import { type GroupProps, GroupRow } from './group.tsx'
import { Learned, type LearnedRule } from './learned.tsx'
import type { DeskRow } from './line-facts.tsx'
import { PlaceLists } from './places.tsx'

export interface DeskFigures {
  waiting: number
  doubtful: number
  accounts: readonly { id: number; name: string; waiting: number }[]
  account: number | null
  /** What is looked for, and which of what waits is shown. */
  find: string
  show: string
  rows: readonly DeskRow[]
  /** Rules that the last booking taught. */
  learned: readonly LearnedRule[]
}

export interface DeskProps {
  figures: DeskFigures
  formId: string
  groups: readonly GroupProps[]
  /** Whether a place is pay or a pension. */
  isPay: (place: string) => boolean
  /** How many of other pages are ticked. */
  keptToBook: number
  errors: FieldErrors
  pages: { says: string; earlier: number | null; later: number | null }
  /** Keeps the place when the form is sent. */
  address: string
}

export const DeskPage = (props: DeskProps) => {
  const { figures } = props
  const doubtful = figures.rows.filter((row) => row.doubt !== '')
  return (
    <>
      <PageTitle
        help="sorting"
        purpose="Say what each transaction was for. Proposals come from the books, from the other account of a transfer and from your earlier choices; only what you check is booked."
      >
        Sort transactions
      </PageTitle>
      <Learned rules={figures.learned} />
      {figures.waiting === 0 ? (
        <EmptyState href="/books/statements" action="Read in a statement">
          No transaction is waiting. When you read in the next statement, its new ones come here.
        </EmptyState>
      ) : (
        <form
          method="post"
          action={props.address}
          class="sorting-form"
          id="desk"
          data-ticks=""
          data-keep="/books/sorting/choices"
          {...neverRestored}
        >
          <ErrorSummary errors={props.errors} title="Nothing is booked. Please fix the following" />
          <FormId value={props.formId} />
          <Hidden name="ticks" value="" />
          <Finder figures={figures} />
          {doubtful.length > 0 ? <Doubtful rows={doubtful} /> : null}
          <Groups {...props} />
        </form>
      )}
      <ButtonRow>
        <LinkButton quiet href="/books/statements">
          Read in a statement
        </LinkButton>
        <LinkButton quiet href="/books/sorting/rules">
          Sorting rules
        </LinkButton>
        <LinkButton quiet href="/books/sorting/set-aside">
          Skipped transactions
        </LinkButton>
      </ButtonRow>
    </>
  )
}

/** First in the form, so that the enter key in it looks, and books nothing. What is chosen goes along. */
const Finder = ({ figures }: { figures: DeskFigures }) => (
  <div class="field-row desk-find">
    <Field name="find" label="Find" type="search" value={figures.find} maxlength={60} />
    <Select name="show" label="Show" options={shownOptions} value={figures.show} />
    {figures.accounts.length > 1 ? (
      <Select
        name="account"
        label="Account"
        empty="All accounts"
        options={figures.accounts.map(({ id, name, waiting }) => ({
          value: String(id),
          label: `${name} (${waiting})`,
        }))}
        value={figures.account === null ? '' : String(figures.account)}
      />
    ) : null}
    <Button quiet name="go" value="find">
      Show these
    </Button>
  </div>
)

const shownOptions: readonly Option[] = [
  { value: 'all', label: 'All that wait' },
  { value: 'open', label: 'Without a place' },
  { value: 'check', label: 'To be checked' },
  { value: 'sure', label: 'Sure' },
  { value: 'ticked', label: 'Checked' },
]

const Groups = (props: DeskProps) => (
  <>
    <h2>Waiting transactions</h2>
    {props.groups.length === 0 ? <p>No waiting transaction matches.</p> : null}
    <ul class="desk-groups">
      {props.groups.map((group) => (
        <GroupRow {...group} />
      ))}
    </ul>
    <PlaceLists
      lists={[...new Set(props.groups.map(({ places }) => places))]}
      isForFarm={(value) => props.groups[0]?.isForFarm(value) ?? false}
      isForPay={props.isPay}
    />
    {props.keptToBook > 0 ? (
      <p>
        {props.keptToBook} {props.keptToBook === 1 ? 'transaction' : 'transactions'} checked on other pages{' '}
        {props.keptToBook === 1 ? 'is' : 'are'} booked with these.
      </p>
    ) : null}
    <div class="desk-bar">
      <p id="desk-count" role="status">
        {countSays(props.groups)}
      </p>
      <Button>Book the checked transactions</Button>
      {props.groups.some(({ group }) => group.asksPay) ? (
        <Button quiet name="others" value="yes">
          Book the others first
        </Button>
      ) : null}
    </div>
    <FormPager {...props.pages} />
  </>
)

const countSays = (groups: readonly GroupProps[]): string => {
  const lines = groups.reduce((sum, { group }) => sum + group.rows.length, 0)
  const ticked = groups.reduce(
    (sum, { group: { take, rows, without, own } }) =>
      sum + rows.filter(({ id }) => !without.has(id) && (take || own.has(id))).length,
    0,
  )
  return `${ticked} of ${lines} checked`
}

/** Pages are turned by buttons, so that choices on this one go along. */
const FormPager = ({ says, earlier, later }: DeskProps['pages']) => (
  <div class="pager">
    <span>{says}</span>
    {later === null ? null : (
      <Button quiet small name="go" value={`page:${later}`}>
        Later
      </Button>
    )}
    {earlier === null ? null : (
      <Button quiet small name="go" value={`page:${earlier}`}>
        Earlier
      </Button>
    )}
  </div>
)
