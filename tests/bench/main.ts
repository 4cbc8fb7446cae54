// Prints a table of speeds, each a ratio to its floor measured in the same run: machines are shared and noisy. A row stands there as soon
// as it is measured, and one that breaks leaves the others alone. `npm run bench -- NAME…` measures those of a file or of one name.
import { spawnSync } from 'node:child_process'
import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import type { BenchModule, BenchRow } from './bench.ts'

/** What a process of its own says on the last line of its output. */
const asOne = '--one'
const said = 'rows: '

const moduleOf = async (file: string) => (await import(join(import.meta.dirname, file))) as BenchModule
const fileName = (file: string) => file.replace('.bench.ts', '')

const words = process.argv.slice(2)
if (words[0] === asOne) await measureOne(words[1]!, words[2]!)
else await measureAll(words)

async function measureOne(file: string, bench: string): Promise<void> {
  const { benches } = await moduleOf(file)
  console.log(said + JSON.stringify(await benches[bench]!()))
  process.exit(0)
}

async function measureAll(wanted: readonly string[]): Promise<void> {
  const found: { file: string; bench: string }[] = []
  const files = readdirSync(import.meta.dirname).filter((file) => file.endsWith('.bench.ts'))
  for (const file of files.sort())
    for (const bench of Object.keys((await moduleOf(file)).benches))
      if (wanted.length === 0 || wanted.includes(bench) || wanted.includes(fileName(file)))
        found.push({ file, bench })
  if (found.length === 0) throw new Error(`No bench is called ${wanted.join(' or ')}`)
  print('bench', 'what', 'median', 'ratio to floor', 'asked', '')
  let isHeld = true
  for (const { file, bench } of found) if (!show(bench, rowsOf(file, bench))) isHeld = false
  process.exitCode = isHeld ? 0 : 1
}

/** Null where it broke. */
function rowsOf(file: string, bench: string): BenchRow[] | null {
  const args = [...process.execArgv, import.meta.filename, asOne, file, bench]
  const { stdout } = spawnSync(process.execPath, args, {
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
