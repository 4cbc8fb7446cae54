import { expect, test } from 'vitest'
import { inTurns } from '#web/server/turns.ts'

const ask = (path: string) => new Request(`http://localhost${path}`)

test('between two pages the loop has a round, so that whoever is at the door is let in', async () => {
  let rounds = 0
  let isWatching = true
  const watch = () => {
    rounds += 1
    if (isWatching) setImmediate(watch)
  }
  const seen: number[] = []
  const house = inTurns({
    fetch: () => {
      seen.push(rounds)
      return new Response()
    },
  })
  setImmediate(watch)
  await Promise.all(Array.from({ length: 10 }, (_, page) => house.fetch(ask(`/${page}`))))
  isWatching = false
  expect(seen).toHaveLength(10)
  expect(new Set(seen).size).toBe(10)
})

test('pages begin in the order in which they were asked for, and one that waits or breaks holds up nobody', async () => {
  const begun: string[] = []
  const house = inTurns({
    fetch: (request) => {
      const { pathname } = new URL(request.url)
      begun.push(pathname)
      if (pathname === '/waits') return new Promise<Response>(() => {})
      if (pathname === '/breaks') throw new Error('broken')
      return new Response(pathname)
    },
  })
  void house.fetch(ask('/waits'))
  const broken = house.fetch(ask('/breaks'))
  const last = house.fetch(ask('/last'))
  await expect(broken).rejects.toThrow('broken')
  expect(await (await last).text()).toBe('/last')
  expect(begun).toEqual(['/waits', '/breaks', '/last'])
})
