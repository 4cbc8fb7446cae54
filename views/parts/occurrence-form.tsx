// What is due of a standing transfer in a month, and the buttons by which it is posted or skipped, wherever it is shown.
import type { Child } from 'hono/jsx'
import { type Day, dayName } from '#calendar/day.ts'
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

export interface DueStanding {
  id: string
  name: string
  month: Month
  /** It was posted before, and taken back. */
  wasTakenBack: boolean
  /** The day of a crossing in the books that may be this very one. */
  alikeOn: Day | null
}

/** What is to be known before it is posted, after its name and amount; `''` for nothing. */
export const dueRemark = ({ wasTakenBack, alikeOn }: DueStanding): string =>
  alikeOn === null
    ? wasTakenBack
      ? ', reversed before'
      : ''
    : `. The books have one like it on ${dayName(alikeOn)}: is it this one?`

/** One press posts it, or says which it is where the books may have it. */
export const DueButtons = ({
  due,
  formId,
  back,
  quiet = false,
  children,
}: {
  due: DueStanding
  formId: string
  back?: 'now' | 'month'
  quiet?: boolean
  children: string
}) => {
  const common = { transfer: due, formId, ...(back ? { back } : {}) }
  return due.alikeOn === null ? (
    <OccurrenceForm {...common} quiet={quiet}>
      {children}
    </OccurrenceForm>
  ) : (
    <span class="button-row">
      <OccurrenceForm {...common} action="skip" quiet={quiet}>
        Yes, this one
      </OccurrenceForm>
      <OccurrenceForm {...common} quiet>
        No, record it too
      </OccurrenceForm>
    </span>
  )
}

/** One press for several: what the books may have is told apart from what is to be posted. */
export const DueTogether = ({
  due,
  formId,
  back,
  quiet = false,
  children,
}: {
  due: readonly Pick<DueStanding, 'alikeOn'>[]
  formId: string
  back?: 'month'
  quiet?: boolean
  /** The deed, like "Post all". */
  children: string
}) => {
  const alike = due.filter(({ alikeOn }) => alikeOn !== null).length
  const clear = due.length - alike
  return (
    <>
      {alike < 2 ? null : (
        <CatchUp which="in the books" formId={formId} back={back} quiet={quiet}>
          Yes, these {alike} are in the books
        </CatchUp>
      )}
      {clear < 2 ? null : (
        <CatchUp which="due" formId={formId} back={back} quiet={quiet}>
          {children} {clear}
        </CatchUp>
      )}
    </>
  )
}

const CatchUp = ({
  which,
  formId,
  back,
  quiet,
  children,
}: {
  which: string
  formId: string
  back: string | undefined
  quiet: boolean
  children: Child
}) => (
  <form method="post" action="/crossings/standing/catch-up">
    <FormId value={formId} />
    <Hidden name="which" value={which} />
    {back === undefined ? null : <Hidden name="back" value={back} />}
    <Button quiet={quiet}>{children}</Button>
  </form>
)
