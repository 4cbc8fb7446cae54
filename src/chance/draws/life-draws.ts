// Lengths of life from a period life table, and spells in which one person cannot work.
import { lifeTable2023 } from './life-table.ts'
import type { RandomStream } from './random-stream.ts'

export type TableSex = 'female' | 'male' | 'either'

/**
 * Whole months this person still lives, counted from the month in which they are `ageMonths` old: 0 = dies within that
 * month. Inversion of the table's survival, deaths spread evenly within each year of age; one uniform is spent.
 * 'either' takes the mean of both death rates. Past the last age of the table nobody lives.
 */
export function drawMonthsOfLife(ageMonths: number, sex: TableSex, stream: RandomStream): number {
  return monthsOfLifeAt(stream.uniform(), ageMonths, sex)
}

/** The months lived by the person whose share `dead` of all alike has died: the quantile behind `drawMonthsOfLife`. */
export function monthsOfLifeAt(dead: number, ageMonths: number, sex: TableSex): number {
  const alive = aliveAtBirthdays(sex)
  const target = (1 - dead) * aliveAt(alive, ageMonths)
  let age = Math.floor(ageMonths / 12)
  if (age >= alive.length - 1) return 0
  while (age < alive.length - 2 && alive[age + 1]! > target) age += 1
  const from = alive[age]!
  const to = alive[age + 1]!
  const withinYear = from === to ? 0 : (from - Math.max(target, to)) / (from - to)
  return Math.max(0, Math.floor((age + withinYear) * 12 - ageMonths))
}

/** The chance that somebody of this age dies within so many months, by the table. */
export function chanceOfDying(ageMonths: number, within: number, sex: TableSex): number {
  const alive = aliveAtBirthdays(sex)
  return 1 - aliveAt(alive, ageMonths + within) / aliveAt(alive, ageMonths)
}

const tables = new Map<TableSex, Float64Array>()

/** Share of all born alive at each birthday; nobody passes the last. */
function aliveAtBirthdays(sex: TableSex): Float64Array {
  const known = tables.get(sex)
  if (known) return known
  const { male, female } = lifeTable2023
  const dying =
    sex === 'either' ? male.map((rate, age) => (rate + female[age]!) / 2) : sex === 'male' ? male : female
  const alive = new Float64Array(dying.length + 1)
  alive[0] = 1
  for (const [age, rate] of dying.entries())
    alive[age + 1] = age === dying.length - 1 ? 0 : alive[age]! * (1 - rate)
  tables.set(sex, alive)
  return alive
}

function aliveAt(alive: Float64Array, ageMonths: number): number {
  const age = Math.min(Math.floor(ageMonths / 12), alive.length - 2)
  const into = Math.min(1, ageMonths / 12 - age)
  return alive[age]! + (alive[age + 1]! - alive[age]!) * into
}

/**
 * Months, counted from the start of the course, in which spells without work begin: into `begins`, one a year at most,
 * `Infinity` for none. Each of the first `years` years one begins with this chance, in any of its months. Two uniforms a
 * year are spent.
 */
export function drawWorkSpells(
  chancePerYear: number,
  stream: RandomStream,
  years: number,
  begins: Float64Array,
): void {
  for (let year = 0; year < Math.min(years, begins.length); year += 1) {
    const isLost = stream.uniform() < chancePerYear
    const month = year * 12 + Math.floor(stream.uniform() * 12)
    begins[year] = isLost ? month : Number.POSITIVE_INFINITY
  }
}
