// A month that the books pass over in their middle: said on Now and in the terminal's sentences, and left out of what a month costs.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { parseMonth } from '#calendar/month.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { reconcileWhole } from '#db/reconcile/reconcile-store.ts'
import { readIn } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { currentPlan } from '#today/current-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { accountIn, moveIn } from '../today/moved.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** 52,000 on the first of June 2026, or the day given, and 2,600 spent on the tenth of each month named. */
const goats = (...months: string[]) => goatsFrom('2026-06-01', ...months)

const goatsFrom = (begins: string, ...months: string[]) => {
  app = testApp({ today: '2026-11-20' })
  app.openSides()
  app.savePlan(
    planSchema.parse({
      startMonth: '2025-11',
      household: {
        people: [{ id: 'ida', name: 'Ida', born: '1968-02-11', planToAge: 90 }],
        living: [{ id: 'living', name: 'Living', perMonth: 2500 }],
        floor: { kind: 'dollars', dollars: 6000 },
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
      tax: { method: 'none' },
      assumptions: { inflation: 0 },
    }),
  )
  moveIn(app.books, 'household', begins, 'Opening balances', 'Household checking', 52_000)
  for (const one of months) spend(`${one}-10`)
}
const spend = (on: string, from = 'Household checking') =>
  moveIn(app.books, 'household', on, from, 'Groceries', 2600)

/** A file of the bank with one line, which waits to be sorted. */
const readLine = (accountId: number, n: number, on: string) =>
  read(accountId, n, on, [
    {
      fileLine: 1,
      bankNumber: `line-${n}`,
      day: day(on),
      amount: cents(-260_000),
      payee: 'Feed barn',
      memo: '',
      checkNumber: '',
    },
  ])

/** One without lines, that states a balance of its day. */
const readNothing = (accountId: number, n: number, on: string) =>
  read(accountId, n, on, [], { asOf: day(on), balance: cents(0) })

const read = (
  accountId: number,
  n: number,
  on: string,
  lines: Parameters<typeof readIn>[3]['statement']['lines'],
  closing: Parameters<typeof readIn>[3]['statement']['closing'] = null,
) =>
  expect(
    readIn(
      app.books,
      act(),
      accountId,
      {
        format: 'ofx',
        fileName: `${on}.ofx`,
        contentHash: String(n).repeat(64),
        columns: null,
        statement: {
          bankAccount: '',
          kind: 'bank',
          currency: 'USD',
          closing,
          remarks: [],
          lines,
        },
      },
      day('2026-11-01'),
    ).ok,
  ).toBe(true)

interface Said {
  reach: { gaps: { month: string; accounts: string[] }[] }
  behind: object[]
  reachSays: string[]
  plan: object
  paces: { months: number; costCents: number }[]
  spending: { month: string; cents: number }[]
  cover: { month: string; months: number; drawCents: number; costCents: number }[]
}
const said = async () => (await (await app.get('/now.json')).json()) as Said
const counts = 'Savings and months left count as if nothing had been spent or had come in then.'

test('a month in which nothing is booked is said, and costs of a month are those of the months that are known', async () => {
  goats('2026-06', '2026-07', '2026-09', '2026-10')
  const now = await said()
  expect(now.reach.gaps).toEqual([{ month: '2026-08', accounts: [] }])
  expect(now.reachSays).toContain('Nothing is booked in August 2026, though the books go on after.')
  expect(now.reachSays).toContain(counts)
  // 2,600 in each of July, September and October; with August as nothing it would be 1,733.33 a month.
  expect(now.paces.map(({ months, costCents }) => [months, costCents])).toEqual([[3, 260_000]])
  expect(now.spending.map((one) => one.month)).toEqual(['2026-06', '2026-07', '2026-09', '2026-10'])
  const page = await (await app.get('/now')).text()
  expect(page).toContain('Nothing is booked in August 2026')
  expect(page).toContain('Read in the bank’s files')
  // The plan's 2,500 is held against the months after it, 2,600 each.
  const against = (await (await app.get('/runway/actual.json')).json()) as {
    variance: { actual: object; lines: { name: string; planned: number; actual: number }[] }
  }
  expect(against.variance.actual).toEqual({ from: '2026-09', to: '2026-10' })
  expect(against.variance.lines.find(({ name }) => name === 'Living costs')).toMatchObject({
    planned: 5000,
    actual: 5200,
  })
  // Written in later, nothing is missing.
  spend('2026-08-12')
  expect((await said()).reach.gaps).toEqual([])
  expect((await said()).reachSays).not.toContain(counts)
})

test('the first month is passed over where only its opening balances stand, and not where books begin within it', async () => {
  goats('2026-07', '2026-08')
  expect((await said()).reach.gaps).toEqual([{ month: '2026-06', accounts: [] }])
  app.close()
  goatsFrom('2026-05-20', '2026-06')
  expect((await said()).reach.gaps).toEqual([])
})

test('several are told by name, many by how many', async () => {
  goats('2026-06', '2026-08', '2026-10')
  expect((await said()).reachSays).toContain(
    'Nothing is booked in July 2026 and September 2026, though the books go on after.',
  )
  app.close()
  goats('2026-06', '2026-11')
  expect((await said()).reachSays).toContain(
    'Nothing is booked in 4 months, the first July 2026, though the books go on after.',
  )
})

test('what a balance reconciled later vouches for is not passed over', async () => {
  goats('2026-06', '2026-07', '2026-09')
  const accountId = accountIn(app.books, 'household', 'Household checking')
  // 52,000 less three times 2,600: the bank's word at the end of September is what is booked.
  done(
    reconcileWhole(app.books, act(), {
      accountId,
      statementDay: day('2026-09-30'),
      statementBalanceCents: cents(4_420_000),
    }),
  )
  expect((await said()).reach.gaps).toEqual([])
})

test('an account between whose files a month lies is named, while others moved in it', async () => {
  goats()
  const accountId = accountIn(app.books, 'household', 'Savings')
  for (const [n, on] of ['2026-06-10', '2026-07-10', '2026-09-10', '2026-10-10'].entries()) {
    readLine(accountId, n + 1, on)
    spend(on, 'Savings')
  }
  spend('2026-08-10')
  expect((await said()).reach.gaps).toEqual([{ month: '2026-08', accounts: ['Savings'] }])
  expect((await said()).reachSays).toContain(
    'No bank file of “Savings” speaks of August 2026, between those that were read.',
  )
})

test('an account whose files end before those of another is named until they are read, reconciled or the months closed', async () => {
  goats()
  const [checking, savings] = ['Household checking', 'Savings'].map((name) =>
    accountIn(app.books, 'household', name),
  )
  const days = ['2026-06-10', '2026-07-10', '2026-08-10', '2026-09-10', '2026-10-10']
  for (const [n, on] of days.entries()) {
    readLine(checking!, n + 1, on)
    spend(on)
  }
  for (const [n, on] of days.slice(0, 3).entries()) {
    readLine(savings!, n + 6, on)
    spend(on, 'Savings')
  }
  const says =
    'The bank’s files of “Savings” (to Aug 10, 2026) end before those of other accounts: what happened on it since then is in no figure. Where nothing moved on it, close those months.'
  expect((await said()).reachSays).toContain(says)
  expect((await said()).behind).toEqual([{ id: savings, name: 'Savings', through: '2026-08-10' }])
  const page = (await (await app.get('/now')).text()).replace(/\s+/g, ' ')
  expect(page).toContain(says)
  expect(page).toContain('Read in the bank’s files')
  const month = (await (await app.get('/month?month=2026-10')).text()).replace(/\s+/g, ' ')
  expect(month).toContain('nothing read of October 2026: Savings, read to Aug 10, 2026')
  // The next file speaks of October: what is missing then lies between its files.
  readLine(savings!, 9, '2026-10-12')
  const after = await said()
  expect(after.behind).toEqual([])
  expect(after.reach.gaps).toEqual([{ month: '2026-09', accounts: ['Savings'] }])
})

test('an account read less far is vouched for by a reconciliation, and by months that are closed', async () => {
  const readBoth = () => {
    goats()
    const [checking, savings] = ['Household checking', 'Savings'].map((name) =>
      accountIn(app.books, 'household', name),
    )
    for (const [n, on] of ['2026-06-10', '2026-09-10'].entries()) readNothing(checking!, n + 1, on)
    readNothing(savings!, 3, '2026-06-10')
    spend('2026-09-10')
    return savings!
  }
  const savings = readBoth()
  expect((await said()).behind).toMatchObject([{ name: 'Savings', through: '2026-06-10' }])
  done(
    reconcileWhole(app.books, act(), {
      accountId: savings,
      statementDay: day('2026-09-30'),
      statementBalanceCents: cents(0),
    }),
  )
  expect((await said()).behind).toEqual([])
  app.close()
  readBoth()
  close('2026-09')
  expect((await said()).behind).toEqual([])
})

test('what is read in and waits to be sorted is said beside the months that are missing, and leads to sorting', async () => {
  goats('2026-06', '2026-07')
  const accountId = accountIn(app.books, 'household', 'Household checking')
  for (const [n, on] of ['2026-06-10', '2026-08-10', '2026-09-10'].entries()) readLine(accountId, n + 1, on)
  const now = await said()
  expect(now.reachSays.join(' ')).toContain('months are missing since then')
  expect(now.reachSays).toContain(
    '3 transactions of the household are read in and wait to be sorted: until then no figure counts them.',
  )
  const page = (await (await app.get('/now')).text()).replace(/\s+/g, ' ')
  expect(page).toContain('<a href="/books/sorting">Sort what is read in</a>')
})

test('what the farm paid is told of the months that the books know: one that they pass over is none of them', async () => {
  goats('2026-06', '2026-07', '2026-09', '2026-10')
  for (const on of ['2026-06-20', '2026-10-20'])
    done(
      postCrossing(app.books, act(), {
        kind: 'draw',
        day: day(on),
        amountCents: cents(130_000),
        fromAccountId: accountIn(app.books, 'farm', 'Farm checking'),
        toAccountId: accountIn(app.books, 'household', 'Household checking'),
        memo: '',
      }),
    )
  const { cover } = await said()
  // 2 × 1,300 of 4 × 2,600: a quarter, of four months.
  expect(cover.at(-1)).toMatchObject({
    month: '2026-10',
    months: 4,
    drawCents: 260_000,
    costCents: 1_040_000,
  })
  expect(cover.map(({ month }) => month)).toEqual(['2026-06', '2026-07', '2026-09', '2026-10'])
  expect((await (await app.get('/now')).text()).replace(/\s+/g, ' ')).toContain('4 months to October 2026')
  // Draws have been paid since June: Runway does not say that they begin.
  const runway = (await (await app.get('/runway')).text()).replace(/\s+/g, ' ')
  expect(runway).toContain('draws since June 2026, none to come')
  expect(runway).not.toContain('draws begin')
})

test('a month that the farm’s books pass over is said, and a closed one is not', async () => {
  goats('2026-06', '2026-07', '2026-08', '2026-09', '2026-10')
  moveIn(app.books, 'farm', '2026-06-01', 'Opening balances', 'Farm checking', 8000)
  for (const on of ['2026-06-12', '2026-07-12', '2026-09-12', '2026-10-12'])
    moveIn(app.books, 'farm', on, 'Farm checking', 'Feed', 300)
  const says =
    'Nothing is booked for the farm in August 2026, though its books go on after. Close a month in which nothing happened there.'
  expect((await said()).reachSays).toContain(says)
  expect((await said()).reach.gaps).toEqual([])
  for (const closed of ['2026-06', '2026-07', '2026-08'])
    done(
      closeMonth(
        app.books,
        act(),
        { sideId: 'farm', month: parseMonth(closed)!, note: '' },
        day('2026-11-20'),
      ),
    )
  expect((await said()).reachSays).not.toContain(says)
})

test('draws in the books that the plan goes on with are told as going on', async () => {
  goats('2026-10')
  const plan = currentPlan(app.books)
  if (plan.status !== 'read') throw new Error(plan.status)
  const draw = { ...plan.plan.draw, policy: 'steps' as const, steps: [{ from: '2025-11', perMonth: 500 }] }
  app.savePlan(planSchema.parse({ ...plan.plan, draw, farm: { ...plan.plan.farm, cash: 90_000 } }), {
    basedOn: 1,
  })
  const runway = async () => (await (await app.get('/runway')).text()).replace(/\s+/g, ' ')
  expect(await runway()).toContain('draws begin in')
  done(
    postCrossing(app.books, act(), {
      kind: 'draw',
      day: day('2026-10-20'),
      amountCents: cents(50_000),
      fromAccountId: accountIn(app.books, 'farm', 'Farm checking'),
      toAccountId: accountIn(app.books, 'household', 'Household checking'),
      memo: '',
    }),
  )
  expect(await runway()).toContain('draws since October 2026')
})

const close = (last: string) =>
  done(
    closeMonth(
      app.books,
      act(),
      { sideId: 'household', month: parseMonth(last)!, note: '' },
      day('2026-11-20'),
    ),
  )

test('a month that is closed is complete by the couple’s word: the books reach its end though no money moved in it', async () => {
  goats('2026-06', '2026-07')
  const before = await said()
  expect(before.reach).toMatchObject({
    day: '2026-07-10',
    missingMonths: 3,
    accounts: ['Household checking'],
  })
  expect(before.reachSays.join(' ')).toContain('3 months are missing since then')
  expect(before.reachSays.join(' ')).toContain(
    'Of “Household checking” nothing is entered or closed in them. Where nothing happened, close them.',
  )
  close('2026-09')
  const between = await said()
  expect(between.reach).toMatchObject({ day: '2026-09-30', missingMonths: 1, isByHand: true, gaps: [] })
  expect(between.reachSays.join(' ')).toContain('A month is missing since then')
  close('2026-10')
  const after = await said()
  expect(after.reach).toMatchObject({ day: '2026-10-31', missingMonths: 0, laterByHand: null })
  expect(after.reachSays.join(' ')).not.toContain('missing')
  // 52,000 less two months of 2,600, and from November 2,500 a month: 46,800 is above the floor of 6,000 for sixteen months, and
  // in the seventeenth, March 2028, it is 4,300. Three months not closed were counted as spent before.
  expect(after.plan).toMatchObject({ status: 'read', monthsLeft: 16, projectedFromMonth: '2026-11' })
  expect(before.plan).toMatchObject({ status: 'read', monthsLeft: 13, projectedFromMonth: '2026-08' })
  const { months } = (await (await app.get('/runway.json')).json()) as { months: { month: string }[] }
  expect(months[0]!.month).toBe('2026-11')
})

test('files that end before a closed month do not hold the books back, and what is entered after it waits as before', async () => {
  goats('2026-06', '2026-07')
  readLine(accountIn(app.books, 'household', 'Household checking'), 7, '2026-07-10')
  spend('2026-11-03')
  const open = await said()
  expect(open.reach).toMatchObject({ day: '2026-07-10', laterByHand: '2026-11-03', missingMonths: 3 })
  expect(open.reachSays.join(' ')).toContain(
    '“Household checking” nothing is sorted, reconciled or closed in them',
  )
})
