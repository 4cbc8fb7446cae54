// What was done in these books: who, when, what, and the way to take it back while its month is open.
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { unbroken } from '../parts/dollars.tsx'
import { Field, FormId, Hidden } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { DataTable, type PagerProps } from '../parts/table.tsx'

export interface ActRow {
  id: number
  at: string
  /** The same by the computer's own clock. */
  when: string
  who: string
  says: string
  /** Of what: payee, sum and day; an account and its statement; a market or a batch. */
  about: string
  /** The page that shows it. */
  href: string | null
  isTakenBack: boolean
  /** Whether one press undoes it; else it is changed back on its own page. */
  hasOpposite: boolean
}

export interface ActsProps {
  acts: readonly ActRow[]
  pager: PagerProps
  /** Of the person at this browser; empty until they said it. */
  name: string
  nameFormId: string
  formIdOf: (act: ActRow) => string
}

export const ActsPage = ({ acts, pager, name, nameFormId, formIdOf }: ActsProps) => (
  <>
    <PageTitle purpose="Who did what, and when. What was booked can be undone while its month is open, and undoing is written down too. The plan, accounts, batches and settings are changed back on their own pages.">
      What was done
    </PageTitle>
    <NameForm name={name} formId={nameFormId} />
    {acts.length === 0 ? (
      <EmptyState href="/month" action="This month">
        Nothing was done yet.
      </EmptyState>
    ) : (
      <DataTable
        caption="Newest first"
        stack
        csv="/books/acts.csv"
        pager={pager}
        rows={acts}
        columns={[
          { title: 'When', cell: (act) => <span class="day">{act.when}</span> },
          { title: 'Who', cell: (act) => act.who },
          { title: 'What', isHeader: true, cell: (act) => act.says },
          {
            title: 'Of',
            cell: (act) =>
              act.href === null ? (
                unbroken(act.about)
              ) : (
                <a href={act.href}>{act.about === '' ? 'Its page' : unbroken(act.about)}</a>
              ),
          },
          {
            title: 'Undo',
            cell: (act) =>
              act.isTakenBack ? (
                'undone'
              ) : !act.hasOpposite ? (
                'on its own page'
              ) : (
                <form method="post" action={`/undo/${act.id}`}>
                  <FormId value={formIdOf(act)} />
                  <Hidden name="from" value="acts" />
                  <Button
                    quiet
                    small
                    label={`Undo: ${[act.says, act.about, act.when].filter(Boolean).join(', ')}`}
                  >
                    Undo
                  </Button>
                </form>
              ),
          },
        ]}
      />
    )}
  </>
)

const NameForm = ({ name, formId }: { name: string; formId: string }) => (
  <form method="post" action="/books/acts/name">
    <FormId value={formId} />
    <div class="field-row">
      <Field
        name="name"
        label="Your name, for what is done in this browser"
        value={name}
        maxlength={40}
        autocomplete="given-name"
      />
      <Button quiet>{name === '' ? 'This is me' : 'Change my name'}</Button>
    </div>
  </form>
)
