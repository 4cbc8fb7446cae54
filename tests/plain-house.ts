// The house as plain modules that Node loads itself, for all tests of a run: vitest puts a call between any two modules that it
// loads, which makes arithmetic a quarter slower and loading the house three times as long.
import { createHash } from 'node:crypto'
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type Plugin as BundlerPlugin, build } from 'esbuild'
import type { Plugin } from 'vitest/config'

const root = fileURLToPath(new URL('..', import.meta.url))
const rooms = ['src', 'views', 'sample']
const houses = join(root, 'node_modules/.cache/dooryard-tests')
const housesKept = 3

export interface PlainHouse {
  /** Vitest takes what tests import of the house from the plain one. */
  plugin: Plugin
  /** Where vitest keeps the tests it has compiled: they name the modules of this very house, and no other run may take them. */
  compiledTests: string
}

export async function plainHouse(): Promise<PlainHouse> {
  const house = await readyHouse()
  const plugin: Plugin = {
    name: 'plain-house',
    enforce: 'pre',
    resolveId: (asked, importer) => {
      const source = sourceOf(asked, importer ?? root)
      return source === null ? null : plainName(source, house)
    },
  }
  return { plugin, compiledTests: join(house, 'tests') }
}

/** Found again by everything that went in, as the start finds its bundle. */
async function readyHouse(): Promise<string> {
  const files = rooms.flatMap(filesUnder)
  const hash = createHash('sha256')
    .update(root)
    .update(readFileSync(fileURLToPath(import.meta.url)))
  for (const file of files) hash.update(file).update('\0').update(readFileSync(file)).update('\0')
  const house = join(houses, hash.digest('hex').slice(0, 24))
  if (!existsSync(house)) await makeHouse(house, files)
  return house
}

const filesUnder = (room: string): string[] =>
  readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(json|tsx?|mjs)$/.test(name))
    .sort()
    .map((name) => join(root, room, name))

/** Written under a name of its own and then renamed: two runs at once do not read what the other has half written. */
async function makeHouse(house: string, files: readonly string[]): Promise<void> {
  const making = `${house}.${process.pid}`
  mkdirSync(making, { recursive: true })
  await build({
    absWorkingDir: root,
    entryPoints: files.filter((file) => /\.tsx?$/.test(file) && !file.endsWith('.d.ts')),
    outdir: making,
    outbase: root,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    jsx: 'automatic',
    jsxImportSource: 'hono/jsx',
    sourcemap: 'linked',
    sourcesContent: false,
    logLevel: 'error',
    plugins: [eachByItself],
  })
  for (const file of files.filter((name) => name.endsWith('.mjs'))) writeDoorway(file, making)
  try {
    renameSync(making, house)
  } catch (error) {
    rmSync(making, { recursive: true, force: true })
    if (!existsSync(house)) throw error
  }
  forgetOldHouses()
}

/** No module is taken into another one; one that asks where it lies means its source. */
const eachByItself: BundlerPlugin = {
  name: 'each-by-itself',
  setup: (asked) => {
    asked.onResolve({ filter: /\.(tsx?|json)$/ }, ({ path, importer, kind }) => {
      const source = kind === 'entry-point' ? null : sourceOf(path, importer)
      if (source === null) return undefined
      if (source.endsWith('.json')) return { path: source }
      const from = relative(dirname(importer), plainName(source, root))
      return { path: from.startsWith('.') ? from : `./${from}`, external: true }
    })
    asked.onLoad({ filter: /\.ts$/ }, ({ path }) => {
      const text = readFileSync(path, 'utf8')
      return text.includes('import.meta.dirname')
        ? { contents: text.replaceAll('import.meta.dirname', JSON.stringify(dirname(path))), loader: 'ts' }
        : undefined
    })
  },
}

/** A worker's doorway registers a loader for TypeScript first; here it leads straight to the work. */
function writeDoorway(file: string, house: string): void {
  const leadsTo = /await import\(\s*'([^']+)'/.exec(readFileSync(file, 'utf8'))?.[1]
  const source = leadsTo === undefined ? null : sourceOf(leadsTo, file)
  const door = join(house, relative(root, file))
  if (source === null || plainName(source, house) === door) return
  writeFileSync(door, `export * from ${JSON.stringify(relative(dirname(door), plainName(source, house)))}\n`)
}

/** The file of the house that is asked for, or null where it is none of its. */
function sourceOf(asked: string, importer: string): string | null {
  const inRoom = /^#(\w+)\/(.+)$/.exec(asked)
  const folder = inRoom && ['src', ...rooms].includes(inRoom[1]!) ? inRoom[1]! : `src/${inRoom?.[1]}`
  if (!inRoom && !asked.startsWith('.')) return null
  const file = inRoom ? join(root, folder, inRoom[2]!) : resolve(dirname(importer), asked)
  const isOurs = rooms.some((room) => file.startsWith(`${join(root, room)}/`))
  return isOurs && /\.(tsx?|json)$/.test(file) ? file : null
}

const plainName = (source: string, house: string): string =>
  join(house, relative(root, source)).replace(/\.tsx?$/, '.mjs')

function forgetOldHouses(): void {
  const folders = readdirSync(houses).map((name) => join(houses, name))
  const newestFirst = folders.sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs)
  for (const old of newestFirst.slice(housesKept)) rmSync(old, { recursive: true, force: true })
}
