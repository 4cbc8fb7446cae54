// The plain modules that the tests load: those of the sources as they are now, and compiled tests that name no others.
import { dirname, join, sep } from 'node:path'
import { expect, test } from 'vitest'
import { plainHouse } from './plain-house.ts'

test('what tests import of the house and the tests compiled for it lie in one folder, which a changed letter replaces', async () => {
  const { plugin, compiledTests } = await plainHouse()
  const resolve = plugin.resolveId as (asked: string, importer?: string) => string | null
  const house = dirname(compiledTests) + sep
  for (const [asked, file] of [
    ['#money/cents.ts', 'src/money/cents.mjs'],
    ['#views/parts/table.tsx', 'views/parts/table.mjs'],
    ['#src/cli/command.ts', 'src/cli/command.mjs'],
    ['../src/cli/command.ts', 'src/cli/command.mjs'],
  ] as const)
    expect(resolve(asked, import.meta.filename)).toBe(join(house, file))
  for (const asked of ['./tidy.test.ts', 'zod', '#money/none.css'])
    expect(resolve(asked, import.meta.filename)).toBe(null)
  const { cents } = (await import(join(house, 'src/money/cents.mjs'))) as typeof import('#money/cents.ts')
  expect(cents(5)).toBe(5)
})
