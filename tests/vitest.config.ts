import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { LongestFirst } from './longest-first.ts'
import { plainHouse } from './plain-house.ts'

const root = fileURLToPath(new URL('..', import.meta.url))

/** These read which source a test reaches, count its lines, or run again when it changes: they need the sources themselves. */
const [, command = '', ...words] = process.argv
const watches = /vitest(\.mjs)?$/.test(command) && !words.includes('run') && !words.includes('--run')
const needsSources = watches || ['--changed', '--coverage', '--watch'].some((flag) => words.includes(flag))
const house = needsSources ? null : await plainHouse()

export default defineConfig({
  root,
  plugins: house ? [house.plugin] : [],
  oxc: { jsx: { runtime: 'automatic', importSource: 'hono/jsx' } },
  test: {
    pool: 'forks',
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    // The kinds of test, and the part under Node 24 after them, take one another's compiled modules.
    ...(house ? { experimental: { fsModuleCache: true, fsModuleCachePath: house.compiledTests } } : {}),
    coverage: { include: ['src/**', 'views/**'] },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**', 'tests/outside/**', 'tests/faults/**', 'tests/fuzz/**'],
          testTimeout: 60_000,
          // No test mocks a module or leaves anything behind: loading the house anew for each file would take as long as the tests.
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'outside',
          include: ['tests/outside/**/*.test.ts'],
          testTimeout: 60_000,
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'fuzz',
          include: ['tests/fuzz/**/*.test.ts'],
          testTimeout: 30_000,
          // A process for each file: the most memory a process ever held is a test's own only where no other ran in it.
        },
      },
      {
        extends: true,
        test: {
          name: 'faults',
          include: ['tests/faults/**/*.test.ts'],
          testTimeout: 180_000,
          hookTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.{ts,tsx}'],
          isolate: false,
          testTimeout: 120_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
})
