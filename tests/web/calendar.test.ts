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

// RFC 5545: 3.1 (every content line ends with CRLF, at most 75 octets), 3.6.6 (a DISPLAY alarm has ACTION, DESCRIPTION and TRIGGER).
test('every line ends with CRLF, the last one too, and every date has its reminder in the morning of a day before', async () => {
  const raw = await (await app.get('/calendar.ics')).text()
  expect(raw.endsWith('END:VCALENDAR\r\n')).toBe(true)
  expect(raw.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  for (const line of raw.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
  const events = unfolded(raw).split('BEGIN:VEVENT').slice(1)
  expect(events.length).toBeGreaterThan(3)
  for (const event of events) {
    const [, alarm] = /BEGIN:VALARM\r\n([\s\S]*?)END:VALARM/.exec(event)!
    expect(alarm).toContain('ACTION:DISPLAY')
    expect(alarm).toMatch(/^DESCRIPTION:.+/m)
    // A week before, at nine: the whole day begins at midnight.
    expect(alarm).toMatch(/^TRIGGER(;RELATED=START)?:-P6DT15H(0M)?\r$/m)
  }
})

test('when sales tax is due is said once, and stands among the dates', async () => {
  const page = await (await app.get('/settings/calendar')).text()
  expect(page).toContain('On which day of the month after')
  const body = { basedOn: '0', every: 'quarter', dayOfMonth: '20' }
  expect((await app.post('/settings/calendar', body)).status).toBe(303)
  expect((await app.post('/settings/calendar', body)).status).toBe(303)
  expect(unfolded(await (await app.get('/calendar.ics')).text())).toContain(
    'SUMMARY:Sales tax for the quarter to December 2026',
  )
  const over = await app.post('/settings/calendar', { basedOn: '0', every: 'month', dayOfMonth: '15' })
  expect(over.status).toBe(409)
  const refused = await app.post('/settings/calendar', { basedOn: '1', every: 'month', dayOfMonth: '' })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Enter the day of the month')
})
