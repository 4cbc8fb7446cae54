// npm runs this once the house and its libraries are installed: the bundle is made then, and one start is gone through, so that the
// first of a person finds the sample built and what V8 makes of the bundle as later starts find it.
import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { madeBefore, readyBundle } from './bundle.mjs'

/** A slow machine makes its first start itself. */
const patienceMilliseconds = 60_000

// What hinders it is no reason not to be installed: the first start tries again, and says what it was.
try {
  const folder = await readyBundle()
  const { status } = spawnSync(process.execPath, [join(import.meta.dirname, 'start-once.mjs'), folder], {
    stdio: 'ignore',
    timeout: patienceMilliseconds,
  })
  if (status !== 0) rmSync(join(folder, madeBefore), { recursive: true, force: true })
} catch (error) {
  console.warn(`The bundle will be made at the first start: ${error.message}`)
}
