// Asked before a plan is saved that would count one thing twice.
import type { TwiceQuestion } from '#plan/counted-twice.ts'
import { PageTitle } from '../layout.tsx'
import { Button, LinkButton } from '../parts/button.tsx'
import { Hidden, PlanFormIds } from '../parts/field.tsx'

interface TwicePageProps {
  question: TwiceQuestion
  form: { planId: string; basedOn: number; note: string; next: string }
  formIdOf: () => string
}

export const TwicePage = ({ question, form, formIdOf }: TwicePageProps) => (
  <>
    <PageTitle purpose="Nothing is saved yet. Say what is meant, so that nothing counts twice.">
      Counted once or twice?
    </PageTitle>
    <p>{question.asks}</p>
    {question.answers.map((one) => (
      <form method="post" action="/runway/revisions/mine" class="keep">
        <PlanFormIds formId={formIdOf()} planId={form.planId} basedOn={form.basedOn} />
        <Hidden name="document" value={JSON.stringify(one.plan)} />
        <Hidden name="next" value={form.next} />
        <Hidden name="note" value={form.note} />
        <p>{one.says}</p>
        <Button quiet>{one.label}</Button>
      </form>
    ))}
    <p>
      <LinkButton href={form.next} quiet>
        Leave the plan as it was
      </LinkButton>
    </p>
  </>
)
