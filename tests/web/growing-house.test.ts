import { expect, test } from 'vitest'
import { growingHouse } from '#web/server/growing-house.ts'

const ask = async (house: ReturnType<typeof growingHouse>, path: string, init: RequestInit = {}) =>
  (await house.fetch(new Request(`http://localhost${path}`, init))).text()

test('the first page does not wait for the rest of the house; other pages and every form do', async () => {
  let opened = 0
  const house = growingHouse(
    { fetch: () => new Response('front') },
    new Set(['/now', '/unlock']),
    async () => {
      opened += 1
      return { fetch: () => new Response('whole') }
    },
  )
  expect(await ask(house, '/now')).toBe('front')
  expect(opened).toBe(0)
  expect(await ask(house, '/books')).toBe('whole')
  expect(await ask(house, '/now')).toBe('whole')
  expect(await ask(house, '/unlock', { method: 'POST' })).toBe('whole')
  expect(opened).toBe(1)
})

test('the rest opens by itself a moment after the first page', async () => {
  let opened = 0
  const house = growingHouse(
    { fetch: () => new Response('front') },
    new Set(['/now', '/unlock']),
    async () => {
      opened += 1
      return { fetch: () => new Response('whole') }
    },
  )
  await ask(house, '/now')
  await new Promise((resolve) => setTimeout(resolve, 500))
  expect(opened).toBe(1)
  expect(await ask(house, '/now')).toBe('whole')
})
