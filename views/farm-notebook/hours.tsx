// Hours by week and by season, and what an hour at each market takes.
import { type Day, dayName } from '#calendar/day.ts'
import { hoursText } from '#farm/notebook/words.ts'
import { formatCents, formatCount } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { HoursFigures, WorkedRow } from '#today/farm/hours-figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { FormId } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

interface HoursProps {
  figures: HoursFigures
  today: Day
  newFormId(): string
}

const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']

export const HoursPage = (props: HoursProps) => (
  <>
    <PageTitle
      purpose={`Week of ${dayName(props.figures.monday)}. What is counted is what the notebook holds.`}
    >
      Hours
    </PageTitle>
    <p class="no-print">
      <a href={`/farm/hours?week=${props.figures.before}`}>The week before</a>
      {props.figures.after <= props.today ? (
        <>
          {' '}
          · <a href={`/farm/hours?week=${props.figures.after}`}>The week after</a>
        </>
      ) : null}{' '}
      · <a href="/farm/notebook">Write hours</a>
    </p>
    <Week {...props} />
    <Seasons figures={props.figures} />
    <Markets figures={props.figures} />
  </>
)

/** What all worked in the week, and who how much of it. */
export function weekInWords(people: HoursFigures['people']): string {
  const all = people.reduce((sum, { total }) => sum + total, 0)
  const each = [...people]
    .sort((a, b) => b.total - a.total)
    .map(({ name, total }) => `${hoursText(total)} by ${name}`)
  const hours = `${hoursText(all)} ${all === 60 ? 'hour is' : 'hours are'} written down for this week`
  return people.length === 1 ? `${hours}, all by ${people[0]!.name}.` : `${hours}: ${allOf(each)}.`
}

const Week = ({ figures, newFormId }: HoursProps) =>
  figures.rows.length === 0 ? (
    <EmptyState href="/farm/notebook" action="Write hours">
      No hours are written down for this week.
    </EmptyState>
  ) : (
    <>
      <p class="answer">{weekInWords(figures.people)}</p>
      <DataTable
        caption="Hours of the week, by person"
        rows={figures.people}
        columns={[
          { title: 'Who', cell: ({ name }) => name, isHeader: true },
          ...weekdays.map((title, at) => ({
            title,
            cell: ({ minutes }: HoursFigures['people'][number]) =>
              minutes[at] === 0 ? '–' : hoursText(minutes[at]!),
            isNumber: true,
          })),
          { title: 'Week', cell: ({ total }) => hoursText(total), isNumber: true },
        ]}
      />
      <DataTable<WorkedRow>
        caption="As they were written down"
        rows={figures.rows}
        stack
        csv={`/farm/hours.csv?table=week&week=${figures.monday}`}
        columns={[
          { title: 'Day', cell: ({ day }) => dayName(day), isHeader: true },
          { title: 'Who', cell: ({ person }) => person },
          { title: 'What for', cell: ({ what }) => what },
          { title: 'Hours', cell: ({ minutes }) => hoursText(minutes), isNumber: true },
          {
            title: 'Note',
            cell: ({ note, payCents }) =>
              payCents === null ? note : `${note} paid ${formatCents(payCents)}`,
          },
          {
            title: <span class="hidden-text">Remove</span>,
            isControl: true,
            cell: (row) =>
              row.id === null ? null : (
                <form method="post" action={`/farm/notebook/hours/${row.id}/remove`}>
                  <FormId value={newFormId()} />
                  <input type="hidden" name="back" value={`/farm/hours?week=${figures.monday}`} />
                  <Button quiet small label={`Remove: ${row.person}, ${row.what}, ${dayName(row.day)}`}>
                    Remove
                  </Button>
                </form>
              ),
          },
        ]}
      />
    </>
  )

const Seasons = ({ figures }: { figures: HoursFigures }) =>
  figures.seasons.length > 0 ? (
    <DataTable
      caption={`Hours of ${figures.year} by season`}
      rows={figures.seasons}
      stack
      csv={`/farm/hours.csv?table=seasons&week=${figures.monday}`}
      columns={[
        { title: 'What for', cell: ({ what }) => what, isHeader: true },
        ...(['Winter', 'Spring', 'Summer', 'Fall'] as const).map((title, at) => ({
          title,
          cell: ({ minutes }: HoursFigures['seasons'][number]) => hoursText(minutes[at]!),
          isNumber: true,
        })),
        { title: 'Year', cell: ({ total }) => hoursText(total), isNumber: true },
      ]}
    />
  ) : null

const Markets = ({ figures }: { figures: HoursFigures }) =>
  figures.markets.length > 0 ? (
    <DataTable
      caption={`Market days of ${figures.year}`}
      rows={figures.markets}
      stack
      csv={`/farm/hours.csv?table=markets&week=${figures.monday}`}
      columns={[
        { title: 'Market', cell: ({ market }) => market, isHeader: true },
        { title: 'Days', cell: ({ days }) => days, isNumber: true },
        { title: 'Taken', cell: ({ takenCents }) => formatCents(takenCents), isNumber: true },
        { title: 'Hours', cell: ({ minutes }) => hoursText(minutes), isNumber: true },
        {
          title: 'Taken an hour',
          cell: ({ perHourCents }) => (perHourCents === null ? 'no hours' : formatCents(perHourCents)),
          isNumber: true,
        },
        { title: 'Fees', cell: ({ feesCents }) => formatCents(feesCents), isNumber: true },
        { title: 'Miles', cell: ({ miles }) => formatCount(miles), isNumber: true },
      ]}
    />
  ) : null
