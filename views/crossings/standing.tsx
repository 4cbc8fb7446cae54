// Standing transfers: what is due now, and the list with its changes.
import { dayName } from '#calendar/day.ts'
import { monthName } from '#calendar/month.ts'
import { formatCents } from '#money/format.ts'
import type { DueRow, StandingRow } from '#today/crossings/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId, MonthField } from '../parts/field.tsx'
import { NoticeSection } from '../parts/message.tsx'
import { DueButtons, DueTogether, dueRemark, OccurrenceForm } from '../parts/occurrence-form.tsx'

export const DueTransfers = ({ due, formId }: { due: readonly DueRow[]; formId: string }) => {
  if (due.length === 0) return null
  return (
    <NoticeSection titleId="due-title">
      <h2 id="due-title">Due</h2>
      <ul class="due">
        {due.map((row) => (
          <li>
            <span>
              {row.name}, {formatCents(row.amountCents)}, for {monthName(row.month)}
              {row.isMissed ? ' (missed)' : ''}
              {dueRemark({ ...row, id: row.standingId })}
            </span>
            <ButtonRow>
              <DueButtons due={{ ...row, id: row.standingId }} formId={formId}>
                Record it
              </DueButtons>
              {row.alikeOn === null ? (
                <OccurrenceForm transfer={{ ...row, id: row.standingId }} action="skip" formId={formId} quiet>
                  Skip this month
                </OccurrenceForm>
              ) : null}
            </ButtonRow>
          </li>
        ))}
      </ul>
      <DueTogether due={due} formId={formId}>
        Record all
      </DueTogether>
    </NoticeSection>
  )
}

export const StandingList = ({ standing }: { standing: readonly StandingRow[]; formId: string }) => (
  <section aria-labelledby="standing-title">
    <h2 id="standing-title">Standing transfers</h2>
    {standing.length === 0 ? (
      <p>
        A draw or contribution that comes back every month can be set up once; Now reminds you of it, or it is
        recorded automatically.
      </p>
    ) : (
      <ul class="due">
        {standing.map((row) => (
          <li>
            <span>
              <a href={`/crossings/standing/${row.id}`}>{row.name}</a>: {formatCents(row.amountCents)} a
              month, {row.kindName.toLowerCase()} from {row.from} to {row.to}.{' '}
              <span class="hint">
                {row.nextDay ? `Next on ${dayName(row.nextDay)}` : 'It has ended'}
                {row.endsAfter === null ? '' : `, last in ${monthName(row.endsAfter)}`}
                {row.isAutomatic ? ', recorded automatically' : '; you record it each time'}
              </span>
            </span>
          </li>
        ))}
      </ul>
    )}
    <ButtonRow>
      <LinkButton quiet href="/crossings/standing/new">
        Set up a standing transfer
      </LinkButton>
    </ButtonRow>
  </section>
)

export interface StandingPageProps {
  row: StandingRow
  errors: FieldErrors
  formId: string
  endsFrom: string
}

export const StandingPage = ({ row, errors, formId, endsFrom }: StandingPageProps) => (
  <>
    <PageTitle
      purpose={`${row.kindName} of ${formatCents(row.amountCents)} a month from ${row.from} to ${row.to}${
        row.isAutomatic ? ', recorded automatically' : '; you record it each time'
      }.`}
    >
      {row.name}
    </PageTitle>
    <ErrorSummary errors={errors} />
    <p>
      {row.nextDay ? `Next on ${dayName(row.nextDay)}.` : 'It has ended.'}{' '}
      {row.endsAfter === null ? '' : `Its last month is ${monthName(row.endsAfter)}.`}
    </p>
    <ButtonRow>
      <LinkButton href={`/crossings/standing/new?from=${row.id}`}>Change it from a chosen month</LinkButton>
    </ButtonRow>
    <form method="post" action={`/crossings/standing/${row.id}/end`}>
      <FormId value={formId} />
      <MonthField
        name="firstMonthWithout"
        label="End it: first month without it"
        hint="What was recorded stays."
        value={endsFrom}
        error={errors.firstMonthWithout}
      />
      <Button quiet>End it</Button>
    </form>
  </>
)
