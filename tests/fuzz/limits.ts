// What every fuzz test keeps to: how many inputs, from which seed, and how much time and memory they may take.
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { expect } from 'vitest'
import { fuzzRuns } from './batches.ts'

/** Milliseconds; most tests need a small part of it. */
export const fuzzTimeout = Math.max(600_000, fuzzRuns() * 180)

export interface Begun {
  cpu: NodeJS.CpuUsage
  milliseconds: number
}

export const begin = (): Begun => {
  const milliseconds = performance.now()
  if (milliseconds - lately.milliseconds > lastsMilliseconds)
    lately = { cpu: process.cpuUsage(), milliseconds }
  return { cpu: lately.cpu, milliseconds }
}

/** Asking for the processor time takes longer than many an input: what was asked a moment ago counts a little more, never less. */
const lastsMilliseconds = 200
let lately: Begun = { cpu: process.cpuUsage(), milliseconds: performance.now() }

/** Milliseconds no input may take: far above any page, far below what a square of the input's length costs, which took minutes. */
const longestInput = 6000

/**
 * Processor time of this thread, which the system does not tell: it is at most what the clock says, which runs on while
 * others use the machine, and at most the processor time of the process, in which workers answer questions meanwhile.
 */
export const expectQuick = (begun: Begun, what = ''): void => {
  const milliseconds = performance.now() - begun.milliseconds
  if (milliseconds >= longestInput) {
    const { user, system } = process.cpuUsage(begun.cpu)
    expect((user + system) / 1000, what).toBeLessThan(longestInput)
  }
  forgetEarlierInputs()
}

/** The most the process ever held. `besides`: what it held before the first input, where a whole house was built in it. */
export const expectSmall = (besides = 0): void => {
  const mostBytes = process.resourceUsage().maxRSS * 1024
  expect((mostBytes - besides) / 1_048_576).toBeLessThan(500)
}

let inputs = 0

/** The collector is lazy where memory is plenty: without this the peak would be the leavings of thousands of inputs. */
function forgetEarlierInputs(): void {
  inputs += 1
  if (inputs % 250 === 0) collectGarbage()
}

setFlagsFromString('--expose-gc')
const collectGarbage = runInNewContext('gc') as () => void
