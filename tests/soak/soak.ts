// Mixed requests at a steady pace against a running house: counts what failed, how long answers took, and what memory did.
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import type { Hono } from 'hono'
import type { PageEnv } from '#web/server/context.ts'

export interface SoakOptions {
  seconds: number
  perSecond: number
  /** Choices of the round-robin come from here, so that a run can be repeated. */
  seed: number
}

export interface SoakReport {
  requests: number
  failures: string[]
  medianMilliseconds: number
  p99Milliseconds: number
  longestMilliseconds: number
  /** Heap in use after collecting, in the first and the last quarter, in MB. */
  heapEarlyMegabytes: number
  heapLateMegabytes: number
  /** The most memory the process had at any look, all kinds together. */
  largestMegabytes: number
}

/** What a run saw, in a few lines. */
export const soakWords = (report: SoakReport, seconds: number): string => {
  const growth = report.heapLateMegabytes - report.heapEarlyMegabytes
  return [
    `${report.requests} requests in ${seconds} s, ${report.failures.length} failed`,
    `median ${report.medianMilliseconds.toFixed(1)} ms, p99 ${report.p99Milliseconds.toFixed(1)} ms, longest ${report.longestMilliseconds.toFixed(0)} ms`,
    `heap ${report.heapEarlyMegabytes.toFixed(0)} MB early, ${report.heapLateMegabytes.toFixed(0)} MB late (${growth.toFixed(0)} MB more), ${report.largestMegabytes.toFixed(0)} MB of memory at most`,
    ...report.failures,
  ].join('\n')
}

export interface SoakRequest {
  path: string
  form?: Record<string, string>
}

/** How often memory is looked at: each look collects all of it, which takes as long as ten pages. */
const looks = 20

/** Sends `perSecond` requests each second, whether or not earlier ones have come back, as visitors would. */
export async function soak(
  app: Pick<Hono<PageEnv>, 'request'>,
  pick: (dice: () => number) => SoakRequest,
  options: SoakOptions,
): Promise<SoakReport> {
  const dice = diceOf(options.seed)
  const taken: number[] = []
  const failures: string[] = []
  const heaps: number[] = []
  let largest = 0
  const waiting = new Set<Promise<void>>()
  const total = options.seconds * options.perSecond
  const start = performance.now()
  for (let sent = 0; sent < total; sent += 1) {
    const due = start + (sent * 1000) / options.perSecond
    const ahead = due - performance.now()
    if (ahead > 0) await new Promise((resolve) => setTimeout(resolve, ahead))
    else if (sent % 20 === 0) await new Promise((resolve) => setImmediate(resolve))
    const one = send(app, pick(dice), taken, failures).finally(() => waiting.delete(one))
    waiting.add(one)
    if (sent % Math.max(1, Math.floor(total / looks)) === 0) {
      largest = Math.max(largest, process.memoryUsage().rss)
      heaps.push(heapMegabytes())
    }
  }
  await Promise.all(waiting)
  taken.sort((a, b) => a - b)
  const quarter = Math.max(1, Math.floor(heaps.length / 4))
  return {
    requests: taken.length,
    failures,
    medianMilliseconds: taken[Math.floor(taken.length * 0.5)] ?? 0,
    p99Milliseconds: taken[Math.floor(taken.length * 0.99)] ?? 0,
    longestMilliseconds: taken.at(-1) ?? 0,
    heapEarlyMegabytes: Math.min(...heaps.slice(quarter, 2 * quarter)),
    heapLateMegabytes: Math.min(...heaps.slice(-quarter)),
    largestMegabytes: largest / 1_048_576,
  }
}

async function send(
  app: Pick<Hono<PageEnv>, 'request'>,
  request: SoakRequest,
  taken: number[],
  failures: string[],
): Promise<void> {
  const start = performance.now()
  const init = request.form
    ? { method: 'POST', body: new URLSearchParams(request.form), headers: { origin: 'http://localhost' } }
    : {}
  const reply = await app.request(`http://localhost${request.path}`, init)
  await reply.text()
  taken.push(performance.now() - start)
  if (reply.status >= 400 && failures.length < 20) failures.push(`${reply.status} ${request.path}`)
}

setFlagsFromString('--expose-gc')
const collect = runInNewContext('gc') as () => void

const heapMegabytes = (): number => {
  collect()
  return process.memoryUsage().heapUsed / 1_048_576
}

/** A small generator for choosing pages; nothing depends on its quality. */
const diceOf = (seed: number) => {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}
