// A closed year stands: what would change its pack says so first, and once it is meant, keeps an amended copy with the change.
import { type Act, atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type KeptPack, keepPack, keptPacksOf, keptYears } from '#db/year/kept-packs.ts'
import { type FieldProblem, type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import { keptUntilChange } from '#today/kept.ts'
import type { PaidUntil } from '#today/tax/paid-for.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import type { TypedForm } from '#web/forms/form.ts'
import { dayOfInstant } from '#web/server/clock.ts'
import {
  type KeptSheets,
  newSheets,
  type PackDifference,
  packDifferences,
  sheetsToKeep,
} from './kept-sheets.ts'

/** Name of the box that a form shows once it was told that it changes a closed year. */
export const overClosedField = 'overClosed'

export interface SinceClosed {
  differences: readonly PackDifference[]
  newSheets: readonly string[]
}

/** What a closed year's newest copy and the books of today tell differently; null for a year that is not closed. */
export const sinceClosed = (c: PageContext, year: number): SinceClosed | null => {
  const { books } = c.var.web
  const [newest] = keptPacksOf(books, year)
  if (!newest) return null
  // Paid after the closing it changes nothing of what was handed over; paid before it and booked late, it does.
  const today = c.var.web.today()
  return keptUntilChange(books, `since copy ${newest.copyNo} of ${year}`, () => {
    const then = JSON.parse(newest.sheets) as KeptSheets
    const now = sheetsToKeep(books, year, today, paidUntil(newest))
    return { differences: packDifferences(then, now), newSheets: newSheets(then, now) }
  })
}

/** The payments of its tax that a copy knows. */
export const paidUntil = ({ keptAt }: Pick<KeptPack, 'keptAt'>): Required<PaidUntil> => ({
  day: dayOfInstant(keptAt),
  bookedBy: keptAt,
})

/**
 * Carries out what a form asks for. Where that changes the pack of a closed year, nothing is kept until the box of the form is ticked;
 * then the amended copy is kept in the same transaction.
 */
export const overClosedYears = <Done extends { ok: boolean }>(
  c: PageContext,
  typed: TypedForm,
  act: Act,
  work: () => Done,
): Done | Refusal => {
  const { books } = c.var.web
  const years = keptYears(books)
  if (years.length === 0) return work()
  return atomically(books, (): Done | Refusal => {
    const before = new Map(years.map((year) => [year, JSON.stringify(sinceClosed(c, year))]))
    const done = work()
    if (!done.ok) return done
    const changed = years.flatMap((year) => {
      const since = sinceClosed(c, year)
      return since === null || JSON.stringify(since) === before.get(year) ? [] : [{ year, ...since }]
    })
    if (changed.length === 0) return done
    if (typed.value(overClosedField) !== 'yes')
      return refuse({ path: overClosedField, message: changed.map(inWords).join(' ') })
    for (const { year } of changed) {
      const kept = keepAmended(c, books, { ...act, formId: `${act.formId}.pack.${year}` }, year)
      if (!kept.ok) return kept
    }
    return done
  })
}

/** The same for a setting, which is no act of its own form id. */
export const settingOverClosed = (
  c: PageContext,
  typed: TypedForm,
  act: Act,
  write: () => { ok: true } | Refusal,
): Outcome<null> =>
  overClosedYears(c, typed, act, () => {
    const saved = write()
    return saved.ok ? { ok: true, result: null, repeated: false } : saved
  })

/** Whether a form was only told that it changes a closed year. */
export const asksOverClosed = (done: { ok: boolean; problems?: FieldProblem[] }): done is Refusal =>
  !done.ok && (done.problems ?? []).some(({ path }) => path === overClosedField)

const keepAmended = (c: PageContext, books: Books, act: Act, year: number) =>
  keepPack(books, act, {
    year,
    sheets: JSON.stringify(sheetsToKeep(books, year, c.var.web.today())),
    note: 'Something that the year rests on was changed',
    over: keptPacksOf(books, year)[0]!.copyNo,
  })

const inWords = ({ year, differences, newSheets }: SinceClosed & { year: number }): string => {
  const shown = differences
    .slice(0, 3)
    .map(
      ({ sheet, line, shownBefore, shownNow }) =>
        `${sheet}, ${line}: ${shownBefore || 'nothing'} becomes ${shownNow || 'nothing'}`,
    )
  const more = differences.length > 3 ? ` and ${differences.length - 3} more` : ''
  if (differences.length === 0 && newSheets.length > 0)
    return `${year} is closed with its pack, and its copy lacks ${newSheets.join('; ')}.`
  return differences.length === 0
    ? `${year} is closed with its pack. This changes it back to how it was kept.`
    : `${year} is closed with its pack, and this changes it. ${shown.join('; ')}${more}.`
}
