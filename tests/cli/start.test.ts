// What `src/start.mjs` runs is what the sources say, at the first start, after a changed letter, and again.
import { execFileSync } from 'node:child_process'
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { expect, test } from 'vitest'

const root = join(import.meta.dirname, '../..')

test('a changed letter makes a new bundle, unchanged sources are neither read nor bundled again', async () => {
  const house = mkdtempSync(join(tmpdir(), 'dooryard-start-'))
  try {
    const write = (file: string, text: string) => {
      mkdirSync(dirname(join(house, file)), { recursive: true })
      writeFileSync(join(house, file), text)
    }
    write('package.json', '{ "type": "module" }')
    write('views/part.ts', "export const word = 'door'")
    write('sample/plan.json', '{}')
    const main = (says: string) =>
      write('src/main.ts', `import { word } from '../views/part.ts'\nconsole.log('${says}', word)`)
    main('one')
    for (const worker of [
      'chance/worker',
      'today/slower-years/slower-years-work',
      'ledger/statements/reading/reading-work',
    ])
      write(`src/${worker}.ts`, 'export {}')
    copyFileSync(join(root, 'src/start.mjs'), join(house, 'src/start.mjs'))
    mkdirSync(join(house, 'node_modules'))
    for (const name of ['esbuild', '@esbuild'])
      symlinkSync(join(root, 'node_modules', name), join(house, 'node_modules', name))
    const start = () => execFileSync(process.execPath, ['src/start.mjs'], { cwd: house, encoding: 'utf8' })
    const cache = join(house, 'node_modules/.cache')
    expect(start()).toBe('one door\n')
    // Of the same size and at once, so that size and time could hide it.
    main('two')
    expect(start()).toBe('two door\n')
    await wait(2100)
    expect(start()).toBe('two door\n')
    expect(readdirSync(cache).sort()).toEqual(['dooryard', 'dooryard-last.json'])
    // Known by their looks now: the bundle that is named runs, whatever it holds.
    const bundles = readdirSync(join(cache, 'dooryard'))
    for (const bundle of bundles)
      writeFileSync(join(cache, 'dooryard', bundle, 'main.mjs'), "console.log('kept')")
    expect(start()).toBe('kept\n')
    main('six')
    expect(start()).toBe('six door\n')
    write('views/part.ts', "export const word = 'yard'")
    expect(start()).toBe('six yard\n')
  } finally {
    rmSync(house, { recursive: true, force: true })
  }
})
