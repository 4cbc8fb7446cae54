// What a backup would change, in sentences: the command and the page say the same.
import { instantName } from '#calendar/day.ts'
import type { PreparedRestore } from './restore.ts'

export const restoreWords = (
  {
    comparison,
    receiptsMissing,
    chainBegun,
  }: Pick<PreparedRestore, 'comparison' | 'receiptsMissing' | 'chainBegun'>,
  file: string,
): string[] => [
  ...comparisonWords(comparison, file),
  ...(receiptsMissing > 0
    ? [`Receipts that the backup names and that are neither in it nor here: ${receiptsMissing}.`]
    : []),
  ...(chainBegun
    ? [
        'This backup is from before changes were proved, or says so: what it holds is taken as it is found, and no check can show whether it was changed by another hand.',
      ]
    : []),
]

const comparisonWords = (comparison: PreparedRestore['comparison'], file: string): string[] => {
  if (comparison === null) return [`There are no books at ${file} yet: the backup would become them.`]
  if (!comparison.readable)
    return [`The books at ${file} cannot be read, so nothing can be compared: ${comparison.problem.message}`]
  const changed = comparison.tables.filter(({ gone, added }) => gone + added > 0)
  const last = (at: string | null) => (at === null ? 'never' : `${instantName(at)} UTC`)
  return [
    `Last change in your books: ${last(comparison.lastChangeNow)}; in the backup: ${last(comparison.lastChangeThen)}.`,
    ...(changed.length === 0 ? ['The backup holds the same as your books.'] : []),
    ...changed.map(({ what, gone, added }) => `${what}: ${gone} would be gone, ${added} would be added`),
  ]
}
