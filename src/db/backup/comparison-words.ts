// What a backup would change, in sentences: the command and the page say the same.
import type { TimeName } from '#calendar/instant.ts'
import type { ComparedTable } from './compare-books.ts'
import type { PreparedRestore } from './restore.ts'

export const restoreWords = (
  {
    comparison,
    receiptsMissing,
    chainBegun,
  }: Pick<PreparedRestore, 'comparison' | 'receiptsMissing' | 'chainBegun'>,
  file: string,
  timeName: TimeName,
): string[] => [
  ...comparisonWords(comparison, file, timeName),
  ...(receiptsMissing > 0
    ? [`Receipts that the backup names and that are neither in it nor here: ${receiptsMissing}.`]
    : []),
  ...(chainBegun
    ? [
        'This backup is from before changes were proved, or says so: what it holds is taken as it is found, and no check can show whether it was changed by another hand.',
      ]
    : []),
]

const comparisonWords = (
  comparison: PreparedRestore['comparison'],
  file: string,
  timeName: TimeName,
): string[] => {
  if (comparison === null) return [`There are no books at ${file} yet: the backup would become them.`]
  if (!comparison.readable)
    return [`The books at ${file} cannot be read, so nothing can be compared: ${comparison.problem.message}`]
  const changed = comparison.tables.filter(({ gone, added }) => gone + added > 0)
  const last = (at: string | null) => (at === null ? 'never' : timeName(at))
  return [
    `Last change in your books: ${last(comparison.lastChangeNow)}; in the backup: ${last(comparison.lastChangeThen)}.`,
    ...(changed.length === 0 ? ['The backup holds the same as your books.'] : []),
    ...changed.flatMap((table) => changeWords[table.kind](table)),
  ]
}

const changeWords: Record<ComparedTable['kind'], (table: ComparedTable) => string[]> = {
  things: ({ what, gone, added }) => [
    `${what}: ${[gone > 0 ? `${gone} would be gone` : '', added > 0 ? `${added} would be added` : ''].filter(Boolean).join(', ')}`,
  ],
  reversing: ({ what, gone, added }) => [
    ...(gone > 0
      ? [
          `${reversing(gone)} ${what} would be gone: what ${gone === 1 ? 'it' : 'they'} reversed would stand again`,
        ]
      : []),
    ...(added > 0
      ? [
          `${reversing(added)} ${what} would come back: what ${added === 1 ? 'it' : 'they'} reversed would be reversed again`,
        ]
      : []),
  ],
  sorted: ({ gone, added }) => [
    ...(added > 0 ? [`${transactions(added)} not sorted now would be sorted as before`] : []),
    ...(gone > 0 ? [`${transactions(gone)} sorted now would wait to be sorted again`] : []),
  ],
}

const reversing = (count: number): string => `${count} reversing ${count === 1 ? 'entry' : 'entries'}`
const transactions = (count: number): string => `${count} ${count === 1 ? 'transaction' : 'transactions'}`
