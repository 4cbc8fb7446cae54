import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, expect, test } from 'vitest'
import { Workers } from '#chance/workers.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-workers-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})
const good = 'export default (number) => number * 2'
const bad: readonly [string, string][] = [
  ['throws at its start', 'throw new Error("no room")'],
  ['ends at its start', 'process.exit(7)'],
  ['does not parse', 'export default ('],
  ['imports what is not there', 'import "./nowhere.mjs"; export default () => 1'],
]

test.for(bad)(
  'a worker that %s is told to who asked, ends nothing else, and is tried anew',
  async ([name, source]) => {
    const file = join(folder, `${name.replaceAll(' ', '-')}.mjs`)
    writeFileSync(file, source)
    const workers = new Workers({ filename: pathToFileURL(file).href, minThreads: 2, maxThreads: 2 })
    workers.ready()
    // Nobody has asked yet: a failure now would have nobody to tell and end the process.
    await new Promise((resolve) => setTimeout(resolve, 500))
    await expect(workers.run(21)).rejects.toThrow()
    await expect(workers.run(21)).rejects.toThrow()
    writeFileSync(file, good)
    // One of the two may still be failing.
    await expect.poll(() => workers.run(21).catch(() => 'not yet'), { timeout: 20_000 }).toBe(42)
    await workers.close()
  },
)
