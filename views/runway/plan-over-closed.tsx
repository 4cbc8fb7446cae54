// Asked before a plan is saved that changes the pack of a closed year.
import { PageTitle } from '../layout.tsx'
import { Button, LinkButton } from '../parts/button.tsx'
import { Hidden, PlanFormIds } from '../parts/field.tsx'

interface PlanOverClosedProps {
  says: readonly string[]
  form: { plan: unknown; planId: string; basedOn: number; note: string; next: string }
  /** Name of the yes. */
  field: string
  formId: string
}

export const PlanOverClosedPage = ({ says, form, field, formId }: PlanOverClosedProps) => (
  <>
    <PageTitle purpose="Nothing is saved yet. Year packs are worked out with the plan, and this one was handed over.">
      A closed year changes
    </PageTitle>
    {says.map((one) => (
      <p>{one}</p>
    ))}
    <form method="post" action="/runway/revisions/mine" class="keep">
      <PlanFormIds formId={formId} planId={form.planId} basedOn={form.basedOn} />
      <Hidden name="document" value={JSON.stringify(form.plan)} />
      <Hidden name="next" value={form.next} />
      <Hidden name="note" value={form.note} />
      <Hidden name={field} value="yes" />
      <Button>Save the plan, and keep an amended copy of the pack</Button>
    </form>
    <p>
      <LinkButton href={form.next} quiet>
        Leave the plan as it was
      </LinkButton>
    </p>
  </>
)
