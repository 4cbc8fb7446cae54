// Prints a table of speeds, each a ratio to its floor measured in the same run: machines are shared and noisy. A row stands there as soon
// as it is measured, and one that breaks leaves the others alone. `npm run bench -- NAME…` measures those of a file or of one name.
import { spawnSync } from 'node:child_process'
import { pathToFileURL } from 'node:url'
import { benchModules } from './as-shipped.ts'
import type { BenchModule, BenchRow } from './bench.ts'

/** What a process of its own says on the last line of its output. */
const said = 'rows: '

const wanted = process.argv.slice(2)
const found: { module: string; bench: string }[] = []
for (const [file, module] of await benchModules())
  for (const bench of Object.keys(((await import(module)) as BenchModule).benches))
    if (wanted.length === 0 || wanted.includes(bench) || wanted.includes(file)) found.push({ module, bench })
if (found.length === 0) throw new Error(`No bench is called ${wanted.join(' or ')}`)
print('bench', 'what', 'median', 'ratio to floor', 'asked', '')
let isHeld = true
for (const { module, bench } of found) if (!show(bench, rowsOf(module, bench))) isHeld = false
process.exit(isHeld ? 0 : 1)

/** Measured in a process of its own; null where it broke. */
function rowsOf(module: string, bench: string): BenchRow[] | null {
  const measure = `
    import(${JSON.stringify(pathToFileURL(module).href)}).then(async ({ benches }) => {
      console.log(${JSON.stringify(said)} + JSON.stringify(await benches[${JSON.stringify(bench)}]()))
      process.exit(0)
    })`
  const { stdout } = spawnSync(process.execPath, ['--eval', measure], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
    maxBuffer: 2 ** 26,
  })
  const line = stdout.split('\n').findLast((text) => text.startsWith(said))
  return line === undefined ? null : (JSON.parse(line.slice(said.length)) as BenchRow[])
}

/** Whether all of it was held. */
function show(bench: string, rows: readonly BenchRow[] | null): boolean {
  if (rows === null) print(bench, 'it broke; the reason stands above', '', '', '', 'BROKE')
  for (const { what, milliseconds, floor, limit, held } of rows ?? [])
    print(
      bench,
      what,
      `${milliseconds.toFixed(milliseconds < 10 ? 3 : 1)} ms`,
      floor ? `${(milliseconds / floor.milliseconds).toFixed(2)}× ${floor.what}` : '',
      limit ?? '',
      held === undefined ? '' : held ? 'held' : 'NOT HELD',
    )
  return rows?.every(({ held }) => held !== false) ?? false
}

function print(...cells: string[]): void {
  const widths = [14, 74, 12, 44, 24, 0]
  console.log(
    cells
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd(),
  )
}
