// The plan against the books: variance by line, savings planned and real, what the pace suggests, and what months left was said to be.

import { monthNameShort, nameOfMonth, parseMonth } from '#calendar/month.ts'
import { fromTo, longSpell, monthsWords } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { Variance } from '#runway/against-books/variance.ts'
import { apartFromLiving } from '#runway/against-books/variance-lines.ts'
import type { OneSided } from '#today/one-sided/figures.ts'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { FormId, Hidden, PlanFormIds } from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

export interface ActualFigures {
  planId: string
  revisionNo: number
  monthsLeft: number | null
  monthsLeftWithoutDraws: number | null
  fromBooks: boolean
  variance: Variance | null
  suggestions: readonly { id: string; says: string; monthsLeft: number | null }[]
  oneSided: readonly {
    id: string
    says: string
    button: string | null
    otherButton: string | null
    more: OneSided['more']
  }[]
  savings: readonly { month: string; planned: number | null; actual: number | null }[]
  history: readonly {
    month: string
    monthsLeft: number | null
    monthsLeftWithoutDraws: number | null
    carryMonth: string | null
    spendable: number | null
    revisionNo: number | null
  }[]
}

const left = (months: number | null): string => (months === null ? 'to the end' : String(months))

export const ActualPage = ({ figures, formId }: { figures: ActualFigures; formId: string }) => (
  <>
    <PageTitle help="actual" purpose="Plan, actual, and how past forecasts turned out.">
      Plan against the books
    </PageTitle>
    {figures.variance === null ? null : <p class="answer">{changeInWords(figures.variance)}</p>}
    <SavingsChart figures={figures} />
    <Figures>
      <Figure
        label="Months left from today"
        value={left(figures.monthsLeft)}
        note={
          figures.fromBooks
            ? 'the books’ balances in place of the plan’s past'
            : 'from the plan only: it starts this month or later'
        }
      />
      <Figure label="Without draws" value={left(figures.monthsLeftWithoutDraws)} note="by the same plan" />
    </Figures>
    {figures.variance === null ? (
      <EmptyState href="/books" action="Go to Books">
        The books hold no whole month yet to compare with.
      </EmptyState>
    ) : (
      <VarianceTable variance={figures.variance} />
    )}
    {figures.oneSided.length > 0 ? <KnownToOne figures={figures} formId={formId} /> : null}
    {figures.suggestions.length > 0 ? <Suggestions figures={figures} formId={formId} /> : null}
    <History figures={figures} formId={formId} />
  </>
)

const monthsOf = ({ from, to }: Variance['actual']): string => fromTo(nameOfMonth(from), nameOfMonth(to))

/** What savings did in the months compared, and how that stands to the plan. */
export function changeInWords({ change, actual }: Pick<Variance, 'change' | 'actual'>): string {
  const went = change.actual < 0 ? 'fell' : 'grew'
  const against =
    Math.abs(change.difference) < 1
      ? 'as planned'
      : `${formatDollars(Math.abs(change.difference))} ${change.isWorse ? 'worse' : 'better'} than planned`
  return `Savings ${went} by ${formatDollars(Math.abs(change.actual))}, ${against}, ${monthsOf(actual)}.`
}

const VarianceTable = ({ variance }: { variance: Variance }) => (
  <section aria-labelledby="variance-title">
    <h2 id="variance-title">Line by line</h2>
    <details>
      <summary>What is compared with what</summary>
      <p class="hint">
        {variance.sameMonths
          ? `What was expected and what the books hold, ${monthsOf(variance.actual)}. A month is compared with the forecast kept when the one before it was closed, else with the plan as saved.`
          : `The plan begins later than the books end: its first months (${monthsOf(variance.planned)}) against the books’ last (${monthsOf(variance.actual)}), in the prices of those.`}
      </p>
      <p class="hint">
        Costs lower savings, the other lines raise them; together they are the change in cash and taxable
        accounts, before tax that is owed.
      </p>
      <p class="hint">{livingHolds(variance)}</p>
    </details>
    <DataTable
      caption="Planned and actual"
      hideCaption
      rows={[...variance.lines, variance.change]}
      csv="/runway/actual.csv"
      stack
      columns={[
        {
          title: 'Line',
          isHeader: true,
          cell: (line) => (line === variance.change ? <strong>{line.name}</strong> : line.name),
        },
        { title: 'Planned', isNumber: true, cell: (line) => formatDollars(line.planned) },
        { title: 'Actual', isNumber: true, cell: (line) => formatDollars(line.actual) },
        { title: 'Difference', isNumber: true, cell: (line) => formatDollars(line.difference) },
        {
          title: 'For savings',
          cell: (line) => (Math.abs(line.difference) < 1 ? 'as planned' : line.isWorse ? 'worse' : 'better'),
        },
      ]}
    />
  </section>
)

/** What counts as living costs and what has a row of its own, by the rows that are shown; Now shows them as one sum. */
const livingHolds = ({ lines, careInLiving }: Variance): string => {
  const rows = lines.filter(({ name }) => apartFromLiving.includes(name)).map(({ name }) => name)
  const care =
    careInLiving !== 0 ? ' The plan has no care of its own: what was paid for care is in them.' : ''
  const apart = allOf(rows.map((name) => name.toLowerCase()))
  return `Living costs leave out what has a row of its own: ${apart}.${care} Household spending on Now is living costs together with care, premiums, taxes, loan payments and what was paid on cards.`
}

/** What is sent where the other of two answers is pressed. */
export const otherAnswer = (id: string): string => `${id}-other`

const KnownToOne = ({ figures, formId }: { figures: ActualFigures; formId: string }) => (
  <section aria-labelledby="one-sided-title">
    <h2 id="one-sided-title">In the books or in the plan alone</h2>
    <ul class="due">
      {figures.oneSided.map(({ id, says, button, otherButton, more }) => (
        <li>
          <span>
            {says}. {more ? <a href={more.href}>{more.text}</a> : null}
          </span>
          {[
            { what: id, button },
            { what: otherAnswer(id), button: otherButton },
          ].map((one) =>
            one.button ? (
              <form method="post" action="/runway/actual/take" class="no-print">
                <PlanFormIds formId={formId} planId={figures.planId} basedOn={figures.revisionNo} />
                <Hidden name="what" value={one.what} />
                <Button quiet small label={`${one.button}: ${says}`}>
                  {one.button}
                </Button>
              </form>
            ) : null,
          )}
        </li>
      ))}
    </ul>
  </section>
)

const Suggestions = ({ figures, formId }: { figures: ActualFigures; formId: string }) => (
  <section aria-labelledby="suggestions-title">
    <h2 id="suggestions-title">What your actual spending suggests</h2>
    {figures.suggestions.map((one) => (
      <form method="post" action="/runway/actual/take" class="keep no-print">
        <PlanFormIds formId={formId} planId={figures.planId} basedOn={figures.revisionNo} />
        <Hidden name="what" value={one.id} />
        <p>
          {one.says}.{' '}
          {one.monthsLeft === null
            ? 'Savings would then last to the end of the plan.'
            : `Savings would then last ${longSpell(one.monthsLeft)}.`}
        </p>
        <Button quiet small>
          Put it in the plan
        </Button>
      </form>
    ))}
  </section>
)

const SavingsChart = ({ figures }: { figures: ActualFigures }) => {
  const x = (month: string): number => parseMonth(month)!
  const actual = figures.savings.flatMap((one) =>
    one.actual === null ? [] : [{ x: x(one.month), y: one.actual }],
  )
  const planned = figures.savings.flatMap((one) =>
    one.planned === null ? [] : [{ x: x(one.month), y: one.planned }],
  )
  if (actual.length + planned.length < 2) return null
  return (
    <LineChart
      id="planned-and-actual"
      title="Spendable savings, planned and actual"
      summary={`The books hold ${actual.length === 0 ? 'no whole month yet' : monthsWords(actual.length)}; the plan is shown for ${monthsWords(planned.length)}.`}
      x="month"
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={[
        { name: 'In the books', tone: 1, points: actual } as const,
        { name: 'By the plan', tone: 2, points: planned } as const,
      ].filter(({ points }) => points.length > 0)}
      tableEvery={3}
    />
  )
}

const History = ({ figures, formId }: { figures: ActualFigures; formId: string }) => (
  <section aria-labelledby="history-title">
    <h2 id="history-title">Past forecasts of months left</h2>
    {figures.history.length === 0 ? (
      <p class="hint">
        Nothing is written down yet. A forecast is kept whenever the household’s month is closed.
      </p>
    ) : (
      <DataTable
        caption="Month by month"
        hideCaption
        rows={figures.history}
        csv="/runway/actual.csv?table=history"
        columns={[
          { title: 'As it began', isHeader: true, cell: (one) => monthNameShort(parseMonth(one.month)!) },
          { title: 'Months left', isNumber: true, cell: (one) => left(one.monthsLeft) },
          { title: 'Without draws', isNumber: true, cell: (one) => left(one.monthsLeftWithoutDraws) },
          {
            title: 'Carry month',
            isNumber: true,
            cell: (one) => (one.carryMonth === null ? 'none' : nameOfMonth(one.carryMonth)),
          },
          {
            title: 'Spendable then',
            isNumber: true,
            cell: (one) => (one.spendable === null ? '' : formatDollars(one.spendable)),
          },
          {
            title: 'Revision',
            isNumber: true,
            cell: (one) => (one.revisionNo === null ? '' : String(one.revisionNo)),
          },
        ]}
      />
    )}
    <form method="post" action="/runway/actual/say" class="no-print">
      <FormId value={formId} />
      <Button quiet small>
        Save today’s forecast
      </Button>
    </form>
  </section>
)
