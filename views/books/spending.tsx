// Spending by kind and month: the sentence, a small picture of each kind, and the table of all months.

import { firstDayOf, lastDayOf } from '#calendar/day.ts'
import { type Month, monthName, monthNameShort, monthText } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'
import type { SideKind } from '#ledger/account.ts'
import { type Cents, cents, centsToDollars } from '#money/cents.ts'
import { formatDollars } from '#money/format.ts'
import type { SpendingFigures, SpendingRow } from '#today/spending/figures.ts'
import { SmallBars } from '../charts/small-bars.tsx'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { type Option, Select } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { SideWord, sideClass } from '../parts/side.tsx'
import { type Column, DataTable } from '../parts/table.tsx'

export interface SpendingPageFigures extends SpendingFigures {
  side: { id: string; kind: SideKind; name: string }
}

export interface SpendingProps {
  figures: SpendingPageFigures
  typed: { value(name: string): string }
  sides: readonly Option[]
  csv: string
}

export const SpendingPage = ({ figures, typed, sides, csv }: SpendingProps) => {
  const { side, rows, months } = figures
  return (
    <>
      <PageTitle purpose="What each month went on, by kind and account; for the household, next to what you had planned.">
        Spending of <SideWord kind={side.kind}>{side.name}</SideWord>
      </PageTitle>
      {rows.length > 0 ? <p class="answer">{answerOf(figures)}</p> : null}
      <form method="get" action="/books/spending">
        <div class="field-row">
          <Select name="side" label="Books" options={sides} value={side.id} />
          <Select name="months" label="Months" options={monthChoices} value={typed.value('months') || '12'} />
          <Select
            name="until"
            label="Until"
            options={untilChoices(months.at(-1)!, figures.now)}
            value={monthText(months.at(-1)!)}
          />
          <Button quiet>Show</Button>
        </div>
      </form>
      {rows.length === 0 ? (
        <EmptyState href="/books/statements" action="Read bank statements">
          Nothing was spent in these months.
        </EmptyState>
      ) : (
        <>
          <Pictures figures={figures} />
          <MonthsTable figures={figures} csv={csv} />
        </>
      )}
    </>
  )
}

const monthChoices: readonly Option[] = ['6', '12', '24', '36'].map((value) => ({
  value,
  label: `${value} months`,
}))

/** A year each way, no month that has not begun. */
const untilChoices = (last: Month, now: Month): Option[] =>
  Array.from({ length: 25 }, (_, at) => (last + 12 - at) as Month)
    .filter((month) => month <= now)
    .map((month) => ({
      value: monthText(month),
      label: monthName(month),
    }))

const answerOf = ({ months, total, isOver, side }: SpendingPageFigures): string => {
  const [month, spent, planned] = [months.at(-1)!, total.spent.at(-1)!, total.planned?.at(-1) ?? null]
  const so = isOver ? '' : ' so far'
  const head = `${monthName(month)} cost ${side.name} ${whole(spent)}${so}`
  const against = planned === null ? '' : `, ${apart(cents(spent - planned), 'expected')}`
  const year =
    months.length < 2
      ? ''
      : ` The ${months.length} months in all: ${whole(total.totalCents)}${
          total.differenceCents === null
            ? ''
            : `, ${apart(total.differenceCents, 'expected')}${someOf(total)}`
        }.`
  return `${head}${against}.${year}`
}

/** A plan that begins later is held against its own months alone. */
const someOf = ({ planned }: SpendingRow): string => {
  const known = (planned ?? []).filter((one) => one !== null).length
  return known === (planned ?? []).length ? '' : ` in the ${monthsWords(known)} that a plan tells of`
}

const whole = (amount: Cents): string => formatDollars(centsToDollars(amount))

const apart = (difference: Cents, than: string): string =>
  Math.abs(difference) < 50
    ? `as ${than}`
    : `${whole(cents(Math.abs(difference)))} ${difference > 0 ? 'more' : 'less'} than ${than}`

const mostPictures = 12

/** Kinds first where there is more than one account in them, then the largest accounts. */
const Pictures = ({ figures: { months, rows, side, total } }: { figures: SpendingPageFigures }) => {
  const kinds = rows.filter(({ accountId }) => accountId === null)
  const accounts = rows
    .filter((row) => row.accountId !== null && !isAloneInKind(rows, row))
    .toSorted((one, other) => other.totalCents - one.totalCents)
  const shown = [...kinds, ...accounts].slice(0, mostPictures)
  return (
    <section aria-labelledby="spending-pictures">
      <h2 id="spending-pictures">Month by month</h2>
      <p class="hint">
        Bars are what was spent, each picture on a scale of its own.
        {total.plannedCents === null ? '' : ' The dashed line is what was expected.'}
      </p>
      <ul class={`small-multiples ${sideClass(side.kind)}`}>
        {shown.map((row) => (
          <SmallBars
            name={row.name}
            values={row.spent.map(centsToDollars)}
            expected={row.planned?.map((one) => (one === null ? null : centsToDollars(one))) ?? null}
            first={monthNameShort(months[0]!)}
            last={monthNameShort(months.at(-1)!)}
            summary={pictureSays(row, months)}
          />
        ))}
      </ul>
    </section>
  )
}

/** Its picture would be that of its kind once more; kinds stand above their accounts. */
const isAloneInKind = (rows: readonly SpendingRow[], row: SpendingRow): boolean => {
  const at = rows.indexOf(row)
  const after = rows[at + 1]
  return rows[at - 1]?.accountId === null && (after === undefined || after.accountId === null)
}

const pictureSays = (row: SpendingRow, months: readonly Month[]): string =>
  [
    `${whole(row.spent.at(-1)!)} in ${monthName(months.at(-1)!)}`,
    `${whole(row.totalCents)} in all`,
    ...(row.differenceCents === null ? [] : [apart(row.differenceCents, 'expected')]),
  ].join(', ')

const MonthsTable = ({ figures, csv }: { figures: SpendingPageFigures; csv: string }) => {
  const { months, rows, total } = figures
  const hasPlan = total.plannedCents !== null
  const columns: Column<SpendingRow>[] = [
    {
      title: 'Kind',
      isHeader: true,
      cell: (row) => (row.accountId === null ? row.name : <AccountLink row={row} months={months} />),
    },
    // On a phone the last month stands for all: any one is chosen under Until, and the pictures have them all.
    ...months.map((month, at) => ({
      title: monthNameShort(month),
      isNumber: true,
      isWide: at < months.length - 1,
      cell: (row: SpendingRow) => whole(row.spent[at]!),
    })),
    { title: 'Total', isNumber: true, cell: (row) => whole(row.totalCents) },
    ...(hasPlan
      ? [
          {
            title: 'Expected',
            isNumber: true,
            isWide: true,
            cell: (row: SpendingRow) => (row.plannedCents === null ? '' : whole(row.plannedCents)),
          },
          {
            title: 'More or less',
            isNumber: true,
            cell: (row: SpendingRow) => (row.differenceCents === null ? '' : whole(row.differenceCents)),
          },
        ]
      : []),
  ]
  return (
    <>
      <DataTable
        caption="Spending by kind and month"
        rows={rows}
        csv={csv}
        rowClass={(row) => (row.accountId === null ? 'is-kind' : undefined)}
        columns={columns}
        foot={columns.map(({ cell }) => cell(total))}
      />
      {figures.side.kind === 'household' ? (
        <p class="hint">
          Tax withheld from pay or a pension never reached the house and is not in it.{thingsWords(figures)}
        </p>
      ) : null}
      {hasPlan ? (
        <p class="hint">
          Expected is the newest forecast before each month, or the plan where no month was closed before it.
          Food from the farm took no cash and is not in it.
        </p>
      ) : null}
    </>
  )
}

/** Now tells what a month costs to live in: what was bought to last is no such cost. */
const thingsWords = ({ months, lastThingsCents: things, total }: SpendingPageFigures) => {
  if (things === 0) return null
  return (
    <>
      {' '}
      <a href="/now">Household spending on Now</a> is the total without lasting things and one-off items:{' '}
      {whole(cents(total.spent.at(-1)! - things))} in {monthName(months.at(-1)!)}.
    </>
  )
}

/** To its entries in these months. */
const AccountLink = ({ row, months }: { row: SpendingRow; months: readonly Month[] }) => {
  const days = `from=${firstDayOf(months[0]!)}&to=${lastDayOf(months.at(-1)!)}`
  return <a href={`/books/entries?account=${row.accountId}&${days}&living=yes`}>{row.name}</a>
}
