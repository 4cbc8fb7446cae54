// The benches and all that they reach as the start makes it: one plain module, and beside its libraries the workers of the bundle.
// Run module by module through a loader, the same code takes up to a third longer.
import { readdirSync, readFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build, type Plugin } from 'esbuild'

const root = join(import.meta.dirname, '../..')
const ending = '.bench.ts'

/** By the name of each file of benches the module that holds it. */
export async function benchModules(): Promise<Map<string, string>> {
  const { readyBundle } = (await import(join(root, 'src/start/bundle.mjs'))) as {
    readyBundle(): Promise<string>
  }
  const outdir = join(root, 'node_modules/.cache/dooryard-bench')
  const files = readdirSync(import.meta.dirname).filter((file) => file.endsWith(ending))
  await build({
    absWorkingDir: root,
    entryPoints: files.map((file) => join(import.meta.dirname, file)),
    outdir,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    jsx: 'automatic',
    jsxImportSource: 'hono/jsx',
    logLevel: 'error',
    plugins: [whereEachLies(await readyBundle())],
  })
  const moduleOf = (file: string) => join(outdir, file.replace(/\.ts$/, '.mjs'))
  return new Map(files.sort().map((file) => [basename(file, ending), moduleOf(file)]))
}

/** A source that asks where it lies means its own folder; one that asks for its address wants a worker of the bundle. */
const whereEachLies = (bundle: string): Plugin => ({
  name: 'where-each-lies',
  setup: (asked) => {
    asked.onLoad({ filter: /\.tsx?$/ }, ({ path }) => {
      const text = readFileSync(path, 'utf8')
      if (path.includes('node_modules', root.length) || !text.includes('import.meta.')) return undefined
      const address = path.startsWith(join(root, 'src')) ? join(bundle, basename(path)) : path
      const contents = text
        .replaceAll('import.meta.dirname', JSON.stringify(dirname(path)))
        .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(address).href))
      return { contents, loader: path.endsWith('x') ? 'tsx' : 'ts' }
    })
  },
})
