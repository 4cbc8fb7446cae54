// What would explain that books and statement differ, each with the way to put it right.
import type { Child } from 'hono/jsx'
import { dayName } from '#calendar/day.ts'
import { negateCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { ExplainedLine, ExplanationFigures } from '#today/reconcile/figures.ts'

interface ExplainedProps {
  accountId: number
  explanations: readonly ExplanationFigures[]
}

export const Explained = ({ accountId, explanations }: ExplainedProps) =>
  explanations.length === 0 ? null : (
    <div class="explained">
      <p>
        {explanations.length === 1 ? 'This alone would explain it:' : 'Each of these alone would explain it:'}
      </p>
      <ul>
        {explanations.map((one) => (
          <li>
            <Says one={one} accountId={accountId} />
          </li>
        ))}
      </ul>
    </div>
  )

type Told = { one: ExplanationFigures; accountId: number }

const Says = ({ one, accountId }: Told) => <>{words[one.kind]({ one, accountId })}</>

const Missing = ({ one: { lines }, accountId }: Told) => {
  const [first] = lines
  if (lines.length > 1 || !first)
    return (
      <>
        {lines.length} transactions of the bank’s file are not in the books.{' '}
        <a href={`/books/sorting?account=${accountId}`}>Sort them</a>
      </>
    )
  return (
    <>
      <LineWords line={first} /> is in the bank’s file and not in the books.{' '}
      <a href={first.isSetAside ? '/books/sorting/set-aside' : `/books/sorting?account=${accountId}`}>
        {first.isSetAside ? 'Look at what was skipped' : 'Sort it'}
      </a>
    </>
  )
}

const Uncounted = ({ one: { lines } }: Told) => {
  const [first, second] = lines
  return (
    <>
      <LineWords line={first!} />
      {second ? (
        <>
          {' '}
          and <LineWords line={second} /> are
        </>
      ) : (
        ' is'
      )}{' '}
      not checked: check {second ? 'them' : 'it'} if the statement shows {second ? 'them' : 'it'}.
    </>
  )
}

const Mistyped = ({ one: { kind, lines, shouldBeCents } }: Told) => (
  <>
    {kind === 'transposed'
      ? 'Two figures may have changed places in '
      : 'The point before the cents may have slipped in '}
    <LineWords line={lines[0]!} />: correct it if the statement shows {formatCents(shouldBeCents!)}.
  </>
)

const words: Record<ExplanationFigures['kind'], (told: Told) => Child> = {
  missing: Missing,
  uncounted: Uncounted,
  transposed: Mistyped,
  slipped: Mistyped,
  opening: ({ one: { opening }, accountId }) => (
    <>
      By its files the account held {formatCents(opening!.cents)} before its first transaction on{' '}
      {dayName(opening!.day)}, and the books have no opening balance of it.{' '}
      <a href={`/books/reconcile/opening/${accountId}`}>Enter its opening balance</a>
    </>
  ),
  twice: ({ one: { lines } }) => (
    <>
      <LineWords line={lines[1]!} /> looks like <LineWords line={lines[0]!} /> once more: reverse it if it
      happened once.
    </>
  ),
  sign: ({ one: { lines } }) => (
    <>
      <LineWords line={lines[0]!} /> may have gone the other way: correct it if the statement shows{' '}
      {formatCents(negateCents(lines[0]!.amountCents))}.
    </>
  ),
  extra: ({ one: { lines } }) => (
    <>
      <LineWords line={lines[0]!} /> was entered by hand, and no file of the bank has it: it may come later,
      or not at all.
    </>
  ),
}

const LineWords = ({ line }: { line: ExplainedLine }) => {
  const words = `${line.payee || 'A line'}, ${dayName(line.day)}, ${formatCents(line.amountCents)}`
  return line.entryNo === null ? <span>{words}</span> : <a href={`/books/entries/${line.entryNo}`}>{words}</a>
}
