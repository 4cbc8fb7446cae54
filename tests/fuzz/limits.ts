// What every fuzz test keeps to: how many inputs, from which seed, and how much time and memory one of them may take.
import { expect } from 'vitest'

/** 10,000 in the test command; `npm run fuzz` asks for 100,000. */
export const fuzzRuns = (share = 1): number => Math.ceil(Number(process.env.FUZZ_RUNS ?? '10000') * share)

export const fuzzSeed = Number(process.env.FUZZ_SEED ?? '20261125')

/** Processor time, not the clock: the machine may be busy with something else. */
export const expectQuick = (before: NodeJS.CpuUsage, what = ''): void => {
  const { user, system } = process.cpuUsage(before)
  expect((user + system) / 1000, what).toBeLessThan(2000)
}

/** `besides`: what the process held before the first input, where a whole house was built in it. */
export const expectSmall = (besides = 0): void => {
  expect((process.memoryUsage().rss - besides) / 1_048_576).toBeLessThan(500)
}
