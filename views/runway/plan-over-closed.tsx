// Asked before a plan is saved, or another one taken into use, that changes the pack of a closed year.
import { PageTitle } from '../layout.tsx'
import { Button, LinkButton } from '../parts/button.tsx'
import { Hidden } from '../parts/field.tsx'

interface PlanOverClosedProps {
  says: readonly string[]
  /** Where the yes is sent, with all that was asked for. */
  action: string
  fields: readonly (readonly [name: string, value: string])[]
  button: string
  next: string
}

export const PlanOverClosedPage = ({ says, action, fields, button, next }: PlanOverClosedProps) => (
  <>
    <PageTitle purpose="Nothing is saved yet. Year packs are worked out with the plan, and this one was handed over.">
      A closed year changes
    </PageTitle>
    {says.map((one) => (
      <p>{one}</p>
    ))}
    <form method="post" action={action} class="keep">
      {fields.map(([name, value]) => (
        <Hidden name={name} value={value} />
      ))}
      <Button>{button}</Button>
    </form>
    <p>
      <LinkButton href={next} quiet>
        Leave the plan as it was
      </LinkButton>
    </p>
  </>
)
