// The class of heads as the tables keep it: young that are kept to breed are young with a mark.
import { NotAsSaved } from '#db/file-problem.ts'
import type { HeadClass } from '#farm/notebook/kinds.ts'

type StoredClass = Exclude<HeadClass, 'kept'>

/** A row of the tables with its mark told as a class of its own. */
export type WithClass<Row extends { headClass: StoredClass | null; keptToBreed: boolean }> = Omit<
  Row,
  'headClass' | 'keptToBreed'
> & { headClass: HeadClass | Extract<Row['headClass'], null> }

export const withClass = <Row extends { headClass: StoredClass | null; keptToBreed: boolean }>({
  headClass,
  keptToBreed,
  ...row
}: Row): WithClass<Row> => {
  // The tables cannot check a column that was added to them against another one.
  if (keptToBreed && headClass !== 'young') throw new NotAsSaved('A note of animals kept to breed')
  return { ...row, headClass: keptToBreed ? 'kept' : headClass } as WithClass<Row>
}

export function asStored(headClass: HeadClass): { headClass: StoredClass; keptToBreed: boolean }
export function asStored(headClass: HeadClass | null): { headClass: StoredClass | null; keptToBreed: boolean }
export function asStored(headClass: HeadClass | null) {
  return headClass === 'kept' ? { headClass: 'young', keptToBreed: true } : { headClass, keptToBreed: false }
}
