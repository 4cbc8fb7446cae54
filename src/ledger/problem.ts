// A mistake a form can show: which field, and a sentence that says what to do.
export interface FieldProblem {
  /** Dotted path of the form field, like `lines.0.amount`; empty for the form as a whole. */
  path: string
  message: string
  /** Where what stands in the way is mended. */
  way?: { href: string; says: string }
}

/** Words of every message about a closed month: pages put a link beside it. */
export const reopenFirst = 'reopen the month first'
const laterDayOr = 'Choose a later day, or '
export const laterDayOrReopen = `${laterDayOr}${reopenFirst}`
/** The same where there is no day to choose, as for a press that undoes. */
export const withoutDay = (problem: FieldProblem): FieldProblem => ({
  ...problem,
  message: problem.message.replace(
    laterDayOrReopen,
    `${reopenFirst[0]!.toUpperCase()}${reopenFirst.slice(1)}`,
  ),
})
export const asksToReopen = (message: string): boolean => message.toLowerCase().includes(reopenFirst)

/** What a write comes back with. `repeated`: the same form was carried out before, nothing was added. */
export type Outcome<Result> = { ok: true; result: Result; repeated: boolean } | Refusal

/** `refused`: mend the fields and send again. `conflict`: another body was carried out under this form's id, or someone was quicker. */
export interface Refusal {
  ok: false
  kind: 'refused' | 'conflict'
  problems: FieldProblem[]
}

export const refuse = (...problems: FieldProblem[]): Refusal => ({ ok: false, kind: 'refused', problems })

/** What a store says when the version it was given is no longer the newest; pages show both then. */
export const savedMeanwhile = (): Refusal =>
  conflict('Someone else saved this since you opened it. Open it again, then enter your change.')

export const conflict = (message: string): Refusal => ({
  ok: false,
  kind: 'conflict',
  problems: [{ path: '', message }],
})
