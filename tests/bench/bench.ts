// What a bench reports, and how it measures: medians of repeated runs.
import { existsSync, readFileSync } from 'node:fs'

export interface BenchRow {
  what: string
  milliseconds: number
  /** The least this could cost, measured in the same run: a bare loop, raw SQLite, an empty page. */
  floor?: { what: string; milliseconds: number }
  /** The asked-for bound in words, and whether it held. */
  limit?: string
  held?: boolean
}

/** By the name they are asked for: each measures in a process of its own, so that none waits for another or runs on its leavings. */
export type Benches = Readonly<Record<string, () => Promise<BenchRow[]>>>

export interface BenchModule {
  benches: Benches
}

/** Median of `times` runs in milliseconds, after `warmUp` runs that do not count. */
export const medianMilliseconds = (work: () => unknown, times = 15, warmUp = 3): Promise<number> =>
  medianOf(() => performance.now(), work, times, warmUp)

/** The same of this process's own time on a processor: what others do on the machine hardly counts. */
export const medianProcessorMilliseconds = (work: () => unknown, times = 15, warmUp = 3): Promise<number> =>
  medianOf(() => process.cpuUsage().user / 1_000, work, times, warmUp)

/**
 * Median of the time that the thread which answers was on a processor: what a page waits for on an idle machine. V8 compiles and collects
 * on other threads meanwhile, in the first pulls for as long again; nobody waits for those.
 */
export const medianAnsweringMilliseconds = (work: () => unknown, times = 25, warmUp = 8): Promise<number> =>
  medianOf(answering, work, times, warmUp)

/** Of the main thread; Linux counts it in nanoseconds and tells it at each tick (proc_pid_schedstat(5), from memory). */
const schedstat = '/proc/thread-self/schedstat'

const answering = (): number => {
  const own = (process as { threadCpuUsage?: () => { user: number } }).threadCpuUsage?.()
  if (own) return own.user / 1_000
  if (existsSync(schedstat)) return Number(readFileSync(schedstat, 'latin1').split(' ')[0]) / 1_000_000
  return process.cpuUsage().user / 1_000
}

const medianOf = async (
  clock: () => number,
  work: () => unknown,
  times: number,
  warmUp: number,
): Promise<number> => {
  const taken: number[] = []
  for (let run = 0; run < warmUp + times; run += 1) {
    const start = clock()
    await work()
    if (run >= warmUp) taken.push(clock() - start)
  }
  return taken.sort((a, b) => a - b)[Math.floor(taken.length / 2)]!
}
