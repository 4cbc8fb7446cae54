// Batches as choices beside an account: those under way, and those that a form names already though they ended.
import { listBatches } from '#db/notebook/batch-store.ts'
import type { Books } from '#db/open.ts'
import type { Option } from '#views/parts/field.tsx'

export const findBatches = (books: Books, named: readonly string[] = []): Option[] =>
  listBatches(books)
    .filter(({ id, endedDay }) => endedDay === null || named.includes(id))
    .map(({ id, name }) => ({ value: id, label: name }))
