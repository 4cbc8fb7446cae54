// Since last month: what the month that is over did to savings and to months left, thing by thing.

import { addMonths, monthName, monthNameShort } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import type { MonthReview as Review, ReviewPart } from '#today/month-review/figures.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { refreshes } from '../parts/htmx.ts'
import { DataTable } from '../parts/table.tsx'

interface SinceProps {
  figures: Pick<NowFigures, 'review' | 'reviewWaits'>
  /** The page it stands on, with its query, asked again for it. */
  page?: string
}

/** Comes by itself after the page, or by its link when there is no script. */
export const SinceLastMonth = ({ figures, page = '/now' }: SinceProps) => {
  if (figures.reviewWaits) {
    const withReview = `${page}${page.includes('?') ? '&' : '?'}review=yes`
    return (
      <div id="since" {...refreshes('since', { get: withReview }, 'load')}>
        <p class="hint">
          <a href={`${withReview}#since`}>Show what last month changed</a>
        </p>
      </div>
    )
  }
  return <div id="since">{figures.review ? <MonthReview review={figures.review} /> : null}</div>
}

const MonthReview = ({ review }: { review: Review }) => (
  <section aria-labelledby="since-title">
    <h2 id="since-title">Since last month</h2>
    {review.status === 'none' ? <p class="hint">{review.says}</p> : <Read review={review} />}
  </section>
)

type Told = Extract<Review, { status: 'read' }>

const Read = ({ review }: { review: Told }) => (
  <>
    <p>{leftWords(review)}</p>
    <p class="hint">{sidesWords(review)}</p>
    {review.standsIn === null ? null : <p class="hint">{review.standsIn}</p>}
    <DataTable
      caption={`What ${monthName(review.month)} changed`}
      hideCaption
      stack
      csv="/now.csv?table=review"
      rows={shownOf(review.parts)}
      columns={[
        {
          title: 'What',
          isHeader: true,
          cell: (part) => (part.kind === 'plan' ? <a href="/runway/revisions">{part.name}</a> : part.name),
        },
        { title: 'Months left', isNumber: true, cell: partWords },
        { title: 'Savings', isNumber: true, cell: (part) => change(part.savings) },
        {
          title: `Savings in ${monthNameShort(addMonths(review.month, 12))}`,
          isNumber: true,
          cell: (part) => change(part.yearAhead),
        },
      ]}
      foot={[
        'Total',
        `${ofMonths(review.monthsLeft.before)} → ${ofMonths(review.monthsLeft.now)}`,
        change(review.savings.now - review.savings.before),
        change(review.yearAhead.now - review.yearAhead.before),
      ]}
    />
    <p class="hint">
      The plan of then, started from the books of then, with each thing put in place of what was expected.
      Amounts are dollars of their month. Everything else: what starting again from the books changes by
      itself.
    </p>
  </>
)

/** What did nothing is left out; what is not told apart stands last. */
const shownOf = (parts: readonly ReviewPart[]): ReviewPart[] =>
  [...parts.filter((part) => part.kind !== 'rest'), ...parts.filter((part) => part.kind === 'rest')].filter(
    (part) =>
      part.kind === 'time' ||
      Math.abs(part.savings) >= 0.5 ||
      Math.abs(part.yearAhead) >= 0.5 ||
      part.months !== 0,
  )

const ofMonths = (left: number | null): string => (left === null ? 'to the end' : String(left))

const leftWords = ({ month, monthsLeft: { before, now } }: Told): string => {
  const was =
    before === null
      ? 'savings were to last to the end of the plan'
      : `${monthsWords(before)} ${before === 1 ? 'was' : 'were'} left`
  const is =
    now === null
      ? 'they last to the end of the plan'
      : before === null
        ? `${monthsWords(now)} ${now === 1 ? 'is' : 'are'} left`
        : `${now} ${now === 1 ? 'is' : 'are'} left`
  return `As ${monthName(month)} began, ${was}; now ${is}.`
}

const sidesWords = ({ month, savings, spending, things, inFarm }: Told): string => {
  const off = savings.now - savings.expected
  const against =
    Math.abs(off) < 0.5
      ? 'as expected'
      : `${formatDollars(Math.abs(off))} ${off > 0 ? 'more' : 'less'} than expected`
  const apart =
    Math.abs(things.planned) + Math.abs(things.actual) < 0.5
      ? ''
      : ` One-off items and lasting things: ${formatDollars(things.actual)} of ${formatDollars(things.planned)} planned.`
  const farm =
    inFarm === null
      ? ''
      : inFarm.now < 0
        ? ` The farm has paid the house ${formatDollars(-inFarm.now)} more than it got.`
        : ` House money in the farm: ${formatDollars(inFarm.before)} then, ${formatDollars(inFarm.now)} now.`
  return `Savings at the end of ${monthName(month)}: ${formatDollars(savings.now)}, ${against}. Household spending: ${formatDollars(spending.actual)} of ${formatDollars(spending.planned)} planned.${apart}${farm}`
}

const change = (dollars: number): string =>
  dollars >= 0.5 ? `+${formatDollars(dollars)}` : formatDollars(dollars)

const partWords = ({ months, monthsLeft }: ReviewPart): string => {
  if (months === null) return monthsLeft === null ? 'to the end' : `down to ${monthsLeft}`
  return months > 0 ? `+${months}` : months < 0 ? `−${-months}` : '0'
}
