// The doorway: Node 20 cannot read TypeScript, so tsx is registered here and then reads main.ts and all the rest as it is.
// Every module that passes tsx costs a round trip to its thread, and most modules of a start are of libraries that need no
// tsx; so those the server needs before its first page are loaded first, at Node's own speed.
import { register } from 'tsx/esm/api'

const librariesByTheDoor = [
  '@hono/node-server',
  'better-sqlite3',
  'd3-array',
  'd3-scale',
  'd3-shape',
  'decimal.js',
  'drizzle-orm',
  'drizzle-orm/better-sqlite3',
  'drizzle-orm/better-sqlite3/migrator',
  'drizzle-orm/sqlite-core',
  'env-paths',
  'hono',
  'hono/body-limit',
  'hono/cookie',
  'hono/csrf',
  'hono/jsx',
  'hono/jsx/jsx-runtime',
  'hono/secure-headers',
  'pino',
  'zod',
]

const command = process.argv[2] ?? 'serve'
if (command === 'serve' || command.startsWith('-'))
  await Promise.all(librariesByTheDoor.map((name) => import(name)))
register()
await import('./main.ts')
