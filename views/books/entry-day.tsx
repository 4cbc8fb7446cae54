// The column that names an entry by its day and leads to it.
import { type Day, dayName } from '#calendar/day.ts'
import type { Column } from '../parts/table.tsx'

export const entryDay: Column<{ entryNo: number; day: Day }> = {
  title: 'Day',
  isHeader: true,
  cell: (row) => (
    <a class="day" href={`/books/entries/${row.entryNo}`}>
      {dayName(row.day)}
    </a>
  ),
}
