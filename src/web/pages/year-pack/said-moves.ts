// Forms that say as what a move of money counts and for which year: payments of tax and contributions are read, shown and kept alike.
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import type { Act } from '#db/once.ts'
import type { Outcome } from '#ledger/problem.ts'
import { actOf } from '#web/forms/act.ts'
import { moveOn, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { openingForm, type TypedForm } from '#web/forms/form.ts'
import { overClosedYears } from '#web/forms/pack/closed-years.ts'
import { isOutdated, showOverTheirs, versionOf } from '#web/forms/two-versions.tsx'

interface Row {
  move: { postingId: number; day: Day }
  readings: readonly [{ use: string; taxYear: number }, ...{ use: string; taxYear: number }[]]
}

/** What moved in the year, counts for it, or may. */
export const rowsOfYear = <One extends Row>(rows: readonly One[], year: number): One[] =>
  rows.filter(
    ({ move, readings }) => yearIn(move.day) === year || readings.some(({ taxYear }) => taxYear === year),
  )

/** The form as it opens: each move by the reading it has now. `key` names its list, `more` its fields beside use and year. */
export const movesForm = <One extends Row>(
  key: string,
  rows: readonly One[],
  more: (row: One) => Record<string, string> = () => ({}),
): TypedForm => {
  const shown = Object.fromEntries(
    rows.flatMap((row) => {
      const [{ use, taxYear }] = row.readings
      const fields = Object.entries({ use, year: String(taxYear), ...more(row) })
      return fields.map(([name, value]) => [`${key}.m${row.move.postingId}.${name}`, value])
    }),
  )
  return openingForm({ ...shown, basedOn: versionOf(shown) })
}

/** What was typed of each move, by its posting. */
export const saidOfMoves = <Typed, Reading>(
  typed: Readonly<Record<string, Typed>>,
  readingOf: (one: Typed) => Reading,
): { postingId: number; reading: Reading }[] =>
  Object.entries(typed).map(([key, one]) => ({ postingId: Number(key.slice(1)), reading: readingOf(one) }))

interface Keeping<Result> {
  formId: string
  /** The page's address without the year. */
  at: string
  /** What is said, like: what contributions count as. */
  what: string
  /** Said once it is kept. */
  says: string
  now: TypedForm
  say: (act: Act) => Outcome<Result>
}

/** Over a version that somebody else saved since, both are shown; over a closed year it is asked first. */
export const keepMoves = <Result>(c: PageContext, typed: TypedForm, keeping: Keeping<Result>) => {
  const { formId, at, what, says, now, say } = keeping
  const there = `${at}?year=${yearAskedFor(c)}`
  const kept = () => moveOn(c, there, says)
  if (isOutdated(c, typed, now))
    return showOverTheirs(c, { what, typed, now, subject: 'household', theirs: there, alike: kept })
  const act = actOf(c, formId)
  const saved = overClosedYears(c, typed, act, () => say(act))
  return saved.ok ? kept() : saved
}

/** A row a move for figures and tables. */
export const flatMoves = <One extends Row>(
  rows: readonly One[],
): (One['move'] & One['readings'][number] & { undecided: boolean })[] =>
  rows.map(({ move, readings }) => ({ ...move, ...readings[0], undecided: readings.length > 1 }))
