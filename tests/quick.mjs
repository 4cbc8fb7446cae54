// `npm run quick`: formatter, linter, types and, of the unit and outside tests that reach the changed files, those nearest by their
// imports: an answer in seconds. A file that all rests on is reached by all tests: which are left to `npm test` is said.
import { execFileSync, spawn } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'

const root = join(import.meta.dirname, '..')
const mostFiles = 10
/** They read files instead of importing them. */
const ofAllFiles = ['tests/tidy.test.ts', 'tests/words.test.ts']
const isQuick = (file) => /\.test\.tsx?$/.test(file) && !/^tests\/(browser|faults|fuzz)\//.test(file)

const existsHere = (file) => existsSync(join(root, file))
const changed = changedFiles()
const { near, left } = testsReaching(changed)
console.log(
  changed.length === 0
    ? 'No file has changed since the last commit: formatter, linter and types.'
    : `${changed.length} changed, ${near.length} test files${left > 0 ? `; ${left} more reach them: npm test` : ''}`,
)
const vitest = ['vitest', 'run', '--config', 'tests/vitest.config.ts', '--reporter=dot', ...near]
const runs = [
  [
    'biome',
    'check',
    '--no-errors-on-unmatched',
    ...(changed.length > 0 ? changed.filter(existsHere) : ['.']),
  ],
  ['tsc', '--noEmit'],
  ...(near.length > 0 ? [vitest] : []),
]
const codes = await Promise.all(runs.map(run))
process.exitCode = codes.every((code) => code === 0) ? 0 : 1

function run([name, ...args]) {
  return new Promise((resolve) => {
    const child = spawn('npx', ['--no-install', name, ...args], {
      cwd: root,
      stdio: 'inherit',
      shell: process.platform === 'win32',
    })
    child.on('close', resolve)
  })
}

function changedFiles() {
  const git = (...args) =>
    execFileSync('git', args, { cwd: root, encoding: 'utf8' }).split('\n').filter(Boolean)
  return [...git('diff', '--name-only', 'HEAD'), ...git('ls-files', '-o', '--exclude-standard')]
}

/** Test files that import a changed one over the fewest others, and how many more do. */
function testsReaching(files) {
  const importers = importersOfEach()
  const reached = new Set(files)
  for (const file of reached) for (const importer of importers.get(file) ?? []) reached.add(importer)
  const all = [...reached].filter(isQuick)
  const near = all.slice(0, mostFiles)
  if (files.length > 0) near.push(...ofAllFiles.filter((file) => !near.includes(file)))
  return { near, left: all.length - Math.min(all.length, mostFiles) }
}

/** A set is walked in the order of what was put in: those found from it first are nearer. */
function importersOfEach() {
  const importers = new Map()
  for (const folder of ['src', 'views', 'sample', 'tests'])
    for (const name of readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })) {
      const file = join(folder, name)
      if (!/\.tsx?$/.test(name) || name.includes('node_modules')) continue
      for (const [, asked] of readFileSync(join(root, file), 'utf8').matchAll(
        /\b(?:from|import) ?\(?\s*'([#.][^']+)'/g,
      )) {
        const target = fileOf(asked, file)
        importers.set(target, [...(importers.get(target) ?? []), file])
      }
    }
  return importers
}

function fileOf(asked, importer) {
  const room = /^#(\w+)\/(.+)$/.exec(asked)
  if (!room) return relative(root, join(root, dirname(importer), asked))
  return ['src', 'views', 'sample'].includes(room[1]) ? join(room[1], room[2]) : join('src', room[1], room[2])
}
