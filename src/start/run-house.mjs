// Runs the bundle of a folder with what V8 made of it at an earlier start, for one command, and nothing else.
import module from 'node:module'
import { join } from 'node:path'
import { setFlagsFromString } from 'node:v8'
import { root, runsFrom } from './bundle.mjs'
import { runBundled } from './run-bundled.mjs'

/**
 * A heap grows to twice what lives in it before V8 collects, not to four times of it: what pages keep until the books change
 * outlives its youth, so that a busy minute would leave hundreds of megabytes for V8 to find at some later time.
 */
const heapGrowth = '--heap-growing-percent=100'

/** First of all: V8 takes what it made before only under the flags that it made it under. */
export const setFlags = () => setFlagsFromString(heapGrowth)

/** The command is read from `process.argv`, as from a terminal. */
export function runHouse(folder) {
  runsFrom(folder)
  // The libraries outside the bundle: from Node 22.1 on it keeps what it makes of them itself.
  module.enableCompileCache?.(join(folder, 'compiled'))
  return runBundled(join(folder, 'main.cjs'), { root, by: commandAsked() })
}

/** What one command needs, another does not. Serves when no command is named. */
function commandAsked() {
  const [, , command = ''] = process.argv
  return /^[a-z][a-z-]*$/.test(command) ? command : 'serve'
}
