// What a line of an entry can be for: the farm's enterprises and herds, named in the plan, kept in the books by their tag.
import type { Books } from '#db/open.ts'
import { notebookNames } from '#today/farm/notebook-names.ts'
import type { Option } from '#views/parts/field.tsx'

/** A herd whose tag is that of an enterprise is the same line of the books, under the enterprise's name. */
export const findEnterprises = (books: Books): Option[] => {
  const { enterprises, herds } = notebookNames(books)
  const named = enterprises.map(({ id, name }) => ({ value: id, label: name }))
  const flocks = herds.map(({ tag, name }) => ({ value: tag, label: name }))
  return [...named, ...flocks.filter((herd, at) => isFirst(herd.value, [...named, ...flocks.slice(0, at)]))]
}

const isFirst = (value: string, before: readonly Option[]): boolean =>
  !before.some((option) => option.value === value)
