// The workers that run courses: kept alive, at most one per processor, stopped within one course by an abort signal.
// The result does not depend on their number: each path writes its own place, and its numbers come from its own streams.
import { availableParallelism } from 'node:os'
import { serialize } from 'node:v8'
import type { BandRows } from './bands.ts'
import { bandShares } from './bands.ts'
import { type BearingTask, bearingWidth } from './by-path/bearing.ts'
import type { ThresholdTask } from './by-path/thresholds.ts'
import { type YearEndTask, yearEndWidth } from './by-path/year-ends.ts'
import { type CourseRun, counter, courseMemory, usedAgain } from './course-run.ts'
import type { Outcome } from './outcome.ts'
import type { WorkerTask, WorkOrder } from './worker.ts'
import { Workers } from './workers.ts'

export interface RunOptions {
  /** Stops the run; what was asked then rejects with the signal's reason. */
  signal?: AbortSignal | undefined
  /** Told several times a second how many paths are done. */
  onProgress?: ((done: number, of: number) => void) | undefined
}

export interface ChanceResult {
  outcome: Outcome
  /** 10th, 50th and 90th percentile of spendable savings, three numbers per month; NaN where no course runs. */
  bands: Float64Array
  /** The same at the plan's first prices, each course by its own. */
  bandsAtFirstPrices: Float64Array
  /** Courses that still run, by month. */
  running: Int32Array
  /** The figures of every path, `figureCount` each. */
  figures: Float64Array
}

export const mostWorkers = availableParallelism()

/** What a server gives its workers: pages are answered first, and on an idle machine nothing is lost. */
export const serverNiceness = 5

const progressEveryMilliseconds = 80
let nextId = 1

export class CoursePool {
  readonly workers: number
  readonly #threads: Workers
  readonly #space = usedAgain()
  /** Settles when the workers are free of all that was asked so far. */
  #free: Promise<unknown> = Promise.resolve()

  /** More workers than processors only wait for each other: callers who read a number from outside hold it to `mostWorkers`.
   * `niceness` lets the thread that answers pages go before the workers (Unix scheduling, 0 to 19). */
  constructor(workers: number = mostWorkers, options: { niceness?: number } = {}) {
    this.workers = Math.max(1, workers)
    this.#threads = new Workers({
      filename: new URL('./worker.mjs', import.meta.url).href,
      name: 'work',
      minThreads: this.workers,
      maxThreads: this.workers,
      niceIncrement: options.niceness ?? 0,
    })
    void this.#threads.ready()
  }

  /** Runs every path and reads off percentiles, bands and the rest. */
  run(run: CourseRun, options: RunOptions = {}): Promise<ChanceResult> {
    return this.#inTurn(options.signal, async () => {
      const order = this.#order({ ...run, keepsMonths: true })
      await this.#onAll(order, { kind: 'paths' }, run.paths, options)
      const [outcome, shown, atFirstPrices] = await Promise.all([
        this.#threads.run<Outcome>({ ...order, task: { kind: 'outcome' } }),
        this.#bands(order, 'months', run.plan.months),
        this.#bands(order, 'atFirstPrices', run.plan.months),
      ])
      return {
        outcome,
        ...shown,
        bandsAtFirstPrices: atFirstPrices.bands,
        figures: order.memory.figures.slice(),
      }
    })
  }

  /** Runs every path and gives back its figures only, `figureCount` each: what the solvers ask again and again. */
  figures(run: CourseRun, options: RunOptions = {}): Promise<Float64Array> {
    return this.#inTurn(options.signal, async () => {
      const order = this.#order({ ...run, keepsMonths: false })
      await this.#onAll(order, { kind: 'paths' }, run.paths, options)
      return order.memory.figures.slice()
    })
  }

  /** For each path, the setting of a dial at which its course turns good: see `takeThresholds`. */
  thresholds(run: CourseRun, task: ThresholdTask, options: RunOptions = {}): Promise<Float64Array> {
    return this.#inTurn(options.signal, async () => {
      const order = this.#order({ ...run, keepsMonths: false })
      const thresholds = new Float64Array(new SharedArrayBuffer(run.paths * 8))
      await this.#onAll(
        order,
        { kind: 'thresholds', task, thresholds },
        run.paths - (task.skip ?? 0),
        options,
      )
      return thresholds
    })
  }

  /** For each path, what draws its farm bears: see `takeBearings`. */
  bearings(run: CourseRun, task: BearingTask, options: RunOptions = {}): Promise<Float64Array> {
    return this.#inTurn(options.signal, async () => {
      const order = this.#order({ ...run, keepsMonths: false })
      const bearings = new Float64Array(new SharedArrayBuffer(run.paths * bearingWidth(task) * 8))
      await this.#onAll(order, { kind: 'bearings', task, bearings }, run.paths, options)
      return bearings
    })
  }

  /** For each path, its savings at the end of some months: see `takeYearEnds`. */
  yearEnds(run: CourseRun, task: YearEndTask, options: RunOptions = {}): Promise<Float64Array> {
    return this.#inTurn(options.signal, async () => {
      const order = this.#order({ ...run, keepsMonths: false })
      const yearEnds = new Float64Array(new SharedArrayBuffer(run.paths * yearEndWidth(task) * 8))
      await this.#onAll(order, { kind: 'yearEnds', task, yearEnds }, run.paths, options)
      return yearEnds
    })
  }

  async close(): Promise<void> {
    await this.#threads.close()
  }

  /**
   * One thing after another, each with all workers: what waits takes no memory yet for its paths. Rejects with the signal's
   * reason as soon as it aborts; the next has its turn when the workers have stopped.
   */
  #inTurn<Value>(signal: AbortSignal | undefined, work: () => Promise<Value>): Promise<Value> {
    const done = this.#free.then(() => {
      signal?.throwIfAborted()
      return work()
    })
    this.#free = done.catch(() => {})
    return untilAborted(done, signal)
  }

  #order(run: CourseRun): Omit<WorkOrder, 'task'> {
    const bytes = serialize(run)
    const plan = new Uint8Array(this.#space('plan', bytes.length), 0, bytes.length)
    plan.set(bytes)
    nextId += 1
    return { id: nextId, plan, memory: courseMemory(run, this.#space) }
  }

  /** Gives every worker the same task; they share its paths among themselves. */
  async #onAll(
    order: Omit<WorkOrder, 'task'>,
    task: WorkerTask,
    paths: number,
    options: RunOptions,
  ): Promise<void> {
    const { counters } = order.memory
    const { signal, onProgress } = options
    const stop = () => void Atomics.store(counters, counter.stop, 1)
    const tell = () => onProgress?.(Atomics.load(counters, counter.done), paths)
    const ticking = onProgress ? setInterval(tell, progressEveryMilliseconds) : undefined
    signal?.addEventListener('abort', stop, { once: true })
    const tasks = Array.from({ length: this.workers }, () =>
      this.#threads.run({ ...order, task } satisfies WorkOrder),
    )
    try {
      await Promise.all(tasks)
    } catch (error) {
      stop()
      await Promise.allSettled(tasks)
      throw error
    } finally {
      clearInterval(ticking)
      signal?.removeEventListener('abort', stop)
    }
    signal?.throwIfAborted()
    tell()
  }

  async #bands(
    order: Omit<WorkOrder, 'task'>,
    of: 'months' | 'atFirstPrices',
    months: number,
  ): Promise<{ bands: Float64Array; running: Int32Array }> {
    const bands = new Float64Array(months * bandShares.length)
    const running = new Int32Array(months)
    // Several pieces for each worker, since one of them is busy with the summary at first.
    const pieces = this.workers * 4
    const step = Math.ceil(months / pieces)
    const starts = Array.from({ length: pieces }, (_, piece) => piece * step)
    await Promise.all(
      starts.map(async (fromMonth) => {
        const toMonth = Math.min(months, fromMonth + step)
        if (fromMonth >= toMonth) return
        const task = { kind: 'bands', of, fromMonth, toMonth } as const
        const rows = await this.#threads.run<BandRows>({ ...order, task } satisfies WorkOrder)
        bands.set(rows.values, fromMonth * bandShares.length)
        running.set(rows.running, fromMonth)
      }),
    )
    return { bands, running }
  }
}

/** The promise, or the signal's reason as soon as it aborts: who cancels does not wait for the workers to notice. */
function untilAborted<Value>(promise: Promise<Value>, signal: AbortSignal | undefined): Promise<Value> {
  if (!signal) return promise
  return new Promise((resolve, reject) => {
    if (signal.aborted) reject(signal.reason)
    const abort = () => reject(signal.reason)
    signal.addEventListener('abort', abort, { once: true })
    promise.then(resolve, reject).finally(() => signal.removeEventListener('abort', abort))
  })
}
