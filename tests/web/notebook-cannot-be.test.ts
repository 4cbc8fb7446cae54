// What cannot have been is refused at its field; what was bartered for a cost of the farm stays on the farm. Hens, hay and a truck in Ohio.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)

beforeAll(() => {
  app = testApp({ today: '2026-11-30' })
  app.openSides()
  app.savePlan({
    name: 'Hens',
    startMonth: '2026-01',
    household: { people: [{ id: 'olu', name: 'Olu', born: '1991-07-02' }] },
    farm: {
      enterprises: [{ id: 'birds', name: 'Birds' }],
      markets: [{ id: 'gate', name: 'Gate' }],
      herds: [
        {
          id: 'hens',
          name: 'Laying flock',
          kind: 'layers',
          start: '2026-01',
          breedingFemales: 90,
          carryingLimit: 120,
        },
      ],
    },
  })
})
afterAll(() => app.close())

const json = async <Figures>(path: string) => (await (await app.get(`${path}.json`)).json()) as Figures
const note = (section: string, n: number, fields: Record<string, string>) =>
  app.post(`/farm/notebook/${section}`, {
    formId: formId(n),
    [`${section}.day`]: '2026-11-20',
    ...Object.fromEntries(Object.entries(fields).map(([name, value]) => [`${section}.${name}`, value])),
  })

test('birds bartered for hay of the farm are a sale and a cost of the farm, and cross nothing', async () => {
  await note('goods', 1, {
    kind: 'bartered',
    of: 'enterprise:birds',
    what: 'birds',
    quantity: '4',
    tradedFor: 'the neighbor, hay',
  })
  const { goods } = await json<{ goods: { id: string }[] }>('/farm/notebook/table')
  const page = await (await app.get('/farm/notebook/table')).text()
  expect(page).toContain('>Farm: Feed</option>')
  expect(page).toContain('>House: Groceries</option>')
  const settle = (n: number) =>
    app.post(`/farm/notebook/table/goods/${goods[0]!.id}`, {
      formId: formId(n),
      price: '26',
      fromAccount: account('Cut flowers sold'),
      toAccount: account('Feed'),
    })
  for (const _ of [1, 2]) expect((await settle(2)).status).toBe(303)
  const entry = findEntry(app.books, formId(2))!
  expect(entry.sideId).toBe('farm')
  // 4 × $26.
  expect(
    entry.lines.map(({ amountCents, enterpriseId, crossingId }) => [
      amountCents,
      enterpriseId,
      crossingId ?? null,
    ]),
  ).toEqual([
    [10_400, null, null],
    [-10_400, 'birds', null],
  ])
  expect((await json<{ history: unknown[] }>('/crossings')).history).toEqual([])
  const notes = await json<{ barteredCents: number; goods: { isBooked: boolean }[] }>('/farm/preparer')
  expect(notes).toMatchObject({ barteredCents: 10_400, goods: [{ isBooked: true }] })
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
  // In the books it stays in the notebook; reversed there, it waits again.
  await app.post(`/farm/notebook/goods/${goods[0]!.id}/remove`, { formId: formId(3) })
  expect((await json<{ goods: unknown[] }>('/farm/preparer')).goods).toHaveLength(1)
  await app.post(`/books/entries/${entry.no}/void`, { formId: formId(4) })
  expect((await json<{ goods: unknown[] }>('/farm/notebook/table')).goods).toHaveLength(1)
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('no more heads go than the notebook knows of, counted or not', async () => {
  const heads = (n: number, kind: string, count: string) =>
    note('heads', n, { herd: 'hens', kind, headClass: 'females', count })
  const refused = await heads(10, 'kitchen', '200')
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Write down first how many were counted')
  expect((await heads(11, 'counted', '90')).status).toBe(303)
  const { herds } = await json<{ herds: { heads: unknown }[] }>('/farm/notebook')
  expect(herds[0]!.heads).toEqual({ females: 90 })
})

test('on the day of a count no more go than were counted, or stood there as the day began', async () => {
  const day = (n: number, on: string, kind: string, count: string) =>
    note('heads', n, { herd: 'hens', kind, headClass: 'kept', count, day: on })
  expect((await day(12, '2026-11-24', 'counted', '33')).status).toBe(303)
  const refused = await day(13, '2026-11-24', 'died', '40')
  expect(refused.status).toBe(422)
  const page = await refused.text()
  expect(page).toContain('33 were counted that day, so no more than 33 can have gone on it')
  expect(page).toContain('value="40"')
  // With 75 there the day before they can have, and with those the 36th of 75 − 40.
  expect((await day(14, '2026-11-23', 'counted', '75')).status).toBe(303)
  expect((await day(15, '2026-11-24', 'died', '40')).status).toBe(303)
  const again = await day(16, '2026-11-24', 'sold', '36')
  expect(again.status).toBe(422)
  expect(await again.text()).toContain('no more than 35 can have gone')
  expect((await day(17, '2026-11-24', 'sold', '35')).status).toBe(303)
  const { herds } = await json<{ herds: { heads: unknown }[] }>('/farm/notebook')
  expect(herds[0]!.heads).toMatchObject({ kept: 33 })
})

test('a comma for a point is asked about, a day has 24 hours, and none has come before its time', async () => {
  const hours = (n: number, time: string, day = '2026-11-20') =>
    note('hours', n, { person: 'olu', subject: 'overhead', length: '', time, day })
  const comma = await hours(20, '1,5')
  expect(comma.status).toBe(422)
  expect(await comma.text()).toContain('value="1,5"')
  expect((await hours(21, '20')).status).toBe(303)
  const again = await hours(22, '20')
  expect(again.status).toBe(422)
  expect(await again.text()).toContain('more than 24')
  expect((await hours(23, '4')).status).toBe(303)
  const ahead = await hours(24, '2', '2026-12-01')
  expect(ahead.status).toBe(422)
  expect(await ahead.text()).toContain('That day has not come yet')
})

test('an odometer only counts up, and miles beyond what it counted are an open point', async () => {
  const read = (n: number, day: string, amount: string) =>
    note('trip', n, { kind: 'reading', vehicle: 'Truck', amount, day })
  expect((await read(30, '2026-01-01', '81000')).status).toBe(303)
  const back = await read(31, '2026-11-01', '80900')
  expect(back.status).toBe(422)
  expect(await back.text()).toContain('read 81000')
  expect((await read(32, '2026-11-02', '81100')).status).toBe(303)
  await note('trip', 33, { kind: 'farm', vehicle: 'Truck', amount: '220', purpose: 'the mill' })
  const { gaps } = await json<{ gaps: { says: string }[] }>('/year-pack')
  expect(gaps.map(({ says }) => says).join('\n')).toContain(
    '220 miles for the farm are noted in 2026, and by their odometers the vehicles went 100 in all',
  )
})
