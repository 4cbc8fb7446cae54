// The dates of a year's papers, for a house in Oregon that pays work and rent, collects sales tax and saves for health: in the calendar
// file and, as they come near, among what is due on Now.
//
// Days: 26 USC 6071(c), 6072(a), 6654(i), 7503, 219(f)(3), 223(d)(4)(B); Form 4868. Oregon's own: second hand, as its data says.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { saySalesTax } from '#today/now/sales-tax.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const book = (sideId: string, on: string, debit: string, credit: string, dollars: number, payee = '') => {
  const idOf = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === sideId && one.name === name)!.id
  done(
    postEntry(app.books, act(), {
      sideId,
      day: day(on),
      payee,
      memo: '',
      source: 'form',
      lines: [
        { accountId: idOf(debit), amountCents: cents(dollars * 100) },
        { accountId: idOf(credit), amountCents: cents(-dollars * 100) },
      ],
    }),
  )
}

const house = async (today: string) => {
  app = testApp({ today })
  const form = {
    formId: crypto.randomUUID(),
    farmName: 'Fernlea',
    region: 'contiguous',
    state: 'OR',
    county: 'Lane',
  }
  await app.post('/start/who', { ...form, 'people.0.name': 'Oda', 'people.0.born': '1988-03-09' })
  book('farm', '2025-06-01', 'Farm checking', 'Vegetables and fruit sold', 30_000)
  book('household', '2025-06-01', 'Household checking', 'Off-farm pay', 40_000)
  book('farm', '2025-07-01', 'Custom hire', 'Farm checking', 2500, 'Ora Hauling')
  book('farm', '2025-07-02', 'Land rent', 'Farm checking', 900, 'Hilltop Land')
  book('household', '2025-08-01', 'Health savings', 'Household checking', 1200)
  expect(
    saySalesTax(app.books, { at: '2026-01-01T00:00:00Z', actor: '' }, { every: 'quarter', dayOfMonth: 20 }, 0)
      .ok,
  ).toBe(true)
}
const calendar = async () =>
  (await (await app.get('/calendar.ics')).text())
    .replaceAll('\r\n ', '')
    .replaceAll('\\,', ',')
    .split('BEGIN:VEVENT')
    .slice(1)
    .map((event) => `${/DTSTART[^:]*:(\d{8})/.exec(event)![1]} ${/SUMMARY:(.*)/.exec(event)![1]!.trim()}`)
const due = async () =>
  ((await (await app.get('/now.json')).json()) as { due: { says: string }[] }).due.map(({ says }) => says)

test('all of them stand in the calendar file', async () => {
  await house('2026-01-10')
  const dates = await calendar()
  for (const [on, words] of [
    ['20260202', 'Forms for those who worked for you in 2025'],
    ['20260202', 'Forms for those to whom you paid rent in 2025'],
    ['20260120', 'Sales tax for the quarter to'],
    ['20260415', 'Tax return for 2025'],
    ['20260415', 'Form 4868, if the return for 2025 is not ready'],
    ['20260415', 'Last day to pay into an IRA or HSA for 2025'],
    ['20261015', 'Tax return for 2025, if more time was asked for'],
  ])
    expect(dates.filter((one) => one.startsWith(on!)).join('\n'), words).toContain(words)
  expect(dates.some((one) => /Oregon/.test(one) && /return/i.test(one))).toBe(true)
  expect(dates.some((one) => /Oregon/.test(one) && /estimate|ahead/i.test(one))).toBe(true)
})

test('a year that is over asks for no forms where none is to be sent, and for some where nobody is named', async () => {
  const paid = async (dollars: number, payee: string) => {
    app = testApp({ today: '2026-01-10' })
    app.openSides()
    book('farm', '2025-07-01', 'Custom hire', 'Farm checking', dollars, payee)
    const says = (await due()).filter((one) => one.startsWith('Forms for those'))
    const inCalendar = (await calendar()).filter((one) => one.includes('Forms for those who worked'))
    app.close()
    return [says.length, inCalendar.length]
  }
  // 600 dollars is the line of 2025 (26 USC 6041(a), as it was before 2026).
  expect(await paid(450, 'Ora Hauling')).toEqual([0, 0])
  expect(await paid(600, 'Ora Hauling')).toEqual([1, 1])
  expect(await paid(450, 'CHECK 1204')).toEqual([1, 1])
  app = testApp({ today: '2026-01-10' })
})

test('a year that runs asks for forms as the year pack counts them: none below the line, one above it', async () => {
  const paid = async (...each: [dollars: number, payee: string][]) => {
    app = testApp({ today: '2026-12-01' })
    app.openSides()
    for (const [dollars, payee] of each)
      book('farm', '2026-06-20', 'Custom hire', 'Farm checking', dollars, payee)
    const onNow = (await due()).filter((one) => one.startsWith('Forms for those who worked')).length
    const inCalendar = (await calendar()).filter((one) => one.includes('you in 2026')).length
    app.close()
    return [onNow, inCalendar]
  }
  // 2,000 dollars is the line from 2026 on (26 USC 6041(a), Pub. L. 119-21 sec. 70433).
  expect(await paid([412.5, 'Larkspur Mowing'], [1587, 'Ida Brandt Excavating'])).toEqual([0, 0])
  expect(await paid([412.5, 'Larkspur Mowing'], [2000, 'Ida Brandt Excavating'])).toEqual([1, 1])
  app = testApp({ today: '2026-12-01' })
})

test('as they come near they are due: January’s forms first, then more time, savings and both returns', async () => {
  await house('2026-01-10')
  const january = (await due()).join('\n')
  expect(january).toContain('Forms for those who worked for you in 2025')
  expect(january).toContain('Forms for those to whom you paid rent in 2025')
  expect(january).toContain('Sales tax for the quarter to')
  expect(january).not.toContain('4868')
  app.close()
  await house('2026-03-10')
  const march = (await due()).join('\n')
  expect(march).toContain('Form 4868')
  expect(march).toContain('Last day to pay into an IRA or HSA for 2025')
  expect(march).toMatch(/Tax return for 2025: /)
  expect(march).toMatch(/Oregon/)
  expect(march).not.toContain('if more time was asked for')
})

test('on its very day it is still due, and no longer on the day after', async () => {
  await house('2026-04-15')
  const onTheDay = (await due()).join('\n')
  expect(onTheDay).toContain('Tax return for 2025')
  expect(onTheDay).toContain('Last day to pay into an IRA or HSA for 2025')
  app.setToday('2026-04-16')
  const dayAfter = (await due()).join('\n')
  expect(dayAfter).not.toContain('Tax return for 2025')
  expect(dayAfter).not.toContain('Last day to pay into an IRA or HSA for 2025')
})
