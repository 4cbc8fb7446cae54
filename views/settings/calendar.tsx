// The dates ahead: standing transfers, tax, enrollment windows and required distributions, with the file for a calendar.
import { addDays, type Day, dayName } from '#calendar/day.ts'
import { salesTaxPeriods } from '#rules/due/business-dates.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, fieldOf, Hidden, Select } from '../parts/field.tsx'
import { Fold } from '../parts/fold.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import type { InputForm } from '../year-pack/inputs-shape.ts'

export interface CalendarRow {
  id: string
  day: Day
  kind: keyof typeof kindNames
  title: string
  says: string
  source: string | null
}

const kindNames = {
  standing: 'Crossing',
  'estimated-tax': 'Tax',
  'state-estimated-tax': 'State tax',
  return: 'Tax',
  'open-enrollment': 'Health coverage',
  medicare: 'Medicare',
  'required-distribution': 'Retirement',
  contribution: 'Savings',
  'sales-tax': 'Sales tax',
  payroll: 'Payroll',
} as const

interface CalendarProps {
  dates: readonly CalendarRow[]
  today: Day
  /** Null where no account collects sales tax, and nothing was said of it. */
  salesTax: InputForm | null
}

export const CalendarPage = ({ dates, today, salesTax }: CalendarProps) => {
  const ahead = dates.filter((date) => date.day >= today)
  const near = addDays(today, 122)
  const later = ahead.filter(({ day }) => day > near)
  return (
    <>
      <PageTitle purpose="What is due in the next twelve months, here and in your own calendar.">
        Dates ahead
      </PageTitle>
      {salesTax ? <ErrorSummary errors={salesTax.errors} /> : null}
      {ahead[0] ? (
        <p class="answer">
          Next, on {dayName(ahead[0].day)}: {titleHere(ahead[0])}.
        </p>
      ) : null}
      {ahead.length === 0 ? (
        <EmptyState>Nothing is due in the next twelve months.</EmptyState>
      ) : (
        <>
          <DatesTable caption="The next four months" dates={ahead.filter(({ day }) => day <= near)} />
          {later.length === 0 ? null : (
            <Fold name="Later in the coming year" holds={`${later.length} dates`}>
              <DatesTable caption="Later in the coming year" dates={later} hideCaption />
            </Fold>
          )}
        </>
      )}
      <ButtonRow>
        <LinkButton href="/calendar.ics">Save a calendar file (.ics)</LinkButton>
      </ButtonRow>
      <p>
        Save the file into a calendar, or let a calendar on this computer follow its address:{' '}
        <code>/calendar.ics</code>. Amounts are left out of it. With a passphrase set, a calendar cannot
        follow the address; save the file again instead.
      </p>
      {salesTax ? <SalesTax form={salesTax} /> : null}
      <Caution>
        Dates of law are worked out from rules that can change; disasters and holidays move some of them.
      </Caution>
    </>
  )
}

/** In a calendar a title is read on its day; here it is read before. */
const titleHere = ({ title }: CalendarRow): string => title.replace('by today', 'by then')

const DatesTable = (props: { caption: string; dates: readonly CalendarRow[]; hideCaption?: boolean }) => (
  <DataTable
    caption={props.caption}
    hideCaption={props.hideCaption ?? false}
    rows={props.dates}
    csv="/settings/calendar.csv"
    stack
    columns={[
      { title: 'Day', cell: (date) => <span class="day">{dayName(date.day)}</span> },
      {
        title: 'What',
        isHeader: true,
        cell: (date) => (
          <span>
            {titleHere(date)} <span class="hint">{date.says}</span>
          </span>
        ),
      },
      { title: 'About', cell: (date) => kindNames[date.kind] },
      {
        title: 'Source',
        cell: (date) => <span class="source">{date.source ?? 'your standing transfers'}</span>,
      },
    ]}
  />
)

const periodWords: Record<(typeof salesTaxPeriods)[number], string> = {
  month: 'every month',
  quarter: 'every quarter',
  year: 'once a year',
}

const SalesTax = ({ form }: { form: InputForm }) => (
  <section aria-labelledby="sales-tax-title">
    <h2 id="sales-tax-title">Sales tax</h2>
    <p>Your state’s letter says how often it wants a return, and by which day of the month after.</p>
    <form method="post" action="/settings/calendar">
      <Hidden name="basedOn" value={form.typed.value('basedOn')} />
      <div class="field-row">
        <Select
          {...fieldOf(form, 'every')}
          label="A return is due"
          options={salesTaxPeriods.map((value) => ({ value, label: periodWords[value] }))}
          empty="Not entered: no dates"
        />
        <Field
          {...fieldOf(form, 'dayOfMonth')}
          label="On which day of the month after"
          inputmode="numeric"
          maxlength={2}
          class="short-field"
        />
      </div>
      <ButtonRow>
        <Button quiet>Save</Button>
      </ButtonRow>
    </form>
  </section>
)
