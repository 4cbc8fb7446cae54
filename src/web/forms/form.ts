// Reads a form once, checks it by its zod schema, and keeps what was typed: messages come back keyed by input name.
import { randomUUID } from 'node:crypto'
import type { z } from 'zod'
import type { PageContext } from './answer.tsx'

/** Nested as the input names say: `lines.0.amount` is `{ lines: [{ amount }] }`; a name ending in `[]` collects a list. */
export interface TypedForm {
  nested: Record<string, unknown>
  /** The typed text by input name, to show again. */
  value(name: string): string
  values(name: string): readonly string[]
  file(name: string): File | undefined
}

export type FormErrors = Readonly<Record<string, string>>
export type Checked<Value> = { ok: true; value: Value } | { ok: false; errors: FormErrors }

/** The one place where a posted body is read. */
export const readForm = async (c: PageContext): Promise<TypedForm> => typedForm(await c.req.formData())

/** Query parameters read the same way: filters and levers that are sent by GET. */
export const readQuery = (c: PageContext): TypedForm => {
  const data = new FormData()
  for (const [name, value] of new URL(c.req.url).searchParams) data.append(name, value)
  return typedForm(data)
}

/** Nothing typed yet: the values a form opens with. */
export const openingForm = (values: Readonly<Record<string, string>>): TypedForm => {
  const data = new FormData()
  for (const [name, value] of Object.entries(values)) data.append(name, value)
  return typedForm(data)
}

/** True where a field still holds the text it opened with: then what it was made from stays, with digits that it does not show. */
export const isUntouched = (
  typed: TypedForm,
  opening: Readonly<Record<string, string>>,
  name: string,
): boolean => typed.value(name).trim() === (opening[name] ?? '')

/** A form shown again with what is wrong is 422; shown first it is 200. */
export const statusOf = (errors: FormErrors): 200 | 422 => (Object.keys(errors).length > 0 ? 422 : 200)

export function checkForm<Schema extends z.ZodType>(
  schema: Schema,
  typed: TypedForm,
): Checked<z.output<Schema>> {
  const result = schema.safeParse(typed.nested, { error: plainWords })
  if (result.success) return { ok: true, value: result.data }
  const errors: Record<string, string> = {}
  for (const issue of result.error.issues) errors[issue.path.join('.')] ??= issue.message
  return { ok: false, errors }
}

/** For fields whose schema has no words of its own: a browser sends them always, what is sent by hand may leave them out. */
const plainWords = ({ code }: { code?: string | undefined }): string | undefined =>
  code === 'invalid_type' ? 'Fill this in' : code === 'invalid_value' ? 'Choose one of the list' : undefined

/** A new id for `<FormId>`: what is booked under it is booked once. */
export const newFormId = (): string => randomUUID()

/** How many rows a form shows: those typed, and at least `least`. */
export const rowCount = (typed: TypedForm, list: string, least: number): number => {
  const rows = typed.nested[list]
  return Math.max(least, Array.isArray(rows) ? rows.length : 0)
}

const namePattern = /^[A-Za-z]\w*(\.\w+){0,7}(\[\])?$/
const mostRows = 500

function typedForm(data: FormData): TypedForm {
  const nested: Record<string, unknown> = {}
  const typed = new Map<string, string[]>()
  const files = new Map<string, File>()
  for (const [name, value] of data) {
    if (!namePattern.test(name)) continue
    if (typeof value !== 'string') {
      if (value.size > 0) files.set(name, value)
      continue
    }
    // No keyboard types a NUL, and SQLite takes it for the end of a text.
    const text = value.replaceAll('\0', '')
    typed.set(name, [...(typed.get(name) ?? []), text])
    place(nested, name, text)
  }
  fillGaps(nested)
  return {
    nested,
    value: (name) => typed.get(name)?.at(-1) ?? '',
    values: (name) => typed.get(name) ?? [],
    file: (name) => files.get(name),
  }
}

/** Rows of a list that were left out between others are rows in which nothing was typed. */
function fillGaps(at: unknown): void {
  if (typeof at !== 'object' || at === null) return
  if (Array.isArray(at)) for (const index of at.keys()) if (!(index in at)) at[index] = {}
  for (const child of Object.values(at)) fillGaps(child)
}

function place(root: Record<string, unknown>, name: string, value: string): void {
  const isList = name.endsWith('[]')
  const path = (isList ? name.slice(0, -2) : name).split('.')
  if (path.some((step) => step === '__proto__' || step === 'constructor' || step === 'prototype')) return
  let at: Record<string, unknown> | unknown[] = root
  for (const [index, step] of path.entries()) {
    if (Array.isArray(at) && !(/^\d{1,3}$/.test(step) && Number(step) < mostRows)) return
    const holder = at as Record<string, unknown>
    if (index === path.length - 1) {
      if (isList) holder[step] = [...((holder[step] as string[]) ?? []), value]
      else holder[step] = value
      return
    }
    const next = path[index + 1]!
    const child = Object.hasOwn(holder, step) ? holder[step] : undefined
    if (child === undefined) holder[step] = /^\d+$/.test(next) ? [] : {}
    else if (typeof child !== 'object') return
    at = holder[step] as Record<string, unknown> | unknown[]
  }
}
