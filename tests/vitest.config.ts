import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { defineConfig, type UserWorkspaceConfig } from 'vitest/config'
import { LongestFirst } from './longest-first.ts'
import { plainHouse } from './plain-house.ts'

const root = fileURLToPath(new URL('..', import.meta.url))

/** These read which source a test reaches, count its lines, or run again when it changes: they need the sources themselves. */
const [, command = '', ...words] = process.argv
const watches = /vitest(\.mjs)?$/.test(command) && !words.includes('run') && !words.includes('--run')
const needsSources = watches || ['--changed', '--coverage', '--watch'].some((flag) => words.includes(flag))
const house = needsSources ? null : await plainHouse()

/**
 * V8 compiles what ran a while with all its art, on threads beside: two fifths of what a file of pages took, for code that then hardly
 * runs. Ten times later pages cost a third less, and simulations, which run long, what they did. Newer ones know no such option.
 */
const late = '--interrupt-budget'
const options = execFileSync(process.execPath, ['--v8-options'], { encoding: 'utf8', maxBuffer: 2 ** 24 })
const compileLate = options.includes(`${late} (`) ? [`${late}=660000`] : []

/** A page makes much and keeps nothing: with more space for what is new, a sixth less of all that is done. Not where memory is measured. */
const collectSeldom = ['--min-semi-space-size=32', '--max-semi-space-size=64']

const tests = 'tests/**/*.test.{ts,tsx}'
const browserTests = 'tests/browser/**/*.test.{ts,tsx}'
const outsideTests = 'tests/outside/**/*.test.ts'
const faultTests = 'tests/faults/**/*.test.ts'
/** They hold how much memory a process ever took: each has its own. */
const measuredTests = ['backups', 'forms', 'plans', 'statements'].map((name) => `tests/fuzz/${name}.test.ts`)

const kind = (name: string, rest: NonNullable<UserWorkspaceConfig['test']>) => ({
  extends: true as const,
  test: { name, ...rest },
})

/** No test mocks a module or leaves anything behind: loading the house anew for each file would take as long as the tests. */
const sharing = {
  isolate: false,
  testTimeout: 120_000,
  hookTimeout: 60_000,
  execArgv: [...compileLate, ...collectSeldom],
}
const fuzz = { testTimeout: 30_000 }
const faults = kind('faults', { include: [faultTests], testTimeout: 180_000, hookTimeout: 60_000 })

/** A process serves one of these only: all kinds in one, so that the whole run loads the house, and makes its code quick, once a worker. */
const whole = [
  faults,
  kind('fuzz', { ...fuzz, include: measuredTests }),
  kind('shared', { ...sharing, include: [tests], exclude: [faultTests, ...measuredTests] }),
]
const byKind = [
  kind('unit', {
    ...sharing,
    include: [tests],
    exclude: [browserTests, outsideTests, faultTests, 'tests/fuzz/**'],
  }),
  kind('outside', { ...sharing, include: [outsideTests] }),
  kind('fuzz', { ...fuzz, include: ['tests/fuzz/**/*.test.ts'] }),
  faults,
  kind('browser', { ...sharing, include: [browserTests] }),
]
const asksForKind = words.some((word) => word.startsWith('--project'))

export default defineConfig({
  root,
  plugins: house ? [house.plugin] : [],
  oxc: { jsx: { runtime: 'automatic', importSource: 'hono/jsx' } },
  test: {
    pool: 'forks',
    execArgv: compileLate,
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
    // All processes, and the part under Node 24 beside them, take one another's compiled modules.
    ...(house ? { experimental: { fsModuleCache: true, fsModuleCachePath: house.compiledTests } } : {}),
    coverage: { include: ['src/**', 'views/**'] },
    projects: asksForKind ? byKind : whole,
  },
})
