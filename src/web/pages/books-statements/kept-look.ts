// What a person chose at a file's own page, kept with the held file: account and columns stand there and in the list when one comes back.
import { openingForm, type TypedForm } from '#web/forms/form.ts'
import type { HeldFile } from './held-files.ts'
import { mappingNames } from './mapping-form.ts'

const columnFields = [...mappingNames, 'proposed'] as const

/** The form of a part of the file as it was left: with this account, and the columns that were chosen. */
export const keptLook = ({ looked }: HeldFile, part: number, account: string): TypedForm =>
  openingForm({ part: String(part), account, ...Object.fromEntries(looked.columns) })

/** Keeps what was sent; an address without choices opens as they were left. */
export const lookKept = (file: HeldFile, typed: TypedForm): TypedForm => {
  const { accounts, columns } = file.looked
  const part = /^\d{1,4}$/.test(typed.value('part')) ? Number.parseInt(typed.value('part'), 10) : 0
  const account = typed.values('account').at(-1)
  if (account !== undefined) accounts.set(part, account)
  if (typed.value('dayOrder') !== '') for (const name of columnFields) columns.set(name, typed.value(name))
  return openingForm({
    part: String(part),
    several: typed.value('several'),
    account: accounts.get(part) ?? '',
    ...Object.fromEntries(columns),
  })
}
