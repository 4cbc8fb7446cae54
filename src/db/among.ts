// A list of values as one parameter, so that a statement's text, which is kept for good, is the same however long the list is.
import { type SQL, type SQLWrapper, sql } from 'drizzle-orm'

/** `column IN (…)` for a list of numbers or texts; an empty list holds for no row. */
export const isAmong = (column: SQLWrapper, values: Iterable<number | string>): SQL =>
  sql`${column} IN (SELECT value FROM json_each(${JSON.stringify([...values])}))`
