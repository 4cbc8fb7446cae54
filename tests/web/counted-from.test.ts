// From which day months left are counted, and what is done with months that the books miss: said wherever months left are told. A
// couple of our own invention, Ada and Bruno, without tax and without rising prices, so that it can be counted by hand.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { dollarsToCents } from '#money/cents.ts'
import type { PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { nowCommand } from '#src/cli/now.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** 2,000 a month to live on, a floor of 5,000, and nothing that comes in. */
const opened = (today: string, startMonth: string) => {
  app = testApp({ today })
  app.openSides()
  const plan: PlanInput = {
    startMonth,
    household: {
      people: [
        { id: 'ada', name: 'Ada', born: '1968-02-03' },
        { id: 'bruno', name: 'Bruno', born: '1985-07-19' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
      floor: { kind: 'dollars', dollars: 5000 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 30_000 }] },
    tax: { method: 'none' },
    health: { medicareFrom65: false },
    assumptions: { inflation: 0, bills: 0 },
  }
  const read = readPlan({ planVersion: 5, ...plan })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
}

const booked = (on: string, from: string, into: string, dollars: number) => {
  const id = (name: string) =>
    listAccounts(app.books, { sideId: 'household' }).find((one) => one.name === name)!.id
  const lines = [
    { accountId: id(into), amountCents: dollarsToCents(dollars) },
    { accountId: id(from), amountCents: dollarsToCents(-dollars) },
  ]
  const head = { sideId: 'household', payee: '', memo: '', source: 'form' } as const
  done(postEntry(app.books, act(), { ...head, day: day(on), lines }))
}

const page = async (path: string) => (await (await app.get(path)).text()).replace(/\s+/g, ' ')
const json = async (path: string) => (await app.get(path)).json()

const terminal = async (today: string): Promise<string> => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-counted-'))
  try {
    const file = join(folder, 'books.sqlite')
    app.books.sqlite.prepare('VACUUM INTO ?').run(file)
    const said: string[] = []
    const say = (text: string) => void said.push(text)
    const io = {
      out: say,
      err: say,
      readInput: async () => '',
      env: {},
      now: () => new Date(`${today}T12:00:00`),
    }
    expect(await nowCommand.run(['--data', file], io)).toBe(0)
    return said.join('\n')
  } finally {
    rmSync(folder, { recursive: true })
  }
}

test('months left are counted from the first of the month on its last day too, and it is said where they are told', async () => {
  // 30,000 at the end of October less 2,000 a month: 6,000 after twelve months, and below 5,000 in the 13th, November 2027.
  for (const today of ['2026-11-01', '2026-11-30']) {
    opened(today, '2026-10')
    booked('2026-10-31', 'Opening balances', 'Savings', 30_000)
    expect(await json('/runway.json')).toMatchObject({
      countedFrom: '2026-11',
      milestones: { monthsLeft: 12, floorMonth: '2027-11' },
    })
    expect(await json('/now.json')).toMatchObject({ plan: { monthsLeft: 12, projectedFromMonth: '2026-11' } })
    // Of 30,000, fifteen months of 2,000 are paid, to January 2028.
    expect(await page('/now')).toContain(
      'Below the floor in November 2027, counted from November 1; out of money in February 2028.',
    )
    expect(await page('/runway')).toContain('floor crossed in November 2027, counted from November 1')
    expect(await page('/runway')).not.toContain('The books miss')
    expect(await terminal(today)).toContain(
      'Months left, as planned: 12, counted from November 1, below the floor from November 2027',
    )
    app.close()
  }
  opened('2026-12-01', '2026-10')
  booked('2026-10-31', 'Opening balances', 'Savings', 30_000)
  // Nothing was booked in November: it is counted as planned, and a month is gone.
  expect(await json('/runway.json')).toMatchObject({
    countedFrom: '2026-12',
    milestones: { monthsLeft: 11, floorMonth: '2027-11' },
  })
  expect(await page('/now')).toContain(
    'Below the floor in November 2027, counted from December 1; out of money in February 2028.',
  )
})

test('months that the books miss are counted as planned, and every place that tells months left says so', async () => {
  opened('2026-11-20', '2026-05')
  booked('2026-05-31', 'Opening balances', 'Savings', 30_000)
  booked('2026-06-12', 'Savings', 'Groceries', 3000)
  // 27,000 at the end of June; July to October as planned leave 19,000, and 5,000, the floor, are left after seven more, May 2027.
  const says =
    '4 months are missing since then and counted here as planned: the projection begins with July 2026.'
  expect(await json('/now.json')).toMatchObject({
    plan: { monthsLeft: 7, projectedFromMonth: '2026-07' },
    reachSays: expect.arrayContaining([says]),
  })
  expect(await page('/now')).toContain(says)
  expect(await terminal('2026-11-20')).toContain(says)
  expect(await json('/runway.json')).toMatchObject({
    countedFrom: '2026-11',
    months: expect.arrayContaining([expect.objectContaining({ month: '2026-10', spendable: 19_000 })]),
    milestones: { monthsLeft: 7, floorMonth: '2027-06' },
  })
  expect(await page('/runway')).toContain(
    'The books miss the months from July to October 2026: they are counted as planned, and the projection begins with them.',
  )
})

test('missing months from before the plan are not said to be counted', async () => {
  opened('2026-11-20', '2026-09')
  booked('2026-05-31', 'Opening balances', 'Savings', 30_000)
  booked('2026-06-12', 'Savings', 'Groceries', 3000)
  // September and October as planned; of July and August no plan knows anything: 27,000 less 4,000 is 23,000 at the end of October.
  expect(await json('/now.json')).toMatchObject({
    plan: { projectedFromMonth: '2026-09', monthsLeft: 9 },
    reachSays: expect.arrayContaining([
      '4 months are missing since then. They are counted here as planned from September 2026 on, where the plan begins; what was spent before is in no figure until the books hold it.',
    ]),
  })
  app.close()
  opened('2026-11-20', '2026-12')
  booked('2026-06-12', 'Opening balances', 'Savings', 27_000)
  expect(await json('/now.json')).toMatchObject({
    reachSays: expect.arrayContaining([
      '4 months are missing since then. What was spent in them is in no figure until the books hold it: the plan begins in December 2026.',
    ]),
  })
})
