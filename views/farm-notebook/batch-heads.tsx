// Heads that left within a batch's days by the head counts of its herd: checked, they are noted for the batch too.
import type { BatchFigures } from '#today/farm/batch-figures.ts'
import { Button } from '../parts/button.tsx'
import { FormId, neverRestored } from '../parts/field.tsx'

interface BatchHeadsProps {
  figures: BatchFigures
  newFormId(): string
}

export const BatchHeads = ({ figures: { batch, untiedHeads, enterprise }, newFormId }: BatchHeadsProps) =>
  untiedHeads.length === 0 ? null : (
    <section class="no-print" aria-labelledby="heads-title">
      <h2 id="heads-title">Animals that may be its</h2>
      <p>Young of {enterprise} that left within its days by the head counts, and are noted for no batch.</p>
      <form method="post" action={`/farm/batches/${batch.id}/tie-heads`} {...neverRestored}>
        <FormId value={newFormId()} />
        <ul class="written">
          {untiedHeads.map(({ id, says }) => (
            <li>
              <span class="choice">
                <input type="checkbox" id={`heads-${id.replace(' ', '-')}`} name="heads[]" value={id} />
                <label for={`heads-${id.replace(' ', '-')}`}>{says}</label>
              </span>
            </li>
          ))}
        </ul>
        <Button quiet>Take over what is checked</Button>
      </form>
    </section>
  )
