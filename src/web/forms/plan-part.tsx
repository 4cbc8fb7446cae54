// A form of one part of the plan, drawn and read by the schema: opened, given or relieved of rows, shown again, saved.
import { drawForm, redrawForm } from '#plan/form/draw.ts'
import type { FormNode, FormPart } from '#plan/form/nodes.ts'
import { valueAt, withValueAt } from '#plan/form/place.ts'
import { pointersOf } from '#plan/form/pointers.ts'
import { readPart } from '#plan/form/read.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import type { Answered, PageContext } from './answer.tsx'
import { type FormErrors, formWords, type TypedForm } from './form.ts'
import { errorsAt, type PlanForm, type PlanIssue, savePlanForm } from './plan-saving.tsx'
import { placeTyped } from './typed-form.ts'

/** The part as it stands in the plan, or a new one as it opens. */
export const openPart = (plan: Plan, part: FormPart, opening?: unknown): FormNode[] =>
  drawForm(part, opening ?? valueAt(plan, part.path), pointersOf(plan))

export interface PartChange {
  part: FormPart
  /** Puts what was read into the plan; left out: in the place of what stood there. */
  put?: (plan: Plan, value: unknown) => Plan
  /** What the form was opened with, in the plan of that time; left out: what stood in the part's place. */
  was?: (opened: Plan) => unknown
  /** Where the part lies in the plan that `put` makes, if not where it was. */
  movedTo?: (changed: Plan) => FormPart['path']
  note: string | ((value: unknown) => string)
  /** Input names and texts that the pressed button `take` types into the form. */
  types?: (nodes: FormNode[], taken: string) => readonly (readonly [name: string, text: string])[]
}

/** Shows the form again by `again`: with a row more or less, or with what is wrong. */
export function savePart(
  c: PageContext,
  form: PlanForm,
  change: PartChange,
  again: (nodes: FormNode[], errors: FormErrors, read: () => unknown) => Answered,
): Answered {
  const { typed, current, opened } = form
  const { part, note, put = (plan: Plan, value: unknown) => withValueAt(plan, part.path, value) } = change
  const typedPart = part.name === '' ? typed.nested : typed.nested[part.name]
  const shown = new Set(typed.values('shown[]'))
  const drawn = () => redrawForm(part, typedPart, pointersOf(current.plan))
  const was = change.was ? change.was(opened) : valueAt(opened, part.path)
  const reading = () => readPart(part, was, typedPart, shown)
  const show = (errors: FormErrors) => again(drawn(), errors, () => reading().value)
  const taken = typed.value('take')
  if (taken !== '') {
    for (const [name, text] of change.types?.(drawn(), taken) ?? []) placeTyped(typed.nested, name, text)
    return show({})
  }
  if (typed.value('show') !== '' || changeRows(typed, shown)) return show({})
  const read = reading()
  const changed = put(current.plan, read.value)
  const own = part.path.join('.')
  const lies = change.movedTo?.(changed).join('.') ?? own
  const nameOf = (path: string) =>
    read.nameOf(lies !== own && `${path}.`.startsWith(`${lies}.`) ? own + path.slice(lies.length) : path)
  const wrong = (issues: readonly PlanIssue[]) => show({ ...errorsAt(issues, nameOf), ...read.errors })
  if (Object.keys(read.errors).length === 0)
    return savePlanForm(c, form, { changed, note: typeof note === 'string' ? note : note(read.value) }, wrong)
  const checked = planSchema.safeParse(changed, { error: formWords })
  return wrong(checked.success ? [] : (checked.error.issues as readonly PlanIssue[]))
}

/** Adds an empty row to a list that the form shows, or takes one out, in what was typed. True when a row button was pressed. */
const changeRows = (typed: TypedForm, shown: ReadonlySet<string>): boolean => {
  const add = typed.value('add')
  const remove = typed.value('remove')
  if (add === '' && remove === '') return false
  const list = add || remove.replace(/\.\d+$/, '')
  if (!shown.has(list)) return true
  const rows = rowsAt(typed.nested, list.split('.'))
  if (add !== '') rows?.push({})
  else rows?.splice(Number(/\d+$/.exec(remove)?.[0] ?? rows.length), 1)
  return true
}

/** The typed rows of a list, made where none were typed; null where something else was. */
const rowsAt = (nested: Record<string, unknown>, path: readonly string[]): unknown[] | null => {
  let at: unknown = nested
  for (const [depth, step] of path.entries()) {
    const holder = at as Record<string, unknown>
    if (!Object.hasOwn(holder, step)) holder[step] = depth === path.length - 1 ? [] : {}
    at = holder[step]
    if (typeof at !== 'object' || at === null) return null
  }
  return Array.isArray(at) ? at : null
}
