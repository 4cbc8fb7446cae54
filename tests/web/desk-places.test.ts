// Where a row of the desk goes: one list of places for the page, found by letters where there is no script, and what stands under a row
// asked for when it is opened.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccount, addSide, listAccounts, listSides } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { listRules } from '#db/statements/sorting-rule-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { deskFields } from './desk-fields.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp()
  app.openSides()
})
afterEach(() => {
  app.close()
})

const act = () => ({ formId: randomUUID(), at: '2026-03-01T00:00:00.000Z', actor: 'test' })
const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const balance = (name: string) => balancesOn(app.books).get(id(name)) ?? 0
const waiting = () => sortingDesk(app.books).lines.map(({ line }) => line)
const lineOf = (payee: string) => waiting().find((line) => line.payee === payee)!.id

const read = (account: string, payees: readonly string[], firstDay = 1) => {
  const lines = payees.map((payee, at) => ({
    bankNumber: '',
    day: day(`2026-02-${String(firstDay + (at % 25)).padStart(2, '0')}`),
    amount: cents(-100 - at),
    payee,
  }))
  expect(importStatement(app.books, act(), id(account), statementFile(lines), day('2026-03-15')).ok).toBe(
    true,
  )
}

const page = async (address = '/books/sorting') => (await app.get(address)).text()
const desk = async (address?: string) => deskFields(await page(address))
const send = (fields: Record<string, string | string[]>, address = '/books/sorting') =>
  app.post(address, fields)

test('a page has each list of places once, however many rows it has, and no list holds a name twice', async () => {
  // A side venture whose account is called as the farm's.
  const venture = addSide(app.books, act(), { kind: 'venture', name: 'Pottery' })
  if (!venture.ok) throw new Error(JSON.stringify(venture.problems))
  const sideId = listSides(app.books).find(({ name }) => name === 'Pottery')!.id
  const added = addAccount(app.books, act(), {
    sideId,
    name: 'Farm checking',
    kind: 'asset',
    cashRole: 'cash',
  } as Parameters<typeof addAccount>[2])
  expect(added.ok ? 'added' : added.problems).toBe('added')
  read('Farm checking', ['Mill', 'Vet', 'Fuel'])
  read('Household checking', ['Grocer', 'Doctor'])
  const html = await page()
  const lists = [...html.matchAll(/<datalist id="([^"]+)">(.*?)<\/datalist>/gs)]
  expect(lists.map(([, name]) => name)).toEqual([
    `places-${id('Farm checking')}-out`,
    `places-${id('Household checking')}-out`,
  ])
  for (const [, , inner] of lists) {
    const names = [...inner!.matchAll(/ value="([^"]+)"/g)].map(([, name]) => name)
    expect(names.length).toBeGreaterThan(20)
    expect(names).toEqual([...new Set(names)])
  }
  expect(lists[1]![2]).toContain('Farm checking (Crossing: Wrenfold)"')
  expect(lists[1]![2]).toContain('Farm checking (Crossing: Pottery)"')
})

test('letters name a place: by its whole name whatever the capitals, or by a beginning that only one has', async () => {
  read('Farm checking', ['Mill', 'Vet'])
  const fields = await desk()
  const reply = await send({
    ...fields.fields,
    [fields.name('Mill', 'toTyped')]: ' feed ',
    [fields.name('Vet', 'toTyped')]: 'seeds',
  })
  expect(reply.status).toBe(303)
  expect([balance('Feed'), balance('Seeds and plants')]).toEqual([100, 101])
  expect(waiting()).toEqual([])
})

test('feed bought on the household’s card goes to the farm’s cost from the list, as a crossing, all of the payee at once, and is learned', async () => {
  read('Household card', ['Mill', 'Mill', 'Grocer'])
  const html = await page()
  expect(html).toMatch(/<datalist.*Feed, Wrenfold.*<\/datalist>/s)
  const fields = deskFields(html)
  const reply = await send({
    ...fields.fields,
    [fields.name('Mill', 'toTyped')]: 'feed',
    [fields.name('Grocer', 'toTyped')]: 'groceries',
  })
  expect(reply.status).toBe(303)
  // 1.00 and 1.01 for the farm, 1.02 for the house; the farm owes none of it to the card.
  expect([balance('Feed'), balance('Groceries'), balance('Household card')]).toEqual([201, 102, -303])
  expect(balance('Farm checking')).toBe(0)
  const crossings = app.books.sqlite.prepare('SELECT count(*) FROM crossings').pluck().get()
  expect(crossings).toBe(2)
  read('Household card', ['Mill'], 20)
  const again = await page()
  expect(again).toContain('Feed, Wrenfold')
  const next = deskFields(again)
  expect(next.fields[next.name('Mill', 'take')]).toBe('yes')
  expect((await send(next.fields)).status).toBe(303)
  expect([balance('Feed'), waiting()]).toEqual([301, []])
})

test('what a side’s own list names goes before another side’s of the same beginning', async () => {
  read('Household card', ['Power'])
  const fields = await desk()
  expect((await send({ ...fields.fields, [fields.name('Power', 'toTyped')]: 'util' })).status).toBe(303)
  expect(balance('Utilities')).toBe(100)
})

test('a split with one part is the whole bill: the others like it go along, and the next is proposed', async () => {
  read('Household card', ['Mill', 'Mill'])
  const [first, second] = waiting().map(({ id: line }) => line)
  for (const amount of ['100%', ''])
    expect(
      (
        await app.post(`/books/sorting/lines/${amount === '' ? second : first}`, {
          formId: randomUUID(),
          how: 'split',
          'parts.0.account': String(id('Feed')),
          'parts.0.amount': amount,
          keep: 'yes',
        })
      ).status,
    ).toBe(303)
  expect(balance('Feed')).toBe(201)
  read('Household card', ['Mill', 'Mill'], 20)
  const [third, fourth] = waiting()
  const both = await app.post(`/books/sorting/lines/${third!.id}`, {
    formId: randomUUID(),
    how: 'split',
    'parts.0.account': String(id('Feed')),
    'parts.0.amount': '100%',
    alsoAll: 'yes',
    alike: `${fourth!.id}.${Math.abs(fourth!.amount)}`,
  })
  expect(both.status).toBe(303)
  expect([balance('Feed'), waiting()]).toEqual([402, []])
  expect(listRules(app.books).find(({ matchText }) => matchText === 'mill')!.target).toEqual({
    kind: 'account',
    accountId: id('Feed'),
    enterpriseId: null,
  })
})

test('letters that name none come back as typed at their row, with all else that was chosen, and nothing is booked', async () => {
  read('Farm checking', ['Mill', 'Vet', 'Fuel'])
  const fields = await desk()
  for (const deed of [{}, { go: 'page:1' }, { skip: String(waiting()[2]!.id) }]) {
    const reply = await send({
      ...fields.fields,
      ...deed,
      [fields.name('Mill', 'toTyped')]: 'fede',
      [fields.name('Vet', 'to')]: `a:${id('Feed')}`,
    })
    expect(reply.status).toBe(422)
    const html = await reply.text()
    expect(html).toContain('No place is called “fede”')
    const after = deskFields(html)
    expect(after.fields[after.name('Mill', 'toTyped')]).toBe('fede')
    expect(after.fields[after.name('Vet', 'to')]).toBe(`a:${id('Feed')}`)
    expect(waiting()).toHaveLength(3)
  }
})

test('what stands under a row comes when it is opened, under the name of the row it stands in', async () => {
  read('Farm checking', ['Vet', 'MILL 01', 'MILL 02', 'MILL 03'])
  const closed = await page()
  expect(closed).not.toContain('Leave out')
  const address = /hx-get="([^"]+)"/.exec(closed)![1]!.replaceAll('&amp;', '&')
  const first = lineOf('MILL 01')
  const part = await app.get(address, { 'HX-Request': 'true', 'HX-Target': `div#lines-${first}` })
  const html = await part.text()
  expect(html).not.toContain('<html')
  expect(html.match(/Leave out/g)).toHaveLength(3)
  const row = (await desk()).name('MILL 01', '').slice(0, -1)
  expect(html).toContain(`name="${row}.own.n${first}"`)
  expect(html).toContain(`name="${row}.without[]"`)
  // Sorted at another screen meanwhile: said in its place, and no page within the page.
  const fields = await desk()
  await send({
    ...fields.fields,
    ticks: 'exact',
    [fields.name('MILL 01', 'take')]: 'yes',
    [fields.name('MILL 01', 'to')]: `a:${id('Feed')}`,
  })
  const gone = await app.get(address, { 'HX-Request': 'true', 'HX-Target': `div#lines-${first}` })
  expect(await gone.text()).toBe('<p>They were sorted meanwhile. Open the page again.</p>')
})

test('a row of which some are left out stands open, so that they stay left out when it is booked', async () => {
  const payees = Array.from({ length: 30 }, (_, at) => `MILL ${at}`)
  read('Farm checking', payees)
  const opened = await desk(`/books/sorting?open=${lineOf('MILL 0')}`)
  const left = [String(lineOf('MILL 24')), String(lineOf('MILL 29'))]
  const away = await send({
    ...opened.fields,
    [opened.name('MILL 0', 'to')]: `a:${id('Feed')}`,
    [opened.name('MILL 0', 'take')]: 'yes',
    [opened.name('MILL 0', 'without[]')]: left,
    go: 'open:',
  })
  const fields = await desk(away.headers.get('location')!)
  expect(fields.fields[fields.name('MILL 0', 'without[]')]).toEqual(left.toReversed())
  await send({ ...fields.fields, ticks: 'exact' })
  expect(waiting().map(({ payee }) => payee)).toEqual(['MILL 29', 'MILL 24'])
})

test('a batch is chosen beside the place: what is booked is tied to it, and the next is proposed for its enterprise', async () => {
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
  const batchId = randomUUID()
  await app.post('/farm/batches/new', {
    formId: batchId,
    enterprise: 'birds',
    name: 'First lot',
    size: '100',
    unit: 'birds',
    startedDay: '2026-01-10',
    hopedPrice: '24',
  })
  read('Farm checking', ['Mill'])
  read('Household checking', ['Grocer', 'Yard'])
  const html = await page()
  expect(html).toContain(`<option value="b.${batchId}">First lot</option>`)
  const fields = deskFields(html)
  expect(fields.fields[fields.name('Grocer', 'enterprise')]).toBe('')
  expect(html).toMatch(
    /aria-label="Enterprise or batch of [^"]*Grocer[^"]*" class="desk-enterprise only-of-farm"/i,
  )
  const choice = {
    [fields.name('Mill', 'to')]: `a:${id('Feed')}`,
    [fields.name('Mill', 'enterprise')]: `b.${batchId}`,
    // Of the house's money what goes to the farm has a line of work; beside a place of its own one says nothing.
    [fields.name('Yard', 'to')]: `a:${id('Supplies')}`,
    [fields.name('Yard', 'enterprise')]: 'birds',
    [fields.name('Grocer', 'to')]: `a:${id('Groceries')}`,
    [fields.name('Grocer', 'enterprise')]: 'birds',
  }
  // Kept as chosen while one looks elsewhere.
  const away = await send({ ...fields.fields, ...choice, go: 'page:1' })
  const after = await desk(away.headers.get('location')!)
  expect(after.fields[after.name('Mill', 'enterprise')]).toBe(`b.${batchId}`)
  expect((await send(after.fields)).status).toBe(303)
  const figures = (await (await app.get(`/farm/batches/${batchId}.json`)).json()) as {
    result: { costCents: number }
  }
  expect(JSON.stringify(figures.result)).toContain('100')
  expect(listRules(app.books).find(({ matchText }) => matchText === 'mill')!.target).toEqual({
    kind: 'account',
    accountId: id('Feed'),
    enterpriseId: 'birds',
  })
  const enterpriseOf = (payee: string) =>
    listRules(app.books).find(({ matchText }) => matchText === payee)!.target
  expect(enterpriseOf('yard')).toMatchObject({ accountId: id('Supplies'), enterpriseId: 'birds' })
  expect(enterpriseOf('grocer')).toMatchObject({ accountId: id('Groceries'), enterpriseId: null })
})

test('a second tab that books what was sorted meanwhile is told which, and keeps the others as checked', async () => {
  read('Farm checking', ['Mill', 'Vet', 'Fuel'])
  const stale = await desk()
  const choose = (payee: string) => ({
    [stale.name(payee, 'to')]: `a:${id('Feed')}`,
    [stale.name(payee, 'take')]: 'yes',
  })
  await send({ ...stale.fields, ...choose('Mill'), ticks: 'exact' })
  const reply = await send({
    ...stale.fields,
    ...choose('Mill'),
    ...choose('Vet'),
    ticks: 'exact',
    formId: randomUUID(),
  })
  expect(reply.status).toBe(422)
  const html = await reply.text()
  expect(html).toContain('One was sorted meanwhile on another device: Mill, Feb 1, 2026, −$1.00.')
  const shown = deskFields(html)
  expect(shown.fields[shown.name('Vet', 'take')]).toBe('yes')
  expect(html).not.toContain('<strong>Mill</strong>')
  expect((await send({ ...shown.fields, ticks: 'exact' })).status).toBe(303)
  expect([balance('Feed'), waiting().map(({ payee }) => payee)]).toEqual([100 + 101, ['Fuel']])
})
