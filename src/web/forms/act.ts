// Who does what when: the form's id, the edge's clock, and the browser it came from.
import type { Act } from '#db/once.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { browserOf } from '#web/server/browser.ts'
import type { PageContext } from './answer.tsx'
import { type FormErrors, newFormId, type TypedForm } from './form.ts'

export const actOf = (c: PageContext, formId: string): Act => ({
  formId,
  at: c.var.web.clock.now().toISOString(),
  actor: browserOf(c),
})

/** A form without fields to show again, a single button: sent by hand without its id, it is one of its own. */
export const actOfForm = (c: PageContext, typed: TypedForm): Act =>
  actOf(c, typed.value('formId') || newFormId())

/** What a store refused, by input name: stores name their fields as the forms do. */
export const errorsOf = (problems: readonly FieldProblem[]): FormErrors => {
  const errors: Record<string, string> = {}
  for (const problem of problems) errors[problem.path] ??= problem.message
  return errors
}
