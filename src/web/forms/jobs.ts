// Long work off the request: started once for what it is about, watched by polling, stopped by a button, and its result kept.
import { randomUUID } from 'node:crypto'
import type { Day } from '#calendar/day.ts'
import { secondsLeft } from '#kept/time-left.ts'
import type { JobShown } from '#views/parts/running.tsx'
import type { AskedState } from './asked/asked-state.ts'

export type JobState<Result> =
  /** `waits` until one of those before it has ended. */
  | { status: 'running'; done: number; of: number; waits?: true }
  | { status: 'done'; result: Result; seconds: number }
  | { status: 'stopped'; forNewer: boolean }
  | { status: 'failed'; says: string }

export interface Job<Result> {
  id: string
  /** What the result depends on: what the plan says, law, question, choices, seed. The same key is worked out once. */
  key: string
  askedOn: Day
  /** Of the plan when it was asked: no part of the key, since a plan that is changed back has what was worked out for it. */
  revisionNo: number
  asked: AskedState
  state: JobState<Result>
  /** When its work began, milliseconds of the process’s clock; and what is known of its result before all is. */
  since: number
  soFar?: Result
}

/** The job as its page shows it; `shown` picks what the page needs of the result. */
export const jobShown = <Result, Done>(
  job: Job<Result> | undefined,
  shown: (result: Result) => Done,
): JobShown<Done> => {
  if (!job) return { status: 'none' }
  const { state } = job
  switch (state.status) {
    case 'running':
      return {
        status: 'running',
        done: state.done,
        of: state.of,
        waits: state.waits === true,
        id: job.id,
        secondsLeft: secondsLeft((performance.now() - job.since) / 1_000, state),
        soFar: soFar(job, shown),
      }
    case 'done':
      return { status: 'done', seconds: state.seconds, ...shown(state.result) }
    case 'stopped':
      return { ...state, soFar: soFar(job, shown) }
    case 'failed':
      return state
  }
}

const soFar = <Result, Done>(job: Job<Result>, shown: (result: Result) => Done): Done | null =>
  job.soFar === undefined ? null : shown(job.soFar)

/** Said of one that would wait behind too many. */
const tooManyWait =
  'It was not started: twenty others wait already. Stop one of them, or ask again when they are answered.'

export interface JobWork<Result> {
  key: string
  askedOn: Day
  revisionNo: number
  asked: AskedState
  of: number
  run(watch: {
    signal: AbortSignal
    onProgress(done: number, of: number): void
    onSoFar(result: Result): void
  }): Promise<Result>
  /** What the page says when it fails; the error itself goes to `onFailure`. */
  failed: string
  onFailure(error: unknown): void
}

/** Jobs kept; the one not asked for the longest goes first. */
const mostKept = 40

/** Jobs under way at once: enough for two people, and each holds a plan worked out month by month. */
const mostUnderWay = 4

/** Those that wait hold a plan each, not yet worked out. */
const mostWaiting = 20

export interface BoardChoices {
  /**
   * What becomes of a job where too many are under way: it waits for its turn, or the one asked for first is stopped, where jobs are
   * begun by a page as it is opened, and the newest is meant.
   */
  whenFull: 'wait' | 'stop the oldest'
}

export interface JobsMeant<Result> {
  /** As the address names it; empty for none. */
  id: string
  /** Asked of this thing, as it is or as it was. */
  isOfIt(job: Job<Result>): boolean
  /** Asked of it as it is now. */
  isNow(job: Job<Result>): boolean
  /** Where one of now is known, whether one that is answered is shown for its name. */
  mayBeNamed?(job: Job<Result>): boolean
}

export interface JobFound<Result> {
  job: Job<Result>
  /** Of what a job was asked, where that is not how it is now. */
  before: { askedOn: Day; revisionNo: number } | null
}

export class JobBoard<Result> {
  readonly #whenFull: BoardChoices['whenFull']
  /** In the order in which they were last asked for. */
  readonly #jobs = new Map<string, Job<Result>>()
  readonly #stops = new Map<string, AbortController>()
  /** In the order in which they were first asked for. */
  readonly #waiting = new Map<string, JobWork<Result>>()

  constructor({ whenFull }: BoardChoices) {
    this.#whenFull = whenFull
  }

  /** The job of this key: one that waits, runs or is done is given back, anything else is started anew. */
  start(work: JobWork<Result>): Job<Result> {
    const known = this.find(work.key)
    if (known) this.#jobs.delete(known.id)
    if (known && (known.state.status === 'running' || known.state.status === 'done')) {
      this.#jobs.set(known.id, known)
      return known
    }
    const job: Job<Result> = {
      id: randomUUID(),
      key: work.key,
      askedOn: work.askedOn,
      revisionNo: work.revisionNo,
      asked: work.asked,
      state: { status: 'running', done: 0, of: work.of, waits: true },
      since: performance.now(),
    }
    this.#jobs.set(job.id, job)
    if (this.#whenFull === 'stop the oldest') this.#stopOldest()
    if (this.#waiting.size < mostWaiting) this.#waiting.set(job.id, work)
    else job.state = { status: 'failed', says: tooManyWait }
    this.#beginNext()
    this.#forgetOldest()
    return job
  }

  get(id: string): Job<Result> | undefined {
    return this.#jobs.get(id)
  }

  find(key: string): Job<Result> | undefined {
    return [...this.#jobs.values()].find((job) => job.key === key)
  }

  /** The job last asked for among those that are meant. */
  last(isMeant: (job: Job<Result>) => boolean): Job<Result> | undefined {
    return [...this.#jobs.values()].findLast(isMeant)
  }

  /**
   * The job that a page shows of a thing that may have changed since: the one named, else the last one of the thing as it is, else one of
   * the thing as it was, under way before answered. One that was stopped or failed is found by its name only.
   */
  shown({ id, isOfIt, isNow, mayBeNamed = () => true }: JobsMeant<Result>): JobFound<Result> | undefined {
    const last = (isMeant: (job: Job<Result>) => boolean, ...statuses: JobState<Result>['status'][]) =>
      this.last((job) => statuses.includes(job.state.status) && isMeant(job))
    const lastNow = last(isNow, 'running', 'done')
    const named = this.get(id)
    const isNamed =
      named !== undefined &&
      isOfIt(named) &&
      (lastNow === undefined || named.state.status !== 'done' || mayBeNamed(named))
    const job = isNamed ? named : (lastNow ?? last(isOfIt, 'running') ?? last(isOfIt, 'done'))
    if (!job) return undefined
    const { askedOn, revisionNo } = job
    return { job, before: isNow(job) ? null : { askedOn, revisionNo } }
  }

  /** Stops it if it runs. True when there was something to stop. */
  stop(id: string, forNewer = false): boolean {
    const job = this.#jobs.get(id)
    if (job?.state.status !== 'running') return false
    job.state = { status: 'stopped', forNewer }
    this.#waiting.delete(id)
    this.#stops.get(id)?.abort(new Error('stopped from the page'))
    return true
  }

  /** Those that have waited longest, as far as there is room. */
  #beginNext(): void {
    for (const [id, work] of this.#waiting) {
      if (this.#stops.size >= mostUnderWay) return
      this.#waiting.delete(id)
      void this.#run(this.#jobs.get(id)!, work)
    }
  }

  async #run(job: Job<Result>, work: JobWork<Result>): Promise<void> {
    const stop = new AbortController()
    this.#stops.set(job.id, stop)
    job.state = { status: 'running', done: 0, of: work.of }
    job.since = performance.now()
    const onProgress = (done: number, of: number) => {
      if (job.state.status === 'running') job.state = { status: 'running', done, of }
    }
    try {
      const onSoFar = (soFar: Result) => {
        job.soFar = soFar
      }
      const result = await work.run({ signal: stop.signal, onProgress, onSoFar })
      if (job.state.status === 'running')
        job.state = { status: 'done', result, seconds: (performance.now() - job.since) / 1000 }
    } catch (error) {
      if (job.state.status !== 'running') return
      job.state = { status: 'failed', says: work.failed }
      work.onFailure(error)
    } finally {
      this.#stops.delete(job.id)
      this.#beginNext()
    }
  }

  #stopOldest(): void {
    const underWay = [...this.#jobs.values()].filter((job) => job.state.status === 'running')
    for (const job of underWay.slice(0, -mostUnderWay)) this.stop(job.id, true)
  }

  #forgetOldest(): void {
    for (const job of this.#jobs.values()) {
      if (this.#jobs.size <= mostKept) return
      if (job.state.status !== 'running') this.#jobs.delete(job.id)
    }
  }
}
