// The house as plain modules that Node loads itself, for all tests of a run: vitest puts a call between any two modules that it
// loads, which makes arithmetic a quarter slower and loading the house three times as long.
import { createHash } from 'node:crypto'
import {
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
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
/** Taken as late as that, one may still be under a run: of this checkout, or of another with the same packages. */
const inUseFor = 45 * 60_000

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

/** What a house was made from: each source by its digest, and what every module of it depends on besides. */
interface Origin {
  /** This file, the place of the checkout, and all JSON, which is taken into the modules that import it. */
  common: string
  sources: Record<string, string>
}

/** Found again by everything that went in, as the start finds its bundle. */
async function readyHouse(): Promise<string> {
  const files = rooms.flatMap(filesUnder)
  const common = createHash('sha256')
    .update(root)
    .update(readFileSync(fileURLToPath(import.meta.url)))
  const sources: Record<string, string> = {}
  for (const file of files) {
    const digest = createHash('sha256').update(readFileSync(file)).digest('hex')
    if (file.endsWith('.json')) common.update(`${file}\0${digest}\0`)
    else sources[relative(root, file)] = digest
  }
  const origin: Origin = { common: common.digest('hex'), sources }
  const hash = createHash('sha256').update(JSON.stringify(origin)).digest('hex')
  const house = join(houses, hash.slice(0, 24))
  if (existsSync(house)) utimesSync(house, new Date(), new Date())
  else await makeHouse(house, origin)
  return house
}

const filesUnder = (room: string): string[] =>
  readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(json|tsx?|mjs)$/.test(name))
    .sort()
    .map((name) => join(root, room, name))

/** Written under a name of its own and then renamed: two runs at once do not read what the other has half written. */
async function makeHouse(house: string, origin: Origin): Promise<void> {
  const making = `${house}.${process.pid}`
  mkdirSync(making, { recursive: true })
  const files = Object.keys(origin.sources)
  const modules = files.filter((file) => /\.tsx?$/.test(file) && !file.endsWith('.d.ts'))
  const changed = new Set(modules)
  const before = newestHouse(origin.common)
  for (const file of before ? modules : [])
    if (before!.origin.sources[file] === origin.sources[file] && linkModule(file, before!.house, making))
      changed.delete(file)
  if (changed.size > 0) await compile([...changed], making)
  for (const file of files.filter((name) => name.endsWith('.mjs'))) writeDoorway(join(root, file), making)
  writeFileSync(join(making, originFile), JSON.stringify(origin))
  try {
    renameSync(making, house)
  } catch (error) {
    rmSync(making, { recursive: true, force: true })
    if (!existsSync(house)) throw error
  }
  forgetOldHouses()
}

const compile = (files: readonly string[], making: string) =>
  build({
    absWorkingDir: root,
    entryPoints: files.map((file) => join(root, file)),
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

const originFile = 'origin.json'

/** The newest house that is as this one but for some of its sources. */
function newestHouse(common: string): { house: string; origin: Origin } | undefined {
  for (const house of existsSync(houses) ? newestFirst() : []) {
    const file = join(house, originFile)
    if (!existsSync(file)) continue
    const origin = JSON.parse(readFileSync(file, 'utf8')) as Origin
    if (origin.common === common) return { house, origin }
  }
  return undefined
}

/** Takes a module over as it is; false where another run has just cleared it away. */
function linkModule(file: string, from: string, to: string): boolean {
  const name = relative(root, plainName(join(root, file), root))
  mkdirSync(dirname(join(to, name)), { recursive: true })
  try {
    for (const one of [name, `${name}.map`]) linkSync(join(from, one), join(to, one))
    return true
  } catch {
    for (const one of [name, `${name}.map`]) rmSync(join(to, one), { force: true })
    return false
  }
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
  for (const old of newestFirst().slice(housesKept)) {
    const takenAt = statSync(old, { throwIfNoEntry: false })?.mtimeMs ?? 0
    if (Date.now() - takenAt > inUseFor) rmSync(old, { recursive: true, force: true })
  }
}

const newestFirst = (): string[] =>
  readdirSync(houses)
    .map((name) => join(houses, name))
    .map((house) => ({ house, takenAt: statSync(house, { throwIfNoEntry: false })?.mtimeMs ?? 0 }))
    .sort((a, b) => b.takenAt - a.takenAt)
    .map(({ house }) => house)
