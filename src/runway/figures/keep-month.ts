// What stays of a month once it has run: the series that were asked for, or all of it.
import type { CourseBuffers } from '../course-buffers.ts'
import { writeMonth } from './month-table.ts'

export const keepMonth = ({ kept, month, table }: CourseBuffers, m: number): void => {
  for (let k = 0; k < kept.length; k += 1) kept[k]!.values[m] = month[kept[k]!.name]
  if (table !== null) writeMonth(table, month)
}
