// Hours of the enterprise that were written within a batch's days, before it was there to choose: checked, they become its own.
import { dayName } from '#calendar/day.ts'
import { hoursText } from '#farm/notebook/words.ts'
import type { BatchFigures } from '#today/farm/batch-figures.ts'
import { Button } from '../parts/button.tsx'
import { FormId, neverRestored } from '../parts/field.tsx'

interface BatchHoursProps {
  figures: BatchFigures
  newFormId(): string
}

export const BatchHours = ({ figures: { batch, untiedHours, enterprise }, newFormId }: BatchHoursProps) =>
  untiedHours.length === 0 ? null : (
    <section class="no-print" aria-labelledby="hours-title">
      <h2 id="hours-title">Hours that may be its</h2>
      <p>Written for {enterprise} within its days, and for no batch.</p>
      <form method="post" action={`/farm/batches/${batch.id}/tie-hours`} {...neverRestored}>
        <FormId value={newFormId()} />
        <ul class="written">
          {untiedHours.map(({ id, day, minutes, person, note }) => (
            <li>
              <span class="choice">
                <input type="checkbox" id={`hours-${id}`} name="hours[]" value={id} />
                <label for={`hours-${id}`}>
                  {dayName(day)}, {person}
                  {note ? `, ${note}` : ''}
                </label>
              </span>
              <span class="notebook-sum">{hoursText(minutes)} h</span>
            </li>
          ))}
        </ul>
        <Button quiet>Tie the hours that are checked</Button>
      </form>
    </section>
  )
