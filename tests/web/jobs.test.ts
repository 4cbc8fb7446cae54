import { describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { planSchema } from '#plan/plan.ts'
import { JobBoard, type JobWork, jobShown } from '#web/forms/jobs.ts'

const plan = planSchema.parse({ startMonth: '2027-01' })

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
    revisionNo: 1,
    asked: { saved: plan, ongoing: plan, changeId: 0 },
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
    const board = new JobBoard<string>({ whenFull: 'wait' })
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
    const board = new JobBoard<string>({ whenFull: 'wait' })
    const held = heldWork('plan 1')
    const job = board.start(held.work)
    expect(job.state).toEqual({ status: 'running', done: 0, of: 10 })
    held.progress(4)
    expect(board.get(job.id)?.state).toEqual({ status: 'running', done: 4, of: 10 })
  })

  test('stopped stays stopped whatever the work still does, and can be started anew', async () => {
    const board = new JobBoard<string>({ whenFull: 'wait' })
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
    const board = new JobBoard<string>({ whenFull: 'wait' })
    const held = heldWork('plan 1')
    const job = board.start(held.work)
    held.fail(new Error('out of luck'))
    await settled()
    expect(job.state).toEqual({ status: 'failed', says: 'It could not be done.' })
    expect(held.failures).toHaveLength(1)
  })

  test('is forgotten when forty newer ones are kept, but never while it runs', async () => {
    const board = new JobBoard<string>({ whenFull: 'wait' })
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
    const board = new JobBoard<string>({ whenFull: 'wait' })
    const first = heldWork('plan 1 one')
    const one = board.start(first.work)
    const two = board.start(heldWork('plan 1 two').work)
    const other = board.start(heldWork('plan 2 one').work)
    const last = (start: string) => board.last(({ key }) => key.startsWith(start))
    expect(last('plan 1 ')).toBe(two)
    expect(board.start(first.work)).toBe(one)
    expect(last('plan 1 ')).toBe(one)
    expect(last('plan 2 ')).toBe(other)
    expect(last('plan 3 ')).toBeUndefined()
  })

  test('begun by pages as they open is stopped when four newer ones are under way, not for those that are done', async () => {
    const board = new JobBoard<string>({ whenFull: 'stop the oldest' })
    const works = Array.from({ length: 6 }, (_, count) => heldWork(`plan ${count}`))
    const done = board.start(works[0]!.work)
    works[0]!.end('an answer')
    await settled()
    const [oldest, ...four] = works.slice(1).map(({ work }) => board.start(work))
    expect(done.state.status).toBe('done')
    expect(oldest!.state).toEqual({ status: 'stopped', forNewer: true })
    expect(works[1]!.isAborted()).toBe(true)
    expect(four.map((job) => job.state.status)).toEqual(Array(4).fill('running'))
    await settled()
    expect(works.slice(2).map((work) => work.starts())).toEqual([1, 1, 1, 1])
  })

  test('asked for by people, seven at once: four run, three wait their turn, and none is dropped', async () => {
    const board = new JobBoard<string>({ whenFull: 'wait' })
    const works = Array.from({ length: 7 }, (_, count) => heldWork(`plan ${count}`))
    const jobs = works.map(({ work }) => board.start(work))
    expect(works.map((work) => work.starts())).toEqual([1, 1, 1, 1, 0, 0, 0])
    expect(jobShown(jobs[4], (told) => ({ told }))).toMatchObject({ status: 'running', waits: true })
    // One that waits is asked for again: it is the same one. One that waits is stopped: it never begins.
    expect(board.start(works[6]!.work)).toBe(jobs[6])
    expect(board.stop(jobs[5]!.id)).toBe(true)
    works[1]!.end('second')
    await settled()
    expect(jobShown(jobs[4], (told) => ({ told }))).toMatchObject({ status: 'running', waits: false })
    for (const place of [0, 2, 3, 4]) works[place]!.end(`answer ${place}`)
    await settled()
    works[6]!.end('answer 6')
    await settled()
    expect(jobs.map(({ state }) => state.status)).toEqual([...Array(5).fill('done'), 'stopped', 'done'])
    expect(works[5]!.starts()).toBe(0)
  })

  test('of which twenty wait already is not started, and says so', () => {
    const board = new JobBoard<string>({ whenFull: 'wait' })
    const jobs = Array.from({ length: 25 }, (_, count) => board.start(heldWork(`plan ${count}`).work))
    expect(jobs.slice(0, 24).every(({ state }) => state.status === 'running')).toBe(true)
    expect(jobs[24]!.state).toMatchObject({
      status: 'failed',
      says: expect.stringContaining('twenty others wait'),
    })
    // When one has been stopped there is room for it.
    board.stop(jobs[10]!.id)
    expect(board.start(heldWork('plan 24').work).state.status).toBe('running')
  })
})
