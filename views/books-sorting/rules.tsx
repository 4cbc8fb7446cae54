// Sorting rules: the list, and one rule with a try on the lines the books have seen.
import { type Day, dayName } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents, formatCount } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Field,
  type FieldErrors,
  FormId,
  fieldOf,
  Hidden,
  MoneyField,
  type Option,
  RadioGroup,
  Select,
} from '../parts/field.tsx'
import { refreshes } from '../parts/htmx.ts'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

export interface RuleRow {
  id: string
  says: string
  target: string
  learned: boolean
  timesUsed: number
  priority: number
}

export const RulesPage = ({ rules }: { rules: readonly RuleRow[] }) => (
  <>
    <PageTitle
      help="rules"
      purpose="A rule proposes where a transaction goes. Rules are learned from what you choose, and you can write your own. None books anything by itself."
    >
      Sorting rules
    </PageTitle>
    <ButtonRow>
      <LinkButton href="/books/sorting/rules/new">Write a rule</LinkButton>
      <LinkButton quiet href="/books/sorting">
        Back to the transactions
      </LinkButton>
    </ButtonRow>
    {rules.length === 0 ? (
      <EmptyState href="/books/sorting" action="Sort the first transactions">
        There is no rule yet. Sort a few transactions, and the next like ones will be proposed.
      </EmptyState>
    ) : (
      <DataTable
        caption="Written by hand first, then learned ones"
        stack
        csv="/books/sorting/rules.csv"
        rows={rules}
        columns={[
          {
            title: 'Transactions',
            isHeader: true,
            cell: (rule) => <a href={`/books/sorting/rules/${encodeURIComponent(rule.id)}`}>{rule.says}</a>,
          },
          { title: 'Go to', cell: (rule) => rule.target },
          {
            title: 'Comes from',
            cell: (rule) => <span class="day">{rule.learned ? 'your choices' : 'you, by hand'}</span>,
          },
          { title: 'Used', isNumber: true, cell: (rule) => rule.timesUsed },
        ]}
      />
    )}
  </>
)

export interface DryRunShown {
  counts: { same: number; different: number; unsorted: number; other: number }
  overruled: number
  historyCount: number
  lines: readonly {
    day: Day
    payee: string
    amount: Cents
    outcome: 'same' | 'different' | 'unsorted' | 'other'
    went: string
  }[]
}

export interface RuleFormProps {
  address: string
  isNew: boolean
  formId: string
  value: (name: string) => string
  errors: FieldErrors
  accountOptions: readonly Option[]
  targetOptions: readonly Option[]
  dryRun: DryRunShown | null
}

type FieldOf = (name: string) => ReturnType<typeof fieldOf>

export const RuleForm = (props: RuleFormProps) => {
  const field = (name: string) => fieldOf({ typed: props, errors: props.errors }, name)
  return (
    <>
      <PageTitle purpose="Try it on past transactions before you save it: you see what it would have caught, and where those went.">
        {props.isNew ? 'Write a sorting rule' : 'Change a sorting rule'}
      </PageTitle>
      <form
        method="post"
        action={props.address}
        {...refreshes('dry-run', { post: props.address }, 'change')}
        {...{ 'hx-vals': '{"try":"yes"}' }}
      >
        <ErrorSummary errors={props.errors} />
        <FormId value={props.formId} />
        <Hidden name="basedOn" value={props.value('basedOn')} />
        <WhichLines {...props} field={field} />
        <Select {...field('target')} label="Goes to" options={props.targetOptions} empty="Choose" />
        <RadioGroup
          {...field('priority')}
          label="If another rule also matches"
          options={[
            { value: '0', label: 'the more specific rule wins' },
            { value: '1', label: 'this rule wins' },
          ]}
        />
        <ButtonRow>
          <Button>Save the rule</Button>
          <Button quiet name="try" value="yes">
            Try it on past transactions
          </Button>
          <LinkButton quiet href="/books/sorting/rules">
            Cancel
          </LinkButton>
        </ButtonRow>
        {props.isNew ? null : (
          <p>
            <Button quiet small name="archive" value="yes">
              Archive this rule
            </Button>
          </p>
        )}
      </form>
      <DryRunPart dryRun={props.dryRun} />
    </>
  )
}

const outcomeNames = {
  same: 'Went there too',
  different: 'Went elsewhere',
  unsorted: 'Waits',
  other: 'Split, matched or skipped',
} as const

/** Replaced as the rule is changed. */
export const DryRunPart = ({ dryRun }: { dryRun: DryRunShown | null }) => (
  <section id="dry-run" aria-live="polite" aria-label="Past transactions this rule would have caught">
    {dryRun === null ? (
      <p class="hint">
        Choose the words and where they go to see which past transactions the rule would have caught.
      </p>
    ) : (
      <>
        <p>
          Of the last {formatCount(dryRun.historyCount)} transactions it would have caught{' '}
          <strong>{caught(dryRun)}</strong>: {dryRun.counts.same} went there too, {dryRun.counts.different}{' '}
          went elsewhere, {dryRun.counts.other} were split, matched or skipped, {dryRun.counts.unsorted} still
          wait.
          {dryRun.overruled > 0
            ? ` For ${dryRun.overruled} more, another rule goes first; “this rule wins” above changes that.`
            : ''}
        </p>
        {dryRun.lines.length === 0 ? null : (
          <DataTable
            caption="Changed ones first, then the newest"
            stack
            rows={dryRun.lines}
            columns={[
              { title: 'Day', cell: (line) => dayName(line.day) },
              { title: 'Payee', isHeader: true, cell: (line) => line.payee },
              { title: 'Amount', isNumber: true, cell: (line) => formatCents(line.amount) },
              { title: 'Then', cell: (line) => outcomeNames[line.outcome] },
              { title: 'Where it went', cell: (line) => line.went },
            ]}
          />
        )}
      </>
    )}
  </section>
)

const caught = ({ counts }: DryRunShown): number =>
  counts.same + counts.different + counts.other + counts.unsorted

const WhichLines = ({ field, accountOptions }: RuleFormProps & { field: FieldOf }) => (
  <>
    <RadioGroup
      {...field('matchKind')}
      label="The payee"
      options={[
        { value: 'equals', label: 'is exactly' },
        { value: 'starts', label: 'begins with' },
        { value: 'contains', label: 'has all the words' },
      ]}
    />
    <Field
      {...field('matchText')}
      label="These words"
      hint="Numbers, dates and words like “debit” or “card” do not count, so that transactions of different days are alike."
      maxlength={200}
    />
    <div class="field-row">
      <Select {...field('onAccount')} label="On" options={accountOptions} empty="any account" />
      <Select
        {...field('sign')}
        label="Direction"
        empty="money in or out"
        options={[
          { value: 'out', label: 'money out' },
          { value: 'in', label: 'money in' },
        ]}
      />
      <MoneyField {...field('minimum')} label="At least" hint="Optional" />
      <MoneyField {...field('maximum')} label="At most" hint="Optional" />
    </div>
  </>
)
