// The dates ahead as a page and as an iCalendar file.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { addSide } from '#db/ledger/account-store.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

beforeEach(() => {
  app = testApp({ today: '2026-11-20' })
  done(addSide(app.books, act(), { kind: 'farm', name: 'Lantern Hollow' }))
  done(addSide(app.books, act(), { kind: 'household', name: 'The house' }))
})

afterEach(() => app.close())

const unfolded = (text: string) => text.replaceAll(/\r\n[ \t]/g, '')

test('the file is iCalendar with whole days and lasting ids', async () => {
  const response = await app.get('/calendar.ics')
  expect(response.status).toBe(200)
  expect(response.headers.get('content-type')).toContain('text/calendar')
  const text = unfolded(await response.text())
  expect(text.startsWith('BEGIN:VCALENDAR\r\nVERSION:2.0')).toBe(true)
  expect(text.trimEnd().endsWith('END:VCALENDAR')).toBe(true)
  expect(text).toContain('DTSTART;VALUE=DATE:20270115')
  expect(text).toContain('UID:return-2026@dooryard.invalid')
  expect(text).toContain('not advice')
  expect(unfolded(await (await app.get('/calendar.ics')).text())).toBe(text)
  expect(text.match(/BEGIN:VEVENT/g)!.length).toBe(text.match(/END:VEVENT/g)!.length)
})

test('the page lists them with source and caution, also as JSON and CSV', async () => {
  const text = await (await app.get('/settings/calendar')).text()
  expect(text).toContain('Tax return for 2026')
  expect(text).toContain('Check with')
  const { dates } = (await (await app.get('/settings/calendar.json')).json()) as { dates: { id: string }[] }
  expect(dates.some(({ id }) => id === 'return-2026')).toBe(true)
  expect(await (await app.get('/settings/calendar.csv')).text()).toContain('2027-04-15,Tax return for 2026')
})
