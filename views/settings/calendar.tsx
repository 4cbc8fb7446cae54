// The dates ahead: standing transfers, tax, enrollment windows and required distributions, with the file for a calendar.
import { type Day, dayName } from '#calendar/day.ts'
import { PageTitle } from '../layout.tsx'
import { ButtonRow, LinkButton } from '../parts/button.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

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
  'open-enrollment': 'Health cover',
  medicare: 'Medicare',
  'required-distribution': 'Retirement',
} as const

export const CalendarPage = ({ dates, today }: { dates: readonly CalendarRow[]; today: Day }) => {
  const ahead = dates.filter((date) => date.day >= today)
  return (
    <>
      <PageTitle purpose="What falls due in the coming year, here and in your own calendar.">
        Dates ahead
      </PageTitle>
      <Caution>
        Dates of law are worked out from rules that can change; disasters and holidays move some of them.
      </Caution>
      <ButtonRow>
        <LinkButton href="/calendar.ics">Calendar file (.ics)</LinkButton>
      </ButtonRow>
      <p>
        Save the file into a calendar, or let a calendar on this computer follow its address:{' '}
        <code>/calendar.ics</code>. Amounts are left out of it. With a passphrase set, a calendar cannot
        follow the address; save the file anew instead.
      </p>
      {ahead.length === 0 ? (
        <EmptyState>Nothing falls due in the coming year.</EmptyState>
      ) : (
        <DataTable
          caption="The coming year"
          rows={ahead}
          csv="/settings/calendar.csv"
          stack
          columns={[
            { title: 'Day', cell: (date) => <span class="day">{dayName(date.day)}</span> },
            {
              title: 'What',
              isHeader: true,
              cell: (date) => (
                <span>
                  {date.title} <span class="hint">{date.says}</span>
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
      )}
    </>
  )
}
