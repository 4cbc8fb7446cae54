import { describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { JobBoard, type JobWork } from '#web/forms/jobs.ts'

/** Work that ends when it is told to. */
function heldWork(key: string) {
  let end: (result: string) => void = () => {}
  let fail: (error: Error) => void = () => {}
  let starts = 0
  let progress: (done: number, of: number) => void = () => {}
  let signal: AbortSignal | undefined
  const failures: unknown[] = []
  const work: JobWork<string> = {
    key,
    askedOn: day('2026-11-29'),
    of: 10,
    failed: 'It could not be done.',
    onFailure: (error) => failures.push(error),
    run: (watch) => {
      starts += 1
      progress = watch.onProgress
      signal = watch.signal
      return new Promise((resolve, reject) => {
        end = resolve
        fail = reject
        watch.signal.addEventListener('abort', () => reject(watch.signal.reason))
      })
    },
  }
  return {
    work,
    failures,
    end: (result: string) => end(result),
    fail: (error: Error) => fail(error),
    progress: (done: number) => progress(done, 10),
    starts: () => starts,
    isAborted: () => signal?.aborted,
  }
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 0))

describe('a job', () => {
  test('runs once for what it is about, and its result is kept', async () => {
    const board = new JobBoard<string>()
    const held = heldWork('plan 1')
    const job = board.start(held.work)
    expect(board.start(held.work)).toBe(job)
    held.end('an answer')
    await settled()
    expect(job.state).toMatchObject({ status: 'done', result: 'an answer' })
    expect(board.start(held.work)).toBe(job)
    expect(held.starts()).toBe(1)
  })

  test('tells how far it is', () => {
    const board = new JobBoard<string>()
    const held = heldWork('plan 1')
    const job = board.start(held.work)
    expect(job.state).toEqual({ status: 'running', done: 0, of: 10 })
    held.progress(4)
    expect(board.get(job.id)?.state).toEqual({ status: 'running', done: 4, of: 10 })
  })

  test('stopped stays stopped whatever the work still does, and can be started anew', async () => {
    const board = new JobBoard<string>()
    const held = heldWork('plan 1')
    const job = board.start(held.work)
    expect(board.stop(job.id)).toBe(true)
    expect(held.isAborted()).toBe(true)
    held.progress(9)
    await settled()
    expect(job.state).toEqual({ status: 'stopped', forNewer: false })
    expect(held.failures).toEqual([])
    expect(board.stop(job.id)).toBe(false)
    const again = board.start(held.work)
    expect(again.id).not.toBe(job.id)
    expect(again.state.status).toBe('running')
  })

  test('that fails says so in words and reports the error', async () => {
    const board = new JobBoard<string>()
    const held = heldWork('plan 1')
    const job = board.start(held.work)
    held.fail(new Error('out of luck'))
    await settled()
    expect(job.state).toEqual({ status: 'failed', says: 'It could not be done.' })
    expect(held.failures).toHaveLength(1)
  })

  test('is forgotten when forty newer ones are kept, but never while it runs', async () => {
    const board = new JobBoard<string>()
    const running = board.start(heldWork('slow').work)
    const first = heldWork('first')
    const old = board.start(first.work)
    first.end('done')
    await settled()
    for (let count = 0; count < 45; count += 1) {
      const held = heldWork(`other ${count}`)
      board.start(held.work)
      held.end('done')
      await settled()
    }
    expect(board.get(old.id)).toBeUndefined()
    expect(board.get(running.id)).toBe(running)
  })

  test('asked for anew counts as the last of its kind', async () => {
    const board = new JobBoard<string>()
    const first = heldWork('plan 1 one')
    const one = board.start(first.work)
    const two = board.start(heldWork('plan 1 two').work)
    const other = board.start(heldWork('plan 2 one').work)
    expect(board.last('plan 1 ')).toBe(two)
    expect(board.start(first.work)).toBe(one)
    expect(board.last('plan 1 ')).toBe(one)
    expect(board.last('plan 2 ')).toBe(other)
    expect(board.last('plan 3 ')).toBeUndefined()
  })

  test('is stopped when four newer ones are under way, not for those that are done', async () => {
    const board = new JobBoard<string>()
    const works = Array.from({ length: 6 }, (_, count) => heldWork(`plan ${count}`))
    const done = board.start(works[0]!.work)
    works[0]!.end('an answer')
    await settled()
    const [oldest, ...four] = works.slice(1).map(({ work }) => board.start(work))
    expect(done.state.status).toBe('done')
    expect(oldest!.state).toEqual({ status: 'stopped', forNewer: true })
    expect(works[1]!.isAborted()).toBe(true)
    expect(four.map((job) => job.state.status)).toEqual(Array(4).fill('running'))
  })
})
