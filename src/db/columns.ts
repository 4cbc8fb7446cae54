// Column kinds that recur in every table, each with the CHECK that holds even if a rebuilt table loses STRICT.
import { type SQL, sql } from 'drizzle-orm'
import { check, integer, type SQLiteColumn, text } from 'drizzle-orm/sqlite-core'
import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import { CENTS_MAX, type Cents } from '#money/cents.ts'

/** Integer cents, debits positive where the column is a posting. */
export const centsColumn = (name: string) => integer(name).$type<Cents>()
/** A calendar day as ISO text. */
export const dayColumn = (name: string) => text(name).$type<Day>()
/** A month as year × 12 + month − 1, as `#calendar/month.ts` counts. */
export const monthColumn = (name: string) => integer(name).$type<Month>()
/** An instant as ISO text in UTC, given by the caller. */
export const instantColumn = (name: string) => text(name)

const maximum = sql.raw(String(CENTS_MAX))

export const isCents = (name: string, column: SQLiteColumn) =>
  check(name, sql`typeof(${column}) = 'integer' AND ${column} BETWEEN -${maximum} AND ${maximum}`)

export const isCentsOrNull = (name: string, column: SQLiteColumn) =>
  check(
    name,
    sql`${column} IS NULL OR (typeof(${column}) = 'integer' AND ${column} BETWEEN -${maximum} AND ${maximum})`,
  )

/** SQLite's date() rolls February 30 over, so a day equals its own date() only when the calendar has it. */
export const isDay = (name: string, column: SQLiteColumn) =>
  check(name, sql`typeof(${column}) = 'text' AND length(${column}) = 10 AND date(${column}) IS ${column}`)

export const isDayOrNull = (name: string, column: SQLiteColumn) =>
  check(
    name,
    sql`${column} IS NULL OR (typeof(${column}) = 'text' AND length(${column}) = 10 AND date(${column}) IS ${column})`,
  )

export const isMonth = (name: string, column: SQLiteColumn) =>
  check(name, sql`typeof(${column}) = 'integer' AND ${column} BETWEEN 12000 AND 119999`)

export const isOneOf = (name: string, column: SQLiteColumn, words: readonly string[]) =>
  check(name, sql`${column} IN (${list(words)})`)

export const isOneOfOrNull = (name: string, column: SQLiteColumn, words: readonly string[]) =>
  check(name, sql`${column} IS NULL OR ${column} IN (${list(words)})`)

export const isJson = (name: string, column: SQLiteColumn) => check(name, sql`json_valid(${column})`)

export const isFilled = (name: string, column: SQLiteColumn) =>
  check(name, sql`typeof(${column}) = 'text' AND length(trim(${column})) > 0`)

const list = (words: readonly string[]): SQL => sql.raw(words.map((word) => `'${word}'`).join(', '))
