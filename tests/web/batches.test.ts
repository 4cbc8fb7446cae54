// Batches of a farm unlike the sample: two lots of broilers, one of which ends; costs tied while entering, later, and by the desk.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { addDays, day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import { tiedLines } from '#db/notebook/batch-lines.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { carriedBatches } from '#today/farm/batch-figures.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)

interface Figures {
  result: Record<string, number | null>
  untied: { count: number; lines: { postingId: number; amountCents: number }[] }
  before: { batch: { name: string } } | null
}
const batch = async (n: number) =>
  (await (await app.get(`/farm/batches/${formId(n)}.json`)).json()) as Figures

beforeAll(() => {
  app = testApp({ today: '2026-08-20' })
  app.openSides()
  app.savePlan({
    name: 'Birds',
    startMonth: '2026-01',
    household: { people: [{ id: 'ines', name: 'Ines', born: '1988-03-02' }] },
    farm: {
      enterprises: [
        {
          id: 'birds',
          name: 'Broilers',
          unit: 'bird',
          salesPerUnit: 24,
          costsPerUnit: 12,
          hoursPerUnit: 0.5,
        },
      ],
    },
  })
})
afterAll(() => app.close())

const start = (n: number, name: string, startedDay: string, size: string) =>
  app.post('/farm/batches/new', {
    formId: formId(n),
    enterprise: 'birds',
    name,
    size,
    unit: 'birds',
    startedDay,
    hopedPrice: '24',
  })

const bought = (n: number, amount: string, more: Record<string, string> = {}) =>
  app.post('/books/entry', {
    formId: formId(n),
    side: 'farm',
    kind: 'out',
    day: '2026-06-05',
    payee: 'VALLEY GRAIN',
    moneyAccount: account('Farm checking'),
    'lines.0.account': account('Feed'),
    'lines.0.amount': amount,
    ...more,
  })

test('a batch is started once, its name tells it apart, and what is wrong is told at its field', async () => {
  expect((await start(1, 'Broilers, April', '2026-04-01', '100')).status).toBe(303)
  expect((await start(1, 'Broilers, April', '2026-04-01', '100')).status).toBe(303)
  expect((await start(2, 'Broilers, June', '2026-06-01', '150')).status).toBe(303)
  expect(await (await start(3, 'Broilers, June', '2026-06-01', '10')).text()).toContain(
    'Another batch has this name',
  )
  expect((await start(4, 'None', '2026-06-01', '0')).status).toBe(422)
  const list = (await (await app.get('/farm/batches.json')).json()) as { batches: unknown[] }
  expect(list.batches).toHaveLength(2)
})

test('a cost is tied to its batch while it is entered, with the enterprise of the batch', async () => {
  expect((await bought(10, '465', { 'lines.0.batch': formId(2) })).status).toBe(303)
  expect((await batch(2)).result.costsCents).toBe(46500)
  expect(findEntry(app.books, formId(10))!.lines.map((line) => line.enterpriseId)).toEqual(['birds', null])
  expect((await bought(11, '12', { 'lines.0.batch': 'no-such' })).status).toBe(422)
})

test('what was booked without its batch is tied on its page, and let go again', async () => {
  await bought(12, '300', { 'lines.0.enterprise': 'birds' })
  const { untied } = await batch(2)
  expect(untied.lines.map(({ amountCents }) => amountCents)).toEqual([30000])
  const posting = String(untied.lines[0]!.postingId)
  await app.post(`/farm/batches/${formId(2)}/tie`, { formId: formId(13), 'tie[]': [posting] })
  await app.post(`/farm/batches/${formId(2)}/tie`, { formId: formId(13), 'tie[]': [posting] })
  expect((await batch(2)).result.costsCents).toBe(76500)
  await app.post(`/farm/batches/${formId(1)}/tie`, { formId: formId(14), 'tie[]': [posting] })
  expect((await batch(1)).result.costsCents).toBe(0)
  await app.post(`/farm/batches/${formId(2)}/untie`, { formId: formId(15), posting })
  expect((await batch(2)).result.costsCents).toBe(46500)
})

test('costs that name no enterprise stand after its own, and are tied several at once', async () => {
  await bought(60, '20')
  await bought(61, '30')
  const { untied } = await batch(2)
  expect(untied.lines.map(({ amountCents }) => amountCents)).toEqual([30000, 3000, 2000])
  const two = untied.lines.slice(1).map(({ postingId }) => String(postingId))
  await app.post(`/farm/batches/${formId(2)}/tie`, { formId: formId(62), 'tie[]': two })
  expect((await batch(2)).result.costsCents).toBe(51500)
  for (const [at, posting] of two.entries())
    await app.post(`/farm/batches/${formId(2)}/untie`, { formId: formId(63 + at), posting })
  expect((await batch(2)).result.costsCents).toBe(46500)
})

test('a correction keeps the batch, a reversing lets it go', async () => {
  const entry = findEntry(app.books, formId(10))!
  await app.post(`/books/entries/${entry.no}/correct`, {
    formId: formId(16),
    side: 'farm',
    kind: 'journal',
    day: '2026-06-05',
    payee: 'VALLEY GRAIN',
    'lines.0.account': account('Feed'),
    'lines.0.debit': '475',
    'lines.0.batch': formId(2),
    'lines.1.account': account('Farm checking'),
    'lines.1.credit': '475',
  })
  expect((await batch(2)).result.costsCents).toBe(47500)
  const corrected = findEntry(app.books, formId(16))!
  await app.post(`/books/entries/${corrected.no}/void`, { formId: formId(17) })
  expect((await batch(2)).result.costsCents).toBe(0)
  expect(tiedLines(app.books).length).toBe(4)
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('losses, weights, sales and hours make the page; carried cost stands in the inventory of the year', async () => {
  await bought(20, '1,380', { 'lines.0.batch': formId(2) })
  const mark = (n: number, kind: string, quantity: string, more: Record<string, string> = {}) =>
    app.post(`/farm/batches/${formId(2)}/mark`, {
      formId: formId(n),
      kind,
      quantity,
      day: '2026-07-27',
      ...more,
    })
  expect((await mark(21, 'lost', '12')).status).toBe(303)
  expect((await mark(22, 'processed', '138', { pounds: '621' })).status).toBe(303)
  expect((await mark(23, 'sold', '38')).status).toBe(303)
  expect((await mark(24, 'sold', '-3')).status).toBe(422)
  await app.post('/farm/notebook/hours', {
    formId: formId(25),
    'hours.day': '2026-07-27',
    'hours.person': 'ines',
    'hours.subject': `batch:${formId(2)}`,
    'hours.time': '10',
  })
  const { result, before } = await batch(2)
  // 1,380 over the 138 that lived: 10.00; 100 left at 24 bring 2,400: (2,400 − 1,380) / 10 h.
  expect(result).toMatchObject({
    left: 100,
    costPerUnitCents: 1000,
    costPerPoundCents: 222,
    breakEvenCents: 1380,
  })
  expect(result).toMatchObject({ hopedPerHourCents: 10200, carriedCents: 100000 })
  expect(before?.batch.name).toBe('Broilers, April')
  const page = await (await app.get(`/farm/batches/${formId(2)}`)).text()
  expect(page).toContain('100 of 150 are left')
  expect(await (await app.get('/year-pack/print?year=2026&basis=accrual')).text()).toContain(
    'Broilers, June: 100 of 150 (birds) at cost',
  )
  expect(carriedBatches(app.books, 2025)).toEqual([])
})

test('a batch is ended over the version it was opened on, never over a newer one', async () => {
  const edit = (n: number, basedOn: string, more: Record<string, string> = {}) =>
    app.post(`/farm/batches/${formId(1)}/edit`, { formId: formId(n), basedOn, ...ended, ...more })
  expect((await edit(30, '1', { restSold: '100' })).status).toBe(303)
  expect((await edit(30, '1', { restSold: '100' })).status).toBe(303)
  expect((await edit(31, '1', { restSold: '100' })).status).toBe(422)
  expect((await batch(1)).result).toMatchObject({ left: 0, sold: 100, untold: 0 })
})

const ended = {
  enterprise: 'birds',
  name: 'Broilers, April',
  size: '100',
  unit: 'birds',
  startedDay: '2026-04-01',
  endedDay: '2026-07-01',
}

test('nothing of a batch vanishes with its end: those of which no note tells are told, and make up all of them', async () => {
  await start(80, 'Pullets', '2026-03-01', '60')
  await bought(81, '500', { 'lines.0.batch': formId(80), day: '2026-06-05' })
  await app.post(`/farm/batches/${formId(80)}/mark`, {
    formId: formId(82),
    kind: 'lost',
    quantity: '10',
    day: '2026-03-20',
  })
  const end = async (n: number, more: Record<string, string>) => {
    const form = { ...ended, formId: formId(n), basedOn: '1', name: 'Pullets', size: '60' }
    const reply = await app.post(`/farm/batches/${formId(80)}/edit`, {
      ...form,
      startedDay: '2026-03-01',
      ...more,
    })
    return { status: reply.status, page: await reply.text() }
  }
  expect((await end(83, {})).page).toContain('No note says what became of 50 of 60 birds. Say how many')
  const less = await end(84, { restSold: '12', restLost: '1', kept: '30' })
  expect(less.status).toBe(422)
  expect(less.page).toContain('No note says what became of 50 of 60 birds, and these make 43.')
  expect((await end(85, { endedDay: '', kept: '30' })).page).toContain('Choose the day it ended')
  expect((await end(86, { restSold: '19.5', kept: '30.5' })).page).toContain('Enter a whole number of birds')
  expect((await end(87, { startedDay: '2026-04-01', kept: '50' })).page).toContain(
    'Something of it is noted on Mar 20, 2026',
  )
  expect((await batch(80)).result).toMatchObject({ left: 50, kept: 0 })
  const told = { restSold: '12', restLost: '3', restKitchen: '5', kept: '30' }
  expect((await end(88, told)).status).toBe(303)
  expect((await end(88, told)).status).toBe(303)
  // 500 over the 47 that lived: 10.64 each; the 30 kept stand at 319.15.
  expect((await batch(80)).result).toMatchObject({
    lost: 13,
    sold: 12,
    kitchen: 5,
    kept: 30,
    untold: 0,
    costPerUnitCents: 1064,
    keptCents: 31915,
    marginCents: 31915 - 50000,
  })
  expect(carriedBatches(app.books, 2026).filter(({ kind }) => kind === 'raised_base')).toMatchObject([
    { name: 'Pullets: 30 of 60 (birds) kept, at cost', amountCents: 31915 },
  ])
  const sheet = await (await app.get('/year-pack/print?year=2026&basis=accrual')).text()
  expect(sheet).toContain('Pullets: 30 of 60 (birds) kept, at cost')
  // What went to the kitchen waits at the table for its price.
  const table = (await (await app.get('/farm/notebook/table.json')).json()) as { goods: { says: string }[] }
  expect(table.goods.map(({ says }) => says)).toEqual(['5 birds Pullets to the kitchen'])
})

test('no half of a bird, and nothing before a batch began or after it ended', async () => {
  const mark = async (quantity: string, day: string) =>
    (
      await app.post(`/farm/batches/${formId(80)}/mark`, {
        formId: crypto.randomUUID(),
        kind: 'weighed',
        quantity,
        pounds: '8',
        day,
      })
    ).text()
  expect(await mark('2.5', '2026-06-01')).toContain('Enter a whole number of birds')
  expect(await mark('2', '2026-02-28')).toContain('The batch began on Mar 1, 2026')
  expect(await mark('2', '2026-07-02')).toContain('The batch ended on Jul 1, 2026')
  expect(await (await start(95, 'Half', '2026-06-01', '10.5')).text()).toContain('whole number of birds')
})

test('the plan takes over one cost of a bird, the price of those sold, and which market sold most', async () => {
  interface SeenRow {
    key: string
    plan: number
    seen: number
  }
  const rows = ((await (await app.get('/farm/seen.json')).json()) as { rows: SeenRow[] }).rows
  const { result } = await batch(80)
  // The plan has 12 of costs a bird.
  expect(rows.find(({ key }) => key === 'enterprise.birds.costs')).toMatchObject({
    plan: 12,
    seen: result.costPerUnitCents! / 100,
  })
})

test('no more can be lost, sold, eaten or weighed than are there, and no batch be smaller than what left it', async () => {
  const to = (path: string, form: Record<string, string>) => app.post(path, form)
  const mark = (n: number, kind: string, quantity: string) =>
    to(`/farm/batches/${formId(2)}/mark`, { formId: formId(n), kind, quantity, day: '2026-08-01' })
  // 150 less 12 lost and 38 sold.
  const refused = await mark(70, 'lost', '101')
  expect(refused.status).toBe(422)
  const page = await refused.text()
  expect(page).toContain('Only 100 of 150 birds are left')
  expect(page).toMatch(/name="quantity"[^>]*value="101"|value="101"[^>]*name="quantity"/)
  expect((await mark(71, 'weighed', '101')).status).toBe(422)
  expect((await mark(72, 'processed', '1')).status).toBe(422)
  const eaten = (n: number, quantity: string) =>
    to('/farm/notebook/goods', {
      formId: formId(n),
      'goods.day': '2026-08-01',
      'goods.kind': 'kitchen',
      'goods.what': 'chicken',
      'goods.quantity': quantity,
      'goods.of': `batch:${formId(2)}`,
    })
  const dish = await eaten(73, '100.5')
  expect(dish.status).toBe(422)
  expect(await dish.text()).toContain('href="#f-goods.quantity"')
  expect((await eaten(74, '2')).status).toBe(303)
  expect((await batch(2)).result).toMatchObject({ left: 98, tooMany: 0 })
  const smaller = await to(`/farm/batches/${formId(2)}/edit`, {
    formId: formId(75),
    basedOn: '1',
    enterprise: 'birds',
    name: 'Broilers, June',
    size: '51',
    unit: 'birds',
    startedDay: '2026-06-01',
  })
  expect(smaller.status).toBe(422)
  expect(await smaller.text()).toContain('52 of it are noted')
})

test('a herd can be chosen beside an entry, under its tag in the books', async () => {
  const other = testApp({ today: '2026-08-20' })
  other.openSides()
  other.savePlan({
    name: 'Hens',
    startMonth: '2026-01',
    household: { people: [{ id: 'ines', name: 'Ines', born: '1988-03-02' }] },
    farm: {
      enterprises: [{ id: 'birds', name: 'Broilers' }],
      herds: [
        {
          id: 'hens',
          name: 'Laying hens',
          kind: 'layers',
          start: '2026-01',
          breedingFemales: 80,
          carryingLimit: 80,
          tag: 'eggs',
        },
        {
          id: 'goats',
          name: 'Goats',
          kind: 'goats',
          start: '2026-01',
          breedingFemales: 4,
          carryingLimit: 8,
          tag: 'birds',
        },
      ],
    },
  })
  const form = await (await other.get('/books/entry?side=farm')).text()
  expect(form).toContain('<option value="eggs">Laying hens</option>')
  expect(form.match(/<option value="birds">/g)).toHaveLength(form.match(/<option value="eggs">/g)!.length)
  other.close()
})

// 74 broilers came on August 14; the hatchery was paid on July 20, and 64 feed bills name no batch: more than a page holds.
test('the bills about a batch’s first day are offered first, however many came later, and the rest on the next page', async () => {
  app.setToday('2026-11-01')
  await start(70, 'Broilers, August', '2026-08-14', '74')
  const paid = (k: number, on: string, amount: string) =>
    bought(k, amount, { day: on, 'lines.0.enterprise': 'birds' })
  await paid(71, '2026-07-20', '188.40')
  for (let k = 0; k < 64; k += 1) await paid(100 + k, addDays(day('2026-08-15'), k), '10')
  const page = async (query: string) => {
    const address = `/farm/batches/${formId(70)}`
    const { untied } = (await (await app.get(`${address}.json${query}`)).json()) as Figures
    return { ...untied, html: await (await app.get(`${address}${query}`)).text() }
  }
  const first = await page('')
  expect(first.lines).toHaveLength(60)
  expect(first.lines.map(({ amountCents }) => amountCents)).toContain(18_840)
  expect(first.html).toContain('nearest its first day first')
  const second = await page('?after=60')
  expect(new Set([...first.lines, ...second.lines].map(({ postingId }) => postingId)).size).toBe(second.count)
  expect(second.html).toContain(`61 to ${second.count} of ${second.count}`)
})
