// Kids of a herd whose heads were counted in the notebook: the batch of them takes those counts over, once, and hours written for the herd too.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { verifyBooks } from '#db/verify/verify.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`

// 15 kids: one dies, 8 are sold, one goes to the kitchen, so that 5 are left; two does die too, which are no kids.
beforeAll(async () => {
  app = testApp({ today: '2026-11-30' })
  app.openSides()
  app.savePlan({
    name: 'Goats',
    startMonth: '2026-01',
    household: { people: [{ id: 'owen', name: 'Owen', born: '1982-08-19' }] },
    farm: {
      herds: [
        {
          id: 'goats',
          tag: 'herd',
          name: 'Goats',
          kind: 'goats',
          start: '2026-01',
          breedingFemales: 9,
          carryingLimit: 12,
        },
      ],
    },
  })
  const heads = (n: number, kind: string, headClass: string, count: string, day: string) =>
    app.post('/farm/notebook/heads', {
      formId: formId(n),
      'heads.herd': 'goats',
      'heads.kind': kind,
      'heads.headClass': headClass,
      'heads.count': count,
      'heads.day': day,
    })
  for (const [n, kind, headClass, count, day] of [
    [1, 'counted', 'females', '9', '2026-03-02'],
    [2, 'born', 'young', '15', '2026-04-10'],
    [3, 'died', 'young', '1', '2026-04-20'],
    [4, 'died', 'females', '2', '2026-05-20'],
    [5, 'sold', 'young', '8', '2026-10-03'],
    [6, 'kitchen', 'young', '1', '2026-10-20'],
  ] as const)
    expect((await heads(n, kind, headClass, count, day)).status).toBe(303)
  await app.post('/farm/notebook/hours', {
    formId: formId(7),
    'hours.day': '2026-06-01',
    'hours.person': 'owen',
    'hours.subject': 'herd:goats',
    'hours.time': '3:30',
  })
})
afterAll(() => app.close())

interface Told {
  untiedHeads: { id: string; says: string }[]
  untiedHours: { id: string; minutes: number }[]
  result: { left: number; sold: number; lost: number; kitchen: number; minutes: number }
}

test('what the head counts tell is offered to the batch, and taken over once', async () => {
  const started = await app.post('/farm/batches/new', {
    formId: formId(10),
    enterprise: 'herd',
    name: 'Kids of 2026',
    size: '15',
    unit: 'kids',
    startedDay: '2026-04-10',
    hopedPrice: '190',
  })
  const at = started.headers.get('location')!.split('?')[0]!
  const told = async () => (await (await app.get(`${at}.json`)).json()) as Told
  const before = await told()
  expect(before.untiedHeads.map(({ says }) => says)).toEqual([
    '1 died, Apr 20, 2026',
    '8 sold, Oct 3, 2026',
    '1 to the kitchen, Oct 20, 2026',
  ])
  expect(before.result.left).toBe(15)
  expect(await (await app.get(at)).text()).toContain('Animals that may be its')
  const tie = { formId: formId(11), 'heads[]': before.untiedHeads.map(({ id }) => id) }
  for (const _ of [1, 2]) expect((await app.post(`${at}/tie-heads`, tie)).status).toBe(303)
  expect(await told()).toMatchObject({
    untiedHeads: [],
    result: { left: 5, sold: 8, lost: 1, kitchen: 1 },
  })
  // Sent from a page that is out of date: nothing is counted twice.
  await app.post(`${at}/tie-heads`, { ...tie, formId: formId(12) })
  expect((await told()).result).toMatchObject({ left: 5, sold: 8 })
  // Hours written for the herd are offered as those of an enterprise are.
  expect(before.untiedHours.map(({ minutes }) => minutes)).toEqual([210])
  const hours = { formId: formId(13), 'hours[]': before.untiedHours.map(({ id }) => id) }
  expect((await app.post(`${at}/tie-hours`, hours)).status).toBe(303)
  expect(await told()).toMatchObject({ untiedHours: [], result: { minutes: 210 } })
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('what is noted for a batch of the same day is not offered again, a later one in part', async () => {
  const started = await app.post('/farm/batches/new', {
    formId: formId(20),
    enterprise: 'herd',
    name: 'Late kids',
    size: '4',
    unit: 'kids',
    startedDay: '2026-09-01',
  })
  const at = started.headers.get('location')!.split('?')[0]!
  const told = async () => (await (await app.get(`${at}.json`)).json()) as Told
  expect((await told()).untiedHeads).toEqual([])
  await app.post('/farm/notebook/heads', {
    formId: formId(21),
    'heads.herd': 'goats',
    'heads.kind': 'sold',
    'heads.headClass': 'young',
    'heads.count': '3',
    'heads.day': '2026-11-07',
  })
  await app.post(`${at}/mark`, { formId: formId(22), kind: 'sold', quantity: '1', day: '2026-11-07' })
  expect((await told()).untiedHeads.map(({ says }) => says)).toEqual(['2 sold, Nov 7, 2026'])
})
