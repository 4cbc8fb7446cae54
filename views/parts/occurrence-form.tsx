// The button by which one month of a standing transfer is posted or skipped, wherever it is shown.
import { type Month, monthName, monthText } from '#calendar/month.ts'
import { Button } from './button.tsx'
import { FormId, Hidden } from './field.tsx'

interface OccurrenceProps {
  transfer: { id: string; name: string; month: Month }
  action?: 'post' | 'skip'
  formId: string
  /** The page it leads back to; Crossings without it. */
  back?: 'now' | 'month'
  quiet?: boolean
  /** What the button says. */
  children: string
}

export const OccurrenceForm = ({
  transfer,
  action = 'post',
  formId,
  back,
  quiet,
  children,
}: OccurrenceProps) => (
  <form method="post" action={`/crossings/standing/${transfer.id}/${action}`}>
    <FormId value={formId} />
    <Hidden name="month" value={monthText(transfer.month)} />
    {back === undefined ? null : <Hidden name="back" value={back} />}
    <Button
      small
      quiet={quiet ?? false}
      label={`${children}: ${transfer.name}, ${monthName(transfer.month)}`}
    >
      {children}
    </Button>
  </form>
)
