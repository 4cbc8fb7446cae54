// Sides in Settings: a new side venture, and the page that renames a side's books or puts a venture's away.
import type { SideKind } from '#ledger/account.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Checkbox, Field, type FieldErrors, FormId, fieldOf, Hidden } from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import { Anyway } from './account-form.tsx'

interface SideFormProps {
  typed: { value(name: string): string }
  errors: FieldErrors
}

export const NewSidePage = (props: SideFormProps) => (
  <>
    <PageTitle purpose="Work beside the farm with books of its own, like a repair bench or a teaching job on the side.">
      New side venture
    </PageTitle>
    <form method="post" action="/settings/sides/new">
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      <NameField {...props} />
      <Buttons>Set up its books</Buttons>
    </form>
  </>
)

export interface SidePageProps extends SideFormProps {
  side: { id: string; kind: SideKind; name: string; isPutAway: boolean }
  /** One sentence for each thing that hangs on its accounts. */
  hanging: readonly string[]
}

export const SidePage = ({ side, hanging, typed, errors }: SidePageProps) => (
  <>
    <PageTitle purpose="What is recorded stays in the books and in every report, whatever they are called and whether or not they are archived.">
      <SideWord kind={side.kind}>{side.name}</SideWord>
    </PageTitle>
    {side.kind === 'venture' ? <Hanging side={side} hanging={hanging} /> : null}
    <form method="post" action={`/settings/sides/${side.id}`}>
      <ErrorSummary errors={errors} />
      <FormId value={typed.value('formId')} />
      <Hidden name="basedOn" value={typed.value('basedOn')} />
      <NameField typed={typed} errors={errors} />
      {side.kind === 'venture' ? (
        <>
          <Checkbox
            name="archived"
            label="Archived: its books are no longer offered in forms"
            checked={typed.value('archived') === 'yes'}
            error={errors.archived}
          />
          <Anyway typed={typed} errors={errors} />
        </>
      ) : null}
      <Buttons>Save</Buttons>
    </form>
  </>
)

const Hanging = ({ side, hanging }: Pick<SidePageProps, 'side' | 'hanging'>) =>
  side.isPutAway ? (
    <p>These books are archived. Uncheck it to bring them back.</p>
  ) : hanging.length === 0 ? (
    <p>Nothing hangs on these books: no money, no standing transfer, no sorting rule.</p>
  ) : (
    <>
      <p>If these books are archived:</p>
      <ul>
        {hanging.map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
    </>
  )

const NameField = ({ typed, errors }: SideFormProps) => (
  <Field {...fieldOf({ typed, errors }, 'name')} label="Name" />
)

const Buttons = ({ children }: { children: string }) => (
  <ButtonRow>
    <Button>{children}</Button>
    <LinkButton quiet href="/settings/accounts">
      Cancel
    </LinkButton>
  </ButtonRow>
)
