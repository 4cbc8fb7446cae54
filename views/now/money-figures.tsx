// The figures of Now that the books alone tell: savings, spending, house money in the farm, what the farm pays.

import { dayName } from '#calendar/day.ts'
import { monthName } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'
import { addCents, negateCents } from '#money/cents.ts'
import { formatCents, formatDollars, formatPercent } from '#money/format.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { houseMoneySays } from '../crossings/crossings.tsx'
import { Figure } from '../parts/figure.tsx'

export const Spendable = ({ figures }: { figures: NowFigures }) => (
  <Figure
    label="Spendable savings"
    word="spendable savings"
    value={wholeCents(figures.spendable.cents)}
    trend={{ of: 'household', values: figures.past.slice(-12).map((one) => one.cents) }}
    note={`In the books on ${dayName(figures.today)}${waitingWords(figures.spendable.waiting)}`}
    madeOf={{
      says: 'Household accounts marked as spendable, less what is owed on spendable cards. Which accounts count is chosen in Settings.',
      rows: [
        ...figures.spendable.accounts.map((account) => ({
          label: account.name,
          value: formatCents(account.cents),
          href: `/books/accounts/${account.id}`,
        })),
        { label: 'Total', value: formatCents(figures.spendable.cents), isTotal: true },
      ],
    }}
  />
)

/** Why it is not what the bank shows. */
const waitingWords = ({ lines, cents }: NowFigures['spendable']['waiting']): string =>
  lines === 0
    ? ''
    : `, without ${lines === 1 ? 'the transaction that waits' : `${lines} transactions that wait`} to be sorted (${wholeCents(cents)})`

export const LeakFigure = ({ figures }: { figures: NowFigures }) => {
  const { leak } = figures
  if (leak.since === null) return null
  return (
    <Figure
      label={leak.cents < 0 ? 'Paid back by the farm, more than it got' : 'House money in the farm'}
      word="house money in the farm"
      value={wholeCents(leak.cents < 0 ? negateCents(leak.cents) : leak.cents)}
      trend={{
        of: 'farm',
        values: figures.houseMoney.map((one) => (leak.cents < 0 ? -one.cents : one.cents)),
        reference: 0,
      }}
      note={
        leak.cents > 0
          ? `Put into the farm since ${monthName(leak.since)} and not yet given back.`
          : leak.contributionCents === 0 && leak.drawCents === 0
            ? 'Nothing has crossed between house and farm yet.'
            : `The farm has given back all that was put in since ${monthName(leak.since)}, and more.`
      }
      madeOf={{
        says: houseMoneySays,
        rows: [
          { label: 'Contributions', value: formatCents(leak.contributionCents) },
          { label: 'Draws', value: `−${formatCents(leak.drawCents)}` },
          { label: 'Reimbursements', value: `−${formatCents(leak.reimbursementCents)}` },
          { label: 'House money in the farm', value: formatCents(leak.cents), isTotal: true },
        ],
        more: { text: 'Month by month on Crossings', href: '/crossings/house-money' },
      }}
    />
  )
}

export const SpendingFigure = ({ spending }: Pick<NowFigures, 'spending'>) => {
  const last = spending.at(-1)
  if (!last) return null
  const mean = spending.reduce((sum, one) => sum + one.cents, 0) / spending.length
  return (
    <Figure
      label="Household spending"
      value={wholeCents(last.cents)}
      note={`In ${monthName(last.month)}; ${wholeCents(mean)} a month over ${monthsWords(spending.length)}`}
      trend={{ of: 'household', values: spending.map((one) => one.cents), reference: mean }}
      madeOf={{
        says: 'Living costs, care, loan payments, premiums and taxes of the month in the books, and what was paid on cards and is not booked yet. Tax withheld from pay is not among them. The dotted line is the mean.',
        rows: thingsRows(last),
        more: { text: 'By kind and month on Spending', href: '/books/spending' },
      }}
    />
  )
}

/** By Spending's total it is another amount where something lasting was bought: why is said beside it. */
const thingsRows = ({ month, cents: spent, thingsCents }: NowFigures['spending'][number]) =>
  thingsCents === 0
    ? []
    : [
        { label: `Household spending in ${monthName(month)}`, value: formatCents(spent) },
        { label: 'Lasting things and one-off items besides', value: formatCents(thingsCents) },
        {
          label: 'Total on Spending',
          value: formatCents(addCents(spent, thingsCents)),
          isTotal: true,
        },
      ]

export const CoverFigure = ({ figures }: { figures: NowFigures }) => {
  const last = figures.cover.at(-1)
  if (!last || last.ratio === null) return null
  return (
    <Figure
      label="Paid by the farm"
      word="paid by the farm"
      value={formatPercent(last.ratio, 0)}
      trend={{ of: 'farm', values: figures.cover.map((one) => one.ratio ?? 0) }}
      note={coverSpan(last)}
      madeOf={{
        says: 'Draws, less what the household put into the farm, over household costs (living, care, loan payments, premiums, taxes and what was paid on cards and is not booked yet) of the trailing twelve months in the books, or of as many as they hold.',
        rows: [
          { label: 'Draws, less what was put into the farm', value: formatCents(last.drawCents) },
          { label: 'Household costs', value: formatCents(last.costCents) },
        ],
      }}
    />
  )
}

/** Outside the books amounts are whole dollars. */
const wholeCents = (cents: number): string => formatDollars(cents / 100)

const coverSpan = ({ month, months }: NowFigures['cover'][number]): string =>
  months === 12
    ? `Twelve months to ${monthName(month)}`
    : `${monthsWords(months)} to ${monthName(month)}: the books hold no more`
