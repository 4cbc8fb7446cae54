// What is kept of what was worked out: the last few, and nothing that failed.
import { expect, test } from 'vitest'
import { keeper, keptWith } from '#kept/keeper.ts'
import { Lately } from '#kept/lately.ts'

test('what was not asked for the longest goes first', () => {
  const lately = new Lately<string, number>(2)
  lately.set('a', 1)
  lately.set('b', 2)
  expect(lately.get('a')).toBe(1)
  lately.set('c', 3)
  expect([lately.get('a'), lately.get('b'), lately.get('c')]).toEqual([1, undefined, 3])
  lately.set('a', 4)
  lately.set('d', 5)
  expect([lately.get('a'), lately.get('c'), lately.get('d')]).toEqual([4, undefined, 5])
})

test('what was let go by hand makes room', () => {
  const lately = new Lately<string, number>(1)
  lately.set('a', 1)
  lately.delete('a')
  lately.set('b', 2)
  expect([lately.get('a'), lately.get('b')]).toEqual([undefined, 2])
})

test('a thing is worked out once for its owner, even when it is nothing, and again when too much else was asked for', () => {
  const keep = keeper(2)
  const [ours, theirs] = [{}, {}]
  let made = 0
  const ask = (owner: object, key: string) =>
    keep(owner, key, () => {
      made += 1
      return key === 'nothing' ? undefined : made
    })
  expect([ask(ours, 'a'), ask(ours, 'a'), ask(theirs, 'a')]).toEqual([1, 1, 2])
  expect([ask(ours, 'nothing'), ask(ours, 'nothing')]).toEqual([undefined, undefined])
  expect(made).toBe(3)
  ask(ours, 'a')
  ask(ours, 'c')
  expect(ask(ours, 'a')).toBe(1)
  ask(ours, 'nothing')
  expect(made).toBe(5)
})

test('work that fails is asked for anew', async () => {
  const owner = {}
  let tries = 0
  const ask = () =>
    keptWith(owner, 'work', async () => {
      tries += 1
      if (tries === 1) throw new Error('the worker stopped')
      return 'done'
    })
  await expect(ask()).rejects.toThrow('the worker stopped')
  await expect(ask()).resolves.toBe('done')
  await expect(ask()).resolves.toBe('done')
  expect(tries).toBe(2)
})
