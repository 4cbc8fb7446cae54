// Runs a part of the tests under Node 24: the quick rooms, and what touches SQLite, workers and the pages. `better-sqlite3` is
// then the next major version, the first that Node 24 takes whole (see src/db/sqlite.ts).
import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { node24, readyNode24 } from './install.mjs'

const root = join(import.meta.dirname, '../..')
const rooms = ['kept', 'money', 'calendar', 'ledger', 'db', 'today']
const part = [...rooms.map((room) => `tests/${room}/`), 'tests/chance/workers']
const pages = [
  'now',
  'books',
  'crossings',
  'settings',
  'statements',
  'year-pack',
  'chance',
  'standing',
  'security',
]

if (!readyNode24()) {
  console.error('Node 24 could not be installed from the registry: THE TESTS UNDER NODE 24 WERE LEFT OUT.')
  process.exit(process.env.CI ? 1 : 0)
}
const ownSqlite = pathToFileURL(join(import.meta.dirname, 'better-sqlite3.mjs')).href
const vitest = [join(root, 'node_modules/vitest/vitest.mjs'), 'run', '--config', 'tests/vitest.config.ts']
const asked = process.argv.slice(2)
const whole = [...part, ...pages.map((page) => `tests/web/${page}.test`)]
const files = asked.length > 0 ? asked : whole
const { status } = spawnSync(node24, [...vitest, '--project', 'unit', ...files], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, NODE_OPTIONS: `${process.env.NODE_OPTIONS ?? ''} --import ${ownSqlite}`.trim() },
})
process.exitCode = status ?? 1
