// A batch that ends: what became of those of which no note tells, so that none of it vanishes.
import type { Day } from '#calendar/day.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type BatchNoted, exact, leastSizeOfBatch } from '#farm/notebook/batch-left.ts'
import { isCountedByHead } from '#farm/notebook/whole-heads.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { writtenBy } from './note-rows.ts'
import { type BatchDraft, batchMarks } from './schema-batches.ts'
import { goodsNotes } from './schema-notes.ts'

/** What became of those of an ended batch of which no note tells; `kept` is all that stay on the farm. */
export interface BatchRest {
  sold: number
  lost: number
  kitchen: number
  kept: number
}

export const noRest: BatchRest = { sold: 0, lost: 0, kitchen: 0, kept: 0 }

/** Nothing of a batch vanishes with its end: what no note tells is told as it ends. */
export const restProblems = (
  noted: readonly BatchNoted[],
  draft: BatchDraft,
  rest: BatchRest,
): FieldProblem[] => {
  const told = sumOf(Object.values(rest))
  if (draft.endedDay === null)
    return told === 0
      ? []
      : [{ path: 'endedDay', message: 'Choose the day it ended, or leave what became of the rest empty' }]
  const halves = headProblems(draft.unit, rest)
  if (halves.length > 0) return halves
  const left = exact(draft.size - leastSizeOfBatch(noted))
  if (told === left) return []
  const of = `${left} of ${draft.size} ${draft.unit}`
  const how = 'Say how many of them were sold, lost, used at home and kept'
  return [
    {
      path: 'restSold',
      message:
        told === 0
          ? `No note says what became of ${of}. ${how}`
          : `No note says what became of ${of}, and these make ${told}. ${how}`,
    },
  ]
}

const restFields = { sold: 'restSold', lost: 'restLost', kitchen: 'restKitchen', kept: 'kept' } as const

const headProblems = (unit: string, rest: BatchRest): FieldProblem[] =>
  isCountedByHead(unit)
    ? (Object.keys(restFields) as (keyof BatchRest)[])
        .filter((name) => !Number.isInteger(rest[name]))
        .map((name) => ({ path: restFields[name], message: wholeOnly(unit) }))
    : []

export const wholeOnly = (unit: string): string => `Enter a whole number of ${unit}, like 3`

const sumOf = (counts: readonly number[]): number => exact(counts.reduce((a, b) => a + b, 0))

/** As notes of the day it ended: sold and lost beside the other marks, the house's among the goods that wait for their price. */
export const writeRest = (
  books: Books,
  act: Act,
  batchId: string,
  { enterpriseId, name, unit, endedDay }: BatchDraft & { endedDay: Day },
  rest: BatchRest,
): void => {
  for (const kind of ['sold', 'lost'] as const)
    if (rest[kind] > 0)
      books.db
        .insert(batchMarks)
        .values({
          id: `${act.formId}-${kind}`,
          batchId,
          day: endedDay,
          kind,
          quantity: rest[kind],
          note: 'Entered as the batch ended',
          ...writtenBy(act),
        })
        .run()
  if (rest.kitchen > 0)
    books.db
      .insert(goodsNotes)
      .values({
        id: `${act.formId}-kitchen`,
        day: endedDay,
        kind: 'kitchen',
        what: name,
        quantity: rest.kitchen,
        unit,
        enterpriseId,
        batchId,
        ...writtenBy(act),
      })
      .run()
}
