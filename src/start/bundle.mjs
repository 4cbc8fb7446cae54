// The bundle of src and views. Node 20 cannot read TypeScript, so esbuild writes it out once as plain JavaScript, kept in
// node_modules under a hash of everything that went in: one changed letter makes a new one.
import { createHash } from 'node:crypto'
import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'

/** Of the house: where package.json lies. */
export const root = join(import.meta.dirname, '../..')

const cache = await cacheFolder()
const bundles = join(cache, 'dooryard')
const bundlesKept = 3
/** Before the number of a process, in the bundle that it runs. */
const runBy = 'run-by-'
/** Data of the start that was gone through as the house was installed, in its bundle; `sample/open-sample.ts` looks there. */
export const madeBefore = 'made'
/** Sizes and times of the sources as they were last hashed, and their bundle: reading them all takes a seventh of a start. */
const lastHashed = join(cache, 'dooryard-last.json')
/** A file changed twice within the clock's step looks unchanged: what is younger is hashed again at the next start. */
const youngMilliseconds = 2000

/** Each becomes a file, workers beside a doorway of the name by which their pools ask for them, with what it leads to. */
const entries = {
  main: { from: 'src/main.ts' },
  worker: { from: 'src/chance/worker.ts', leadsTo: ['work'] },
  'slower-years-worker': {
    from: 'src/today/slower-years/slower-years-work.ts',
    leadsTo: ['workOutAnswers'],
  },
  'reading-worker': {
    from: 'src/ledger/statements/reading/reading-work.ts',
    leadsTo: ['openInSlices', 'readCsvInSlices', 'fitGuessIn'],
  },
}

/** Libraries with native parts, that start workers or commands from files of their own, or whose tables only a rare file asks for. */
const external = ['better-sqlite3', 'esbuild', 'highs', 'iconv-lite', 'open', 'pino', 'piscina']

/** The folder of the bundle that is as the sources say, made first where there is none. */
export async function readyBundle() {
  const files = ['package.json', ...['src', 'views', 'sample'].flatMap(filesUnder)]
  const stats = files.map((file) => statSync(`${root}/${file}`))
  const looks = stats.map(({ size, mtimeMs, ctimeMs }, at) => `${files[at]} ${size} ${mtimeMs} ${ctimeMs}`)
  const look = shortHash([root, looks.join('\n')])
  const known = readLast()
  if (known.look === look && existsSync(join(bundles, known.bundle))) return join(bundles, known.bundle)
  const name = shortHash([root, ...files.flatMap((file) => [file, readFileSync(`${root}/${file}`)])])
  const folder = join(bundles, name)
  if (!existsSync(folder)) await makeBundle(folder)
  if (stats.every(({ ctimeMs }) => ctimeMs < Date.now() - youngMilliseconds))
    writeLast({ look, bundle: name })
  return folder
}

/** Says in a bundle that this process runs it, for as long as it does: its workers are loaded from there whenever they are first asked for. */
export function runsFrom(folder) {
  const said = join(folder, `${runBy}${process.pid}`)
  try {
    writeFileSync(said, '')
  } catch {
    // Nothing is made there by this user then, and so nothing goes.
  }
  process.once('exit', () => rmSync(said, { force: true }))
}

/** Where another user has installed the house, nothing can be put beside it: then it is kept among this user's own. */
async function cacheFolder() {
  const beside = join(root, 'node_modules', '.cache')
  try {
    mkdirSync(beside, { recursive: true })
    accessSync(beside, constants.W_OK)
    return beside
  } catch {
    const { default: envPaths } = await import('env-paths')
    return envPaths('dooryard', { suffix: '' }).cache
  }
}

function shortHash(parts) {
  const hash = createHash('sha256')
  for (const part of parts) hash.update(part).update('\0')
  return hash.digest('hex').slice(0, 24)
}

function filesUnder(folder) {
  const inner = readdirSync(`${root}/${folder}`, { withFileTypes: true })
  return inner
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((one) => {
      const name = `${folder}/${one.name}`
      return one.isDirectory() ? filesUnder(name) : /\.(json|tsx?|mjs)$/.test(name) ? [name] : []
    })
}

function readLast() {
  try {
    return JSON.parse(readFileSync(lastHashed, 'utf8'))
  } catch {
    return {}
  }
}

/** Where it cannot be written, the next start reads the sources again. */
function writeLast(last) {
  const making = `${lastHashed}.${process.pid}`
  try {
    writeFileSync(making, JSON.stringify(last))
    renameSync(making, lastHashed)
  } catch {
    rmSync(making, { force: true })
  }
}

/** Written under a name of its own and then renamed, so that a start that was cut short leaves nothing half made. */
async function makeBundle(folder) {
  const { build } = await import('esbuild')
  const making = `${folder}.${process.pid}`
  mkdirSync(making, { recursive: true })
  await build({
    absWorkingDir: root,
    entryPoints: Object.fromEntries(Object.entries(entries).map(([name, { from }]) => [name, from])),
    outdir: making,
    outExtension: { '.js': '.cjs' },
    bundle: true,
    // Of the kind whose compiled letters Node lets a program keep. Libraries outside are asked for from the house, wherever this lies.
    format: 'cjs',
    supported: { 'dynamic-import': false },
    platform: 'node',
    target: 'node20',
    jsx: 'automatic',
    jsxImportSource: 'hono/jsx',
    sourcemap: 'linked',
    sourcesContent: false,
    // Node reads every letter before the first page; the maps lead back to the sources.
    minify: true,
    external,
    logLevel: 'error',
    banner: {
      js: "(function (exports, require, module, __filename, __dirname) { const fileUrl = require('node:url').pathToFileURL(__filename).href;",
    },
    footer: { js: '})' },
    define: { 'import.meta.url': 'fileUrl' },
    plugins: [
      { name: 'folders-of-sources', setup: foldersOfSources },
      { name: 'tables-as-text', setup: tablesAsText },
    ],
  })
  for (const [name, { leadsTo }] of Object.entries(entries))
    if (leadsTo) writeFileSync(join(making, `${name}.mjs`), doorway(name, leadsTo))
  try {
    takePlace(making, folder)
  } catch (error) {
    rmSync(making, { recursive: true, force: true })
    if (!existsSync(folder)) throw error
  }
  forgetOldBundles()
}

/** A worker's work, each piece of which puts by what V8 has made when it has run for the first time. */
function doorway(name, leadsTo) {
  const runner = pathToFileURL(join(root, 'src/start/run-bundled.mjs')).href
  return `import { fileURLToPath } from 'node:url'
import { runBundled } from ${JSON.stringify(runner)}
const file = fileURLToPath(new URL('./${name}.cjs', import.meta.url))
const { exports, keep } = runBundled(file, { root: ${JSON.stringify(root)} })
const keptAfter = (work) => {
  let ran = false
  return (order) => {
    const answer = work(order)
    if (!ran) keep()
    ran = true
    return answer
  }
}
${leadsTo.map((work) => `export const ${work} = keptAfter(exports.${work})`).join('\n')}
`
}

/** On Windows whoever looks through new files, as against viruses, holds them for moments: it is tried for a second. */
function takePlace(making, folder) {
  for (let left = process.platform === 'win32' ? 20 : 1; ; left -= 1)
    try {
      renameSync(making, folder)
      return
    } catch (error) {
      if (left === 1 || existsSync(folder)) throw error
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 50)
    }
}

/** Modules that ask where they lie (migrations, styles, the sample) mean the source, not the bundle. */
function foldersOfSources(build) {
  build.onLoad({ filter: /\.ts$/ }, ({ path }) => {
    if (path.includes('node_modules', root.length)) return undefined
    const text = readFileSync(path, 'utf8')
    if (!text.includes('import.meta.dirname')) return undefined
    return { contents: text.replaceAll('import.meta.dirname', JSON.stringify(dirname(path))), loader: 'ts' }
  })
}

/** Tables of the law are half a megabyte: as text, read by the reader of JSON, they cost a tenth of what they do as code. */
function tablesAsText(build) {
  build.onLoad({ filter: /\.json$/ }, ({ path }) => ({
    contents: `export default JSON.parse(${JSON.stringify(JSON.stringify(JSON.parse(readFileSync(path, 'utf8'))))})`,
    loader: 'js',
  }))
}

/** A server that was started before still loads its workers from an older one, which therefore stays while it runs. */
function forgetOldBundles() {
  const folders = readdirSync(bundles).map((name) => join(bundles, name))
  const newestFirst = folders.sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs)
  for (const old of newestFirst.slice(bundlesKept))
    if (!isRun(old)) rmSync(old, { recursive: true, force: true })
}

const isRun = (folder) =>
  readdirSync(folder)
    .filter((name) => name.startsWith(runBy))
    .some((name) => isThere(Number(name.slice(runBy.length))))

/** Signal 0 reaches whoever is there; a process of somebody else's refuses it, and is there too. */
function isThere(pid) {
  try {
    return process.kill(pid, 0)
  } catch (error) {
    return error.code === 'EPERM'
  }
}
