import { afterEach, expect, test } from 'vitest'
import { listSides } from '#db/ledger/account-store.ts'
import { type TestApp, type TestAppOptions, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => {
  app.close()
})
/** Deriving keys is slow on purpose, which is held once, below. */
const quickApp = (options: TestAppOptions = {}): TestApp => testApp({ passphraseCost: 16, ...options })
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const passphrase = 'four goats in the orchard'

const set = (over: Record<string, string> = {}) =>
  app.post('/settings/passphrase', {
    formId: formId(1),
    passphrase,
    again: passphrase,
    idleMinutes: '30',
    ...over,
  })
const cookieOf = (reply: Response) =>
  /dooryard-session=[^;]+/.exec(reply.headers.get('set-cookie') ?? '')?.[0] ?? ''
const unlock = async (typed: string, next = '/settings', from: From = {}) =>
  app.post(
    '/unlock',
    { passphrase: typed, next },
    from.cookie ? { cookie: from.cookie } : {},
    from.address ? { incoming: { socket: { remoteAddress: from.address } } } : undefined,
  )
interface From {
  address?: string
  cookie?: string
}

test('without a passphrase the pages are open; with one, only who gave it gets in', async () => {
  app = quickApp()
  expect((await app.get('/settings')).status).toBe(200)
  const reply = await set()
  expect(reply.status).toBe(303)
  const cookie = cookieOf(reply)
  expect(reply.headers.get('set-cookie')).toMatch(/HttpOnly.*SameSite=Strict|SameSite=Strict.*HttpOnly/)
  expect((await app.get('/settings', { cookie })).status).toBe(200)
  const stranger = await app.get('/settings')
  expect(stranger.status).toBe(303)
  expect(stranger.headers.get('location')).toBe('/unlock?next=%2Fsettings')
})

test('a passphrase that cannot be read opens nothing, and a try says what to do', async () => {
  app = quickApp()
  const cookie = cookieOf(await set())
  for (const value of ['"x"', '{}', '{"hash":"h"}', '[]', '{"removed":"yes"}']) {
    app.books.sqlite.prepare("UPDATE settings SET value = ? WHERE key = 'access.passphrase'").run(value)
    expect([value, (await app.get('/settings')).headers.get('location')]).toEqual([
      value,
      '/unlock?next=%2Fsettings',
    ])
    expect((await app.get('/settings.json')).status).toBe(401)
    expect((await app.get('/settings', { cookie })).status).toBe(503)
    const reply = await unlock(passphrase)
    expect(reply.status).toBe(503)
    expect(await reply.text()).toMatch(
      /access\.passphrase in the books file cannot be read.*Restore the latest/,
    )
  }
})

test('a stranger gets neither figures, tables, parts nor changes', async () => {
  app = quickApp()
  await set()
  expect((await app.get('/settings.json')).status).toBe(401)
  expect((await app.get('/settings/accounts.csv')).status).toBe(401)
  expect((await app.get('/settings', { 'HX-Request': 'true' })).status).toBe(401)
  const late = await app.post('/settings/sides/new', { formId: formId(2), name: 'x' })
  expect(late.headers.get('location')).toBe('/unlock?late=yes')
  expect(listSides(app.books)).toEqual([])
  expect(await (await app.get('/unlock?late=yes')).text()).toContain('it was not saved')
  expect((await app.get('/assets/dooryard.css')).status).toBe(200)
})

test('the right passphrase opens a new session, and locking ends it', async () => {
  app = quickApp()
  await set()
  const reply = await unlock(passphrase)
  expect(reply.headers.get('location')).toBe('/settings')
  const cookie = cookieOf(reply)
  expect((await app.get('/settings', { cookie })).status).toBe(200)
  await app.post('/lock', {}, { cookie })
  expect((await app.get('/settings', { cookie })).status).toBe(303)
})

test('after five wrong tries each further one waits, even the right one', async () => {
  app = quickApp()
  await set()
  for (let time = 0; time < 5; time += 1) expect((await unlock(`wrong ${time}`)).status).toBe(422)
  const early = await unlock(passphrase)
  expect(early.status).toBe(429)
  expect(await early.text()).toMatch(/Wait \d+ seconds/)
})

test('a session that is not used locks itself', async () => {
  app = quickApp({ today: '2026-03-15' })
  const cookie = cookieOf(await set({ idleMinutes: '30' }))
  expect((await app.get('/settings', { cookie })).status).toBe(200)
  app.setToday('2026-03-16')
  expect((await app.get('/settings', { cookie })).status).toBe(303)
})

test('after unlocking, nothing leads to another site', async () => {
  app = quickApp()
  await set()
  for (const next of ['//evil.test', 'https://evil.test', '/\\evil.test', '/unlock']) {
    expect((await unlock(passphrase, next)).headers.get('location')).toBe('/now')
  }
})

test('short, doubled or common passphrases are refused, and both must be the same', async () => {
  app = quickApp()
  for (const bad of ['short', 'passwordpassword', '123456789012', 'aaaaaaaaaaaaaaaa', 'qwertyuiopas']) {
    expect((await set({ passphrase: bad, again: bad })).status, bad).toBe(422)
  }
  expect((await set({ again: 'something else here' })).status).toBe(422)
})

test('changing the passphrase asks for the old one and ends every other session', async () => {
  app = quickApp()
  const first = cookieOf(await set())
  const other = cookieOf(await unlock(passphrase))
  const wrong = await app.post(
    '/settings/passphrase',
    {
      formId: formId(3),
      current: 'no',
      passphrase: 'new words for the door',
      again: 'new words for the door',
      idleMinutes: '5',
    },
    { cookie: first },
  )
  expect(wrong.status).toBe(422)
  const done = await app.post(
    '/settings/passphrase',
    {
      formId: formId(4),
      current: passphrase,
      passphrase: 'new words for the door',
      again: 'new words for the door',
      idleMinutes: '5',
    },
    { cookie: first },
  )
  expect(done.status).toBe(303)
  expect((await app.get('/settings', { cookie: other })).status).toBe(303)
})

test('it can be taken away again on this computer, but not where others can reach the address', async () => {
  app = quickApp()
  const cookie = cookieOf(await set())
  const away = {
    formId: formId(5),
    current: passphrase,
    passphrase: '',
    again: '',
    idleMinutes: '30',
    remove: 'yes',
  }
  expect((await app.post('/settings/passphrase', away, { cookie })).status).toBe(303)
  expect((await app.get('/settings')).status).toBe(200)
  app.close()
  app = quickApp({ isLoopback: false })
  const reachable = cookieOf(await set())
  expect((await app.post('/settings/passphrase', away, { cookie: reachable })).status).toBe(422)
})

test('the file holds neither the passphrase nor anything that opens a session', async () => {
  app = testApp()
  const cookie = cookieOf(await set())
  const settings = JSON.stringify(app.books.sqlite.prepare('SELECT * FROM settings').all())
  const log = JSON.stringify(app.books.sqlite.prepare('SELECT * FROM change_log').all())
  expect(settings).toContain('salt')
  // Memory of 128 r N bytes, 32 MB: RFC 7914, section 2; twice the interactive setting of scrypt's own paper (N = 2^14, r = 8, p = 1; from memory).
  expect(settings).toContain('\\"cost\\":32768')
  for (const secret of [passphrase, cookie.split('=')[1]!]) {
    expect(settings).not.toContain(secret)
    expect(log).not.toContain(secret)
  }
})

test('wrong tries slow down the one who makes them, and nobody else', async () => {
  app = quickApp()
  await set()
  const other = { address: '192.168.1.66' }
  for (let time = 0; time < 5; time += 1) await unlock(`wrong ${time}`, '/now', other)
  expect((await unlock(passphrase, '/now', other)).status).toBe(429)
  expect((await unlock(passphrase, '/now', { address: '192.168.1.20' })).status).toBe(303)
  // Version 6: another address of the same house is the same client, another house is not.
  for (let time = 0; time < 5; time += 1) await unlock('wrong', '/now', { address: `2001:db8:0:1::${time}` })
  expect((await unlock(passphrase, '/now', { address: '2001:db8:0:1::99' })).status).toBe(429)
  expect((await unlock(passphrase, '/now', { address: '2001:db8:0:2::99' })).status).toBe(303)
})

test('a browser that has given the passphrase is not locked out by others at the same address', async () => {
  app = quickApp()
  await set()
  const cookies = (await unlock(passphrase)).headers.getSetCookie().map((one) => one.split(';')[0]!)
  const cookie = cookies.filter((one) => !one.startsWith('dooryard-session')).join('; ')
  expect(cookie).toMatch(/dooryard-known=browser-/)
  for (let time = 0; time < 5; time += 1) await unlock('wrong')
  expect((await unlock(passphrase)).status).toBe(429)
  expect(
    (await unlock(passphrase, '/now', { cookie: cookie.replace(/known=browser-./, 'known=browser-x') }))
      .status,
  ).toBe(429)
  expect((await unlock(passphrase, '/now', { cookie })).status).toBe(303)
  // It is no key: its own wrong tries are counted, too.
  for (let time = 0; time < 5; time += 1) expect((await unlock('wrong', '/now', { cookie })).status).toBe(422)
  expect((await unlock(passphrase, '/now', { cookie })).status).toBe(429)
})

test('a clock that is set back makes no wait longer, and ends the sessions that it makes younger', async () => {
  app = quickApp({ today: '2026-03-15' })
  const cookie = cookieOf(await set({ idleMinutes: '1440' }))
  for (let time = 0; time < 7; time += 1) await unlock(`wrong ${time}`)
  app.setToday('2026-03-05')
  const early = await (await unlock(passphrase)).text()
  expect(Number(/Wait (\d+) seconds/.exec(early)?.[1])).toBeLessThanOrEqual(8)
  app.setToday('2026-03-05', '12:05')
  expect((await unlock(passphrase)).status).toBe(303)
  expect((await app.get('/settings', { cookie })).status).toBe(303)
})

test('a session ends a day after it was opened, however busy it is', async () => {
  app = quickApp({ today: '2026-03-15' })
  const cookie = cookieOf(await set({ idleMinutes: '1440' }))
  for (const [day, hour] of [
    ['2026-03-15', '20:00'],
    ['2026-03-16', '04:00'],
    ['2026-03-16', '11:59'],
  ] as const) {
    app.setToday(day, hour)
    expect((await app.get('/settings', { cookie })).status).toBe(200)
  }
  app.setToday('2026-03-16', '12:01')
  expect((await app.get('/settings', { cookie })).status).toBe(303)
})
