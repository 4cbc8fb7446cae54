// Reads a form once, checks it by its zod schema, and keeps what was typed: messages come back keyed by input name.
import { randomUUID } from 'node:crypto'
import { HTTPException } from 'hono/http-exception'
import type { z } from 'zod'
import { plainWords } from '#plan/plain-words.ts'
import type { PageContext } from './answer.tsx'
import { farDays } from './far-days.ts'
import { boundFields, type TypedForm, typedForm } from './typed-form.ts'

export type { TypedForm } from './typed-form.ts'

export type FormErrors = Readonly<Record<string, string>>
export type Checked<Value> = { ok: true; value: Value } | { ok: false; errors: FormErrors }

/** The one place where a posted body is read. A body that is no form is refused in words, and so is one beyond all bounds. */
export const readForm = async (c: PageContext): Promise<TypedForm> => ({
  ...(await sentForm(c)),
  today: c.var.web.today(),
})

const sentForm = async (c: PageContext): Promise<TypedForm> => {
  const type = c.req.header('content-type') ?? ''
  const bytes = await c.req.arrayBuffer()
  if (!/^multipart\/form-data/i.test(type)) {
    const text = new TextDecoder().decode(bytes)
    boundFields(countOf(text, '&') + 1)
    return typedForm(new URLSearchParams(text))
  }
  boundFields(countOf(Buffer.from(bytes), '\r\n--'))
  return typedForm(await partsOf(bytes, type))
}

const partsOf = async (bytes: ArrayBuffer, type: string): Promise<FormData> => {
  try {
    return await new Response(bytes, { headers: { 'content-type': type } }).formData()
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
    throw new HTTPException(400, {
      message: 'This form did not arrive whole. Open the page again, then fill it in and send it again.',
    })
  }
}

const countOf = (text: { indexOf(part: string, from: number): number }, part: string): number => {
  let count = 0
  for (let at = text.indexOf(part, 0); at >= 0; at = text.indexOf(part, at + part.length)) count += 1
  return count
}

/** Query parameters read the same way: filters and levers that are sent by GET. */
export const readQuery = (c: PageContext): TypedForm => typedForm(new URL(c.req.url).searchParams)

/** Nothing typed yet: the values a form opens with. */
export const openingForm = (values: Readonly<Record<string, string>>): TypedForm =>
  typedForm(Object.entries(values))

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
  const result = schema.safeParse(typed.nested, { error: formWords })
  const far = farDays(schema, typed)
  if (result.success)
    return Object.keys(far).length > 0 ? { ok: false, errors: far } : { ok: true, value: result.data }
  const errors: Record<string, string> = {}
  for (const issue of result.error.issues) errors[issue.path.join('.')] ??= issue.message
  return { ok: false, errors: { ...far, ...errors } }
}

/** For fields whose schema has no words of its own: a browser sends them always, what is sent by hand may leave them out. */
export const formWords = (issue: z.core.$ZodRawIssue): string => {
  if (issue.code === 'invalid_type') return 'Fill this in'
  return issue.code === 'invalid_value' || issue.code === 'invalid_union'
    ? 'Choose one of the list'
    : plainWords(issue)
}

/** A new id for `<FormId>`: what is booked under it is booked once. */
export const newFormId = (): string => randomUUID()

/** How many rows a form shows: those typed, and at least `least`. */
export const rowCount = (typed: TypedForm, list: string, least: number): number => {
  const rows = typed.nested[list]
  return Math.max(least, Array.isArray(rows) ? rows.length : 0)
}
