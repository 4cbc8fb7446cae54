// The list of acts tells each from the others: by account, day, amount, market or batch; and a refusal names what stands in the way.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { tiedLines } from '#db/notebook/batch-lines.ts'
import { reconcileWhole } from '#db/reconcile/reconcile-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { type TestApp, testApp } from './test-app.ts'

// One who keeps geese and sells at two markets, with two accounts that are reconciled.
let app: TestApp
let count = 0
const formId = () => {
  count += 1
  return `00000000-0000-4000-8000-${String(count).padStart(12, '0')}`
}
const act = () => ({ formId: formId(), at: '2026-10-04T15:00:00.000Z', actor: 'test' })
const account = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const geese = formId()

interface ActTold {
  hasOpposite: boolean
  id: number
  says: string
  about: string
  href: string | null
  isTakenBack: boolean
}
/** Those that one press undoes, as they were written: acts put straight into the books here have a clock of their own. */
const acts = async () =>
  ((await (await app.get('/books/acts.json')).json()) as { acts: ActTold[] }).acts
    .filter(({ hasOpposite }) => hasOpposite)
    .toSorted((one, other) => other.id - one.id)
const newest = async () => (await acts())[0]!
const undo = async (id: number) => {
  const reply = await app.post(`/undo/${id}`, { formId: formId(), from: 'acts' })
  return (await app.get(reply.headers.get('location')!)).text()
}

beforeAll(async () => {
  app = testApp({ today: '2026-10-04' })
  app.openSides()
  app.savePlan({
    name: 'Geese',
    startMonth: '2026-01',
    household: { people: [{ id: 'odell', name: 'Odell', born: '1979-03-02' }] },
    farm: {
      enterprises: [{ id: 'geese', name: 'Geese', unit: 'goose' }],
      markets: [
        { id: 'thursday', name: 'Thursday green' },
        { id: 'mill', name: 'Mill yard' },
      ],
    },
  })
  await app.post('/farm/batches/new', {
    formId: geese,
    enterprise: 'geese',
    name: 'Geese of June',
    size: '60',
    unit: 'geese',
    startedDay: '2026-06-01',
  })
})
afterAll(() => app.close())

const sorted = (name: string, on: string, amount: number, payee: string, to: string) => {
  const file = statementFile([{ day: day(on), amount: cents(amount), payee }])
  expect(importStatement(app.books, act(), account(name), file, day('2026-10-04')).ok).toBe(true)
  const [line] = sortingDesk(app.books).lines
  const target = { kind: 'account', accountId: account(to), enterpriseId: null } as const
  expect(sortLines(app.books, act(), [{ lineId: line!.line.id, kind: 'target', target }]).ok).toBe(true)
}

test('market days, batch notes and hours say of what, when and how much', async () => {
  const market = (id: string, on: string, cash: string) =>
    app.post('/farm/notebook/market', {
      formId: formId(),
      'market.market': id,
      'market.day': on,
      'market.products.0.enterprise': 'geese',
      'market.products.0.cash': cash,
    })
  await market('thursday', '2026-09-24', '312.50')
  expect((await newest()).about).toBe('Thursday green, $312.50, Sep 24, 2026')
  await market('mill', '2026-09-26', '90')
  expect((await newest()).about).toBe('Mill yard, $90.00, Sep 26, 2026')
  await app.post(`/farm/batches/${geese}/mark`, {
    formId: formId(),
    kind: 'lost',
    quantity: '3',
    day: '2026-08-02',
    note: 'fox',
  })
  expect((await newest()).about).toBe('Geese of June: 3 lost: fox, Aug 2, 2026')
  await app.post('/farm/notebook/hours', {
    formId: formId(),
    'hours.person': 'odell',
    'hours.subject': `batch:${geese}`,
    'hours.day': '2026-08-03',
    'hours.length': '120',
  })
  const hours = await newest()
  expect(hours.about).toBe('Odell 2 h, Geese of June, Aug 3, 2026')
  // A note that was taken out says still what it was.
  await undo(hours.id)
  expect((await acts()).find(({ id }) => id === hours.id)).toMatchObject({
    about: 'Odell 2 h, Geese of June, Aug 3, 2026',
    isTakenBack: true,
  })
})

test('reconciliations, statements, sortings and crossings say account, day and amount', async () => {
  sorted('Farm checking', '2026-08-20', -45_000, 'HOLLOW MILL', 'Feed')
  const [sorting, reading] = await acts()
  expect(sorting!.about).toBe('Farm checking, Aug 20, 2026')
  expect(reading!.about).toMatch(/^Farm checking, /)
  for (const [name, on, balance] of [
    ['Farm checking', '2026-08-31', -45_000],
    ['Household checking', '2026-09-30', 0],
  ] as const)
    expect(
      reconcileWhole(app.books, act(), {
        accountId: account(name),
        statementDay: day(on),
        statementBalanceCents: cents(balance),
      }).ok,
    ).toBe(true)
  const [house, farm] = await acts()
  expect([house!.about, farm!.about]).toEqual([
    'Household checking, Sep 30, 2026, $0.00',
    'Farm checking, Aug 31, 2026, −$450.00',
  ])
  expect(
    postCrossing(app.books, act(), {
      kind: 'draw',
      day: day('2026-10-01'),
      amountCents: cents(30_000),
      fromAccountId: account('Farm checking'),
      toAccountId: account('Household checking'),
      memo: 'October',
    }).ok,
  ).toBe(true)
  expect((await newest()).about).toBe('October, $300.00, Oct 1, 2026')
})

test('an undo that a reconciled statement forbids names its account and leads to it', async () => {
  const sorting = (await acts()).find(({ about }) => about === 'Farm checking, Aug 20, 2026')!
  const page = await undo(sorting.id)
  expect(page).toContain('the reconciled statement of Farm checking of Aug 31, 2026')
  const way = /href="(\/books\/reconcile\/[^"]+)"[^>]*>Open that reconciliation</.exec(page)?.[1]
  expect(await (await app.get(way!)).text()).toContain('Farm checking')
})

test('tying a line to a batch is an act of the list, and undone it is untied', async () => {
  const figures = (await (await app.get(`/farm/batches/${geese}.json`)).json()) as {
    untied: { lines: { postingId: number }[] }
  }
  await app.post(`/farm/batches/${geese}/tie`, {
    formId: formId(),
    'tie[]': figures.untied.lines.map(({ postingId }) => String(postingId)),
  })
  expect(tiedLines(app.books).map(({ amountCents }) => amountCents)).toEqual([45_000])
  const tie = await newest()
  expect(tie).toMatchObject({
    says: 'Lines of the books were tied to a batch',
    about: 'Geese of June, 1 line, $450.00',
  })
  expect(await undo(tie.id)).toContain('It is undone.')
  expect(tiedLines(app.books)).toEqual([])
  // Taken back once: what was tied anew since stays.
  expect(await undo(tie.id)).toContain('Something was done since')
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('a bill that is the batch’s only in part is split under “What was it for?”, and its part is tied by itself', async () => {
  const shown = await (await app.get(`/farm/batches/${geese}`)).text()
  const no = /href="\/books\/entries\/(\d+)"/.exec(shown)![1]!
  expect(shown).toContain('split it under “What was it for?”')
  const form = await (await app.get(`/books/entries/${no}/for`)).text()
  const split = await app.post(`/books/entries/${no}/for`, {
    formId: /name="formId" value="([^"]+)"/.exec(form)![1]!,
    'parts.0.account': String(account('Feed')),
    'parts.0.amount': '300',
    'parts.1.account': String(account('Feed')),
    'parts.1.amount': '150',
  })
  expect(split.status).toBe(303)
  const { untied } = (await (await app.get(`/farm/batches/${geese}.json`)).json()) as {
    untied: { lines: { amountCents: number }[] }
  }
  expect(untied.lines.map(({ amountCents }) => amountCents).sort()).toEqual([15_000, 30_000])
  const change = (await acts())[0]!
  expect(await undo(change.id)).toContain('It is undone.')
})

test('letting a line go is undone by tying it again', async () => {
  const figures = async () =>
    (await (await app.get(`/farm/batches/${geese}.json`)).json()) as {
      untied: { lines: { postingId: number }[] }
    }
  const postingId = String((await figures()).untied.lines[0]!.postingId)
  await app.post(`/farm/batches/${geese}/tie`, { formId: formId(), 'tie[]': postingId })
  await app.post(`/farm/batches/${geese}/untie`, { formId: formId(), posting: postingId })
  const untie = await newest()
  expect(untie.about).toBe('Geese of June, 1 line, $450.00')
  await undo(untie.id)
  expect(tiedLines(app.books)).toHaveLength(1)
})
