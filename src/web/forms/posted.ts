// The run of a posted form: read, check, book, answer. What is wrong comes back in the form (422), with what was typed.
import type { Refusal } from '#ledger/problem.ts'
import { errorsOf } from './act.ts'
import type { Answered, PageContext } from './answer.tsx'
import { type Checked, type FormErrors, readForm, type TypedForm } from './form.ts'

export interface PostedForm<Value> {
  check(typed: TypedForm): Checked<Value>
  /** The form again, with what is wrong beside its fields. */
  again(typed: TypedForm, errors: FormErrors): Answered
  /** Books what was asked for and answers; a refusal of the store goes back into the form. */
  keep(value: Value, typed: TypedForm): Response | Refusal | Promise<Response | Refusal>
}

/** For every form but those that change the plan (`postPlan`). A button `more` asks for more rows and for nothing else. */
export async function posted<Value>(c: PageContext, form: PostedForm<Value>): Promise<Response> {
  const typed = await readForm(c)
  if (typed.value('more')) return form.again(typed, {})
  const checked = form.check(typed)
  if (!checked.ok) return form.again(typed, checked.errors)
  const kept = await form.keep(checked.value, typed)
  return kept instanceof Response ? kept : form.again(typed, errorsOf(kept.problems))
}
