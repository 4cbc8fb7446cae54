// Starts a small process, lets it live a while after it is ready, and kills it hard. What it said in whole lines was acknowledged.
import { spawn } from 'node:child_process'
import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { buildSync } from 'esbuild'
import { afterAll } from 'vitest'

const root = join(import.meta.dirname, '../..')

export interface Kill {
  /** Whole lines it must have said first, `ready` among them: a slow machine is not killed before its work begins. */
  afterLines: number
  /** And then this long. */
  milliseconds: number
}

/** What it said in whole lines, without `ready`. */
export const runAndKill = async (script: string, args: readonly string[], kill: Kill): Promise<string[]> => {
  const child = spawn(process.execPath, [inOnePiece(script), ...args], {
    stdio: ['ignore', 'pipe', 'inherit'],
    cwd: root,
  })
  let said = ''
  let armed = false
  child.stdout.on('data', (chunk: Buffer) => {
    said += chunk.toString()
    if (!armed && said.split('\n').length > kill.afterLines) {
      armed = true
      setTimeout(() => child.kill('SIGKILL'), kill.milliseconds)
    }
  })
  const [code, signal] = await new Promise<[number | null, string | null]>((resolve) =>
    child.on('close', (...ended) => resolve(ended)),
  )
  if (signal !== 'SIGKILL') throw new Error(`${script} ended by itself with ${code}: ${said}`)
  return said.split('\n').slice(1, -1)
}

/** Kills that look random and are the same in every run, spread over the first `lines` lines: with two, every other one falls into the second piece of work. */
export const randomKills = function* (seed: number, most: number, lines = 2): Generator<Kill, never> {
  for (let state = seed; ; ) {
    state = (state * 48_271) % 2_147_483_647
    yield { afterLines: 1 + (state % lines), milliseconds: (state >> 1) % most }
  }
}

const pieces = new Map<string, string>()
afterAll(() => {
  for (const piece of pieces.values()) rmSync(piece, { force: true })
})

/**
 * The script with all it imports in one file: it starts in a fraction of the time, and a hundred kills are affordable.
 * Two folders under the root, as the sources are, so that the migrations are found the same way.
 */
export const inOnePiece = (script: string): string => {
  const known = pieces.get(script)
  if (known) return known
  const outfile = join(root, 'node_modules/.dooryard', `${process.pid}-${script.replace('.ts', '.mjs')}`)
  buildSync({
    entryPoints: [join(import.meta.dirname, script)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: ['better-sqlite3'],
    logLevel: 'error',
  })
  pieces.set(script, outfile)
  return outfile
}
