import { afterAll, expect, test } from 'vitest'
import { testApp } from './test-app.ts'

const app = testApp()
afterAll(() => {
  app.close()
})

test('a page that rebinds its own name to this address is refused', async () => {
  const reply = await app.get('/now', { host: 'evil.test:4610' })
  expect(reply.status).toBe(403)
  expect(await reply.text()).toContain('does not answer to the name')
  expect((await app.get('/assets/dooryard.css', { host: 'evil.test' })).status).toBe(403)
  for (const host of [
    'localhost.evil.test',
    'localhost.evil.test:4610',
    'evil-localhost',
    '127.0.0.1.evil.test',
  ])
    expect([host, (await app.get('/now', { host })).status]).toEqual([host, 403])
})

test('a form sent from another site is refused', async () => {
  const reply = await app.post('/now', { a: '1' }, { origin: 'https://elsewhere.test' })
  expect(reply.status).toBe(403)
  const bare = await app.post('/now', { a: '1' }, { origin: 'null' })
  expect(bare.status).toBe(403)
})

test('only forms may change anything', async () => {
  const reply = await app.post('/now', {}, { 'content-type': 'application/json' })
  expect(reply.status).toBe(422)
})

test('a form over the limit is refused with what to do instead', async () => {
  const reply = await app.post('/now', { text: 'x'.repeat(1024 * 1024 + 10) })
  expect(reply.status).toBe(413)
  expect(await reply.text()).toContain('too large')
})

test('every answer carries the strict policy and stays out of caches', async () => {
  for (const path of ['/no-such-page', '/assets/dooryard.css']) {
    const reply = await app.get(path)
    const policy = reply.headers.get('content-security-policy') ?? ''
    expect(policy).toContain("default-src 'none'")
    expect(policy).not.toContain('unsafe')
    expect(reply.headers.get('referrer-policy')).toBe('same-origin')
    expect(reply.headers.get('strict-transport-security')).toBeNull()
    expect(reply.headers.get('x-content-type-options')).toBe('nosniff')
  }
  const page = await app.get('/no-such-page')
  expect(page.status).toBe(404)
  expect(page.headers.get('cache-control')).toBe('no-store')
  expect(page.headers.get('vary')).toContain('HX-Request')
})

test('style and script come from this server and change their address with their content', async () => {
  const page = await (await app.get('/no-such-page')).text()
  for (const match of page.matchAll(/(?:href|src)="(\/assets\/[^"]+)"/g)) {
    const reply = await app.get(match[1]!)
    expect(reply.status).toBe(200)
    expect(reply.headers.get('cache-control')).toContain('immutable')
  }
  expect(page).toMatch(/^<!DOCTYPE html>/)
})
