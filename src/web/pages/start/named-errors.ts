// Errors of the form for people: each says whose field it is, so that the list on top can be read by itself.
import type { Checked, FormErrors, TypedForm } from '#web/forms/form.ts'

/** "Orrin: enter the date of birth". `typed` has the rows that were checked. */
export const withNames = <Value>(checked: Checked<Value>, typed: TypedForm): Checked<Value> =>
  checked.ok ? checked : { ok: false, errors: named(checked.errors, typed) }

const named = (errors: FormErrors, typed: TypedForm): FormErrors =>
  Object.fromEntries(Object.entries(errors).map(([path, message]) => [path, ofPerson(path, message, typed)]))

const ofPerson = (path: string, message: string, { nested }: TypedForm): string => {
  const found = /^(people|children|relatives)\.(\d+)\.(name|born|hours|planToAge|ownMoney)$/.exec(path)
  if (!found) return message
  const [, list, index, field] = found
  const rows = nested[list!]
  const row = Array.isArray(rows) ? (rows[Number(index)] as Record<string, string> | undefined) : undefined
  const who = row?.name?.trim() || unnamed(list!, Number(index))
  if (field === 'born' && (row?.born ?? '').trim() === '') return `${who}: enter the date of birth`
  return `${who}: ${message.charAt(0).toLowerCase()}${message.slice(1)}`
}

const unnamed = (list: string, index: number): string => {
  const order = ['First', 'Second', 'Third'][index] ?? `${index + 1}th`
  return list === 'people' ? `${order} of you` : `${order} ${list === 'children' ? 'child' : 'relative'}`
}
