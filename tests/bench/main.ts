// Prints one table of speeds, each a ratio to its floor measured in the same run: machines are shared and noisy.
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import type { BenchModule, BenchRow } from './bench.ts'

const wanted = process.argv.slice(2)
const files = readdirSync(import.meta.dirname).filter((file) => file.endsWith('.bench.ts'))
const rows: BenchRow[] = []
for (const file of files.sort()) {
  if (wanted.length > 0 && !wanted.some((word) => file.includes(word))) continue
  const module = (await import(join(import.meta.dirname, file))) as BenchModule
  process.stderr.write(`${module.name} …\n`)
  rows.push(...(await module.run()))
}

const cells = rows.map((row) => [
  row.what,
  `${row.milliseconds.toFixed(row.milliseconds < 10 ? 3 : 1)} ms`,
  row.floor ? `${(row.milliseconds / row.floor.milliseconds).toFixed(2)}× ${row.floor.what}` : '',
  row.limit ?? '',
  row.held === undefined ? '' : row.held ? 'held' : 'NOT HELD',
])
const header = ['what', 'median', 'ratio to floor', 'asked', '']
const widths = header.map((title, column) =>
  Math.max(title.length, ...cells.map((row) => row[column]!.length)),
)
for (const row of [header, ...cells]) {
  console.log(
    row
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd(),
  )
}
process.exitCode = rows.some((row) => row.held === false) ? 1 : 0
