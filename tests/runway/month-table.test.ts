// The block of a course's months: what a run writes into it comes out under the same names, as rows and as charts see them.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { seenMonths } from '#runway/dollars/seen-month.ts'
import { emptyMonth, type MonthFigures, monthSeries } from '#runway/figures/course-figures.ts'
import { emptyTable, type MonthTable, rowsOf, writeMonth } from '#runway/figures/month-table.ts'

/** Each figure another number: the first month 1, 2, 3 …, the second 1001, 1002 …. */
const written = (): { table: MonthTable; months: MonthFigures[] } => {
  const table = emptyTable(month(2031, 12), 3)
  const months = [0, 1000].map((more) => {
    const one = emptyMonth()
    monthSeries.forEach((name, at) => {
      one[name] = more + at + 1
    })
    return one
  })
  for (const one of months) writeMonth(table, one)
  return { table, months }
}

test('every figure of a month stands in its row under its own name', () => {
  const { table, months } = written()
  const rows = rowsOf(table)
  expect(rows.map((row) => row.month)).toEqual(['2031-12', '2032-01'])
  rows.forEach((row, m) => {
    expect(row).toMatchObject(months[m]!)
    expect(Object.keys(row)).toHaveLength(monthSeries.length + 2)
  })
})

test('shown in other dollars, money is multiplied, level and hours are not', () => {
  const { table, months } = written()
  const rows = rowsOf({ ...table, factors: Float64Array.of(2, 0.5) })
  expect(rows[0]!.spendable).toBe(months[0]!.spendable * 2)
  expect(rows[1]!.spendable).toBe(months[1]!.spendable / 2)
  for (const name of ['level', 'farmHours', 'hiredHours', 'undoneHours'] as const)
    expect(rows[1]![name]).toBe(months[1]![name])
})

test('charts see the same as the rows say', () => {
  const { table } = written()
  const shown = { ...table, factors: Float64Array.of(3, 0.25) }
  const rows = rowsOf(shown)
  seenMonths(shown).forEach((seen, m) => {
    const names = Object.keys(Object.getOwnPropertyDescriptors(Object.getPrototypeOf(seen))).filter(
      (name) => name !== 'constructor',
    ) as (keyof typeof seen)[]
    expect(names.length).toBeGreaterThan(20)
    for (const name of names) expect(seen[name], name).toBe(rows[m]![name])
  })
})

test('the cover ratio is of the last twelve months, and of none where nothing was paid', () => {
  const table = emptyTable(month(2030, 1), 14)
  const one = emptyMonth()
  // 100 of costs a month: nothing drawn in the first two, then 60, of which 10 go back. 12 months of 50 ÷ 1,200.
  for (let m = 0; m < 14; m += 1)
    writeMonth(table, {
      ...one,
      draw: m < 2 ? 0 : 60,
      contribution: m < 2 ? 0 : 10,
      householdCosts: m === 0 ? 0 : 100,
    })
  const ratios = rowsOf(table).map((row) => row.coverRatio)
  expect(ratios[0]).toBeNull()
  expect(ratios[1]).toBe(0)
  expect(ratios[3]).toBe(100 / 300)
  expect(ratios[13]).toBe(600 / 1200)
})
