import { afterAll, describe, expect, test, vi } from 'vitest'
import { courseMemory } from '#chance/course-run.ts'
import { makeWorkspace, takePaths } from '#chance/paths.ts'
import { CoursePool } from '#chance/pool.ts'
import { prepareChance } from '#chance/prepare.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { farmPlan } from './plans.ts'

// Workers and long courses are slow on a busy machine.
vi.setConfig({ testTimeout: 180_000 })

const plan = farmPlan({}, 70)
const rules = publishedRules(plan)
const prepared = prepareChance(plan, rules, { seed: 12, paths: 60 })

const pools: CoursePool[] = []
const poolOf = (workers: number) => {
  const pool = new CoursePool(workers)
  pools.push(pool)
  return pool
}
afterAll(async () => {
  await Promise.all(pools.map((pool) => pool.close()))
})

const bytes = (array: Float64Array | Int32Array) =>
  Buffer.from(array.buffer, array.byteOffset, array.byteLength).toString('base64')

describe('the pool of workers', () => {
  test('gives the same bytes with one, two and four workers, and with none', async () => {
    const memory = courseMemory(prepared)
    takePaths(prepared, memory, makeWorkspace(prepared))
    for (const workers of [1, 2, 4]) {
      const result = await poolOf(workers).run(prepared)
      expect(bytes(result.figures)).toBe(bytes(memory.figures))
      if (workers === 1) continue
      const first = await pools[0]!.run(prepared)
      expect(bytes(result.bands)).toBe(bytes(first.bands))
      expect(bytes(result.running)).toBe(bytes(first.running))
      expect(result.outcome).toEqual(first.outcome)
    }
  })

  test('tells its progress and ends at all of them', async () => {
    const told: number[] = []
    await pools[1]!.run({ ...prepared, paths: 400 }, { onProgress: (done) => told.push(done) })
    expect(told.at(-1)).toBe(400)
    expect([...told].sort((a, b) => a - b)).toEqual(told)
  })

  test('stops within 200 ms of being told to, and works on afterwards', async () => {
    const pool = pools[1]!
    const stopping = new AbortController()
    const reason = new Error('asked to stop')
    const running = pool.run({ ...prepared, paths: 100_000 }, { signal: stopping.signal })
    await new Promise((resolve) => setTimeout(resolve, 150))
    const start = performance.now()
    stopping.abort(reason)
    await expect(running).rejects.toBe(reason)
    expect(performance.now() - start).toBeLessThan(200)
    const small = await pool.run({ ...prepared, paths: 4 })
    expect(small.outcome.paths).toBe(4)
  })

  test('gives the same for a run after a larger one in the same memory, and leaves alone what it gave before', async () => {
    const pool = pools[1]!
    const alone = await pools[0]!.run(prepared)
    const figures = await pool.figures(prepared)
    const kept = bytes(figures)
    const other = { ...prepared, seed: prepared.seed + 1, paths: 400 }
    expect(bytes(await pool.figures(other)).slice(0, kept.length)).not.toBe(kept)
    expect(bytes(figures)).toBe(kept)
    const again = await pool.run(prepared)
    expect(bytes(again.figures)).toBe(bytes(alone.figures))
    expect(bytes(again.bands)).toBe(bytes(alone.bands))
    expect(bytes(again.running)).toBe(bytes(alone.running))
    expect(again.outcome).toEqual(alone.outcome)
  })

  test('refuses a run that was stopped before it began', async () => {
    const signal = AbortSignal.abort(new Error('too late'))
    await expect(pools[1]!.run(prepared, { signal })).rejects.toThrow('too late')
  })

  test('does one thing after another, and what is stopped while it waits never begins', async () => {
    const pool = pools[1]!
    const ended: string[] = []
    const told: number[] = []
    const stopping = new AbortController()
    const reason = new Error('no longer wanted')
    const first = pool.run({ ...prepared, paths: 300 }).then(() => ended.push('first'))
    const waiting = pool.figures(
      { ...prepared, paths: 100_000 },
      { signal: stopping.signal, onProgress: (done) => told.push(done) },
    )
    const last = pool.run({ ...prepared, paths: 4 }).then(() => ended.push('last'))
    stopping.abort(reason)
    await expect(waiting).rejects.toBe(reason)
    expect(ended).toEqual([])
    await Promise.all([first, last])
    expect(ended).toEqual(['first', 'last'])
    expect(told).toEqual([])
  })
})
