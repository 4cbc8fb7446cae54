// The month beside the same month of the year before: a bar a thing, and a post where it stood then.
import { type Month, monthName } from '#calendar/month.ts'
import { centsToDollars } from '#money/cents.ts'
import { formatDollars } from '#money/format.ts'
import type { AgainstLastYear, AgainstRow } from '#today/month/figures.ts'
import { round } from '../charts/chart-frame.tsx'
import { SideWord, sideClass } from '../parts/side.tsx'

export const AgainstYear = ({
  month,
  against,
  waiting,
}: {
  month: Month
  against: AgainstLastYear
  waiting: number
}) => {
  const most = Math.max(...against.rows.flatMap((row) => [row.cents, row.beforeCents ?? 0]), 1)
  return (
    <section class="against" aria-labelledby="against-title">
      <h2 id="against-title">
        {monthName(month)}
        {against.otherMonth === null ? null : <small> against {monthName(against.otherMonth)}</small>}
      </h2>
      <ul>
        {against.rows.map((row) => (
          <li class={sideClass(row.side)}>
            <span>
              <SideWord kind={row.side}>{row.name}</SideWord>
            </span>
            <span class="amount">{wordsOf(row)}</span>
            <Bar row={row} most={most} />
          </li>
        ))}
      </ul>
      <p class="hint">
        {against.otherMonth === null
          ? 'The books do not reach back a year, so there is nothing to compare with yet.'
          : `The mark shows ${monthName(against.otherMonth)}.`}
        {waiting === 0
          ? ''
          : ` ${waiting === 1 ? 'One transaction is' : `${waiting} transactions are`} not sorted yet and not in it.`}
      </p>
      <p class="hint">You can stop at any step. What is done stays done.</p>
    </section>
  )
}

const wordsOf = ({ cents, beforeCents }: AgainstRow): string =>
  `${formatDollars(centsToDollars(cents))}${beforeCents === null ? '' : `, was ${formatDollars(centsToDollars(beforeCents))}`}`

const width = 400

/** The words beside it say the same. */
const Bar = ({ row, most }: { row: AgainstRow; most: number }) => {
  const at = (amount: number) => round((Math.max(0, amount) / most) * (width - 8))
  return (
    <svg viewBox={`0 0 ${width} 16`} aria-hidden="true" focusable="false">
      <line class="against-ground" x1="0" x2={width} y1="8" y2="8" />
      <rect class="side-fill" x="0" y="3" width={at(row.cents)} height="10" />
      {row.beforeCents === null ? null : (
        <rect class="against-post" x={at(row.beforeCents)} y="0" width="7" height="16" />
      )}
    </svg>
  )
}
