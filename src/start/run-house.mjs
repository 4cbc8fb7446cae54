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

/**
 * V8 makes code that ran a while quick, on threads beside, and a start is over before most of that pays: it begins ten times later, until
 * the house stands. So a first page comes a tenth sooner, and a command of a moment a fifth. The V8 of Node 20 alone counts so.
 */
const [v8Major] = process.versions.v8.split('.')
const interruptBudget = (bytes) =>
  v8Major === '11' ? setFlagsFromString(`--interrupt-budget=${bytes}`) : undefined
const usualBudget = 67_584

/** First of all: V8 takes what it made before only under the flags that it made it under. */
export function setFlags() {
  setFlagsFromString(heapGrowth)
  interruptBudget(10 * usualBudget)
}

/** Once the house stands, or a command turns out to be a long one. */
export const compileAsUsual = () => interruptBudget(usualBudget)

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
