#!/usr/bin/env node
// Finds or makes the bundle of src and runs it, with what V8 made of it before; nothing else.
import module from 'node:module'
import { join } from 'node:path'
import { setFlagsFromString } from 'node:v8'
import { readyBundle, root, runsFrom } from './start/bundle.mjs'
import { runBundled } from './start/run-bundled.mjs'

/**
 * A heap grows to twice what lives in it before V8 collects, not to four times of it: what pages keep until the books change
 * outlives its youth, so that a busy minute would leave hundreds of megabytes for V8 to find at some later time.
 */
const heapGrowth = '--heap-growing-percent=100'
/** By then the first page is there, or soon will be. */
const keptAfterMilliseconds = 30_000

// First of all: V8 takes what it made before only under the flags that it made it under.
setFlagsFromString(heapGrowth)
const folder = await readyBundle()
runsFrom(folder)
// The libraries outside the bundle: from Node 22.1 on it keeps what it makes of them itself.
module.enableCompileCache?.(join(folder, 'compiled'))
const { keep } = runBundled(join(folder, 'main.cjs'), { root, by: commandAsked() })
setTimeout(keep, keptAfterMilliseconds).unref()
process.once('exit', () => keep({ onlyIfNone: true }))

/** What one command needs, another does not. Serves when no command is named. */
function commandAsked() {
  const [, , command = ''] = process.argv
  return /^[a-z][a-z-]*$/.test(command) ? command : 'serve'
}
