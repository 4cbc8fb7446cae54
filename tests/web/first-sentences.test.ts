// The sentence that a room begins with: what is bought, reconciled and closed next, and how savings went against the plan. Figures of a farm of our own invention.
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { cents } from '#money/cents.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import type { ReconcileListFigures } from '#today/reconcile/figures.ts'
import { copiesInWords } from '#views/backups/backups.tsx'
import { nextToClose } from '#views/close/close.tsx'
import { buyingAnswer, herdAnswer } from '#views/farm/room-answers.ts'
import { weekInWords } from '#views/farm-notebook/hours.tsx'
import { notedInWords } from '#views/farm-notebook/preparer.tsx'
import { answerOf } from '#views/reconcile/list.tsx'
import { changeInWords } from '#views/runway/actual.tsx'
import { lastInWords } from '#views/runway/last-in-words.ts'
import { formsInWords } from '#views/year-pack/people.tsx'
import { profitInWords } from '#views/year-pack/tax/profit-in-words.ts'

const buying = (...queue: [name: string, bought: number | null, isBought?: boolean][]): string | null =>
  buyingAnswer({
    purchases: {
      queue: queue.map(([name, bought, isBought = false]) => ({ name, bought, isBought })),
    },
  } as unknown as FarmFigures)

test('of what is wanted the first month comes, not the first of the list, and nothing that is bought already', () => {
  expect(
    buying(['Loader', month(2028, 3)], ['Walk-in cooler', month(2027, 1)], ['Gate', month(2025, 4), true]),
  ).toBe('Next comes Walk-in cooler, in January 2027, from the farm’s own cash.')
  expect(buying(['Loader', null])).toBe('Cash allows nothing on the list within the plan.')
  expect(buying(['Gate', month(2025, 4), true])).toBeNull()
})

type Account = ReconcileListFigures['accounts'][number]
const account = (name: string, more: Partial<Account>) =>
  ({ name, reconciledThrough: '2026-04-30', ...more }) as Account
const file = { fileSays: { day: '2026-05-31', balanceCents: 100 } } as Partial<Account>

const reconciling = (...accounts: Account[]) => answerOf({ accounts } as ReconcileListFigures)

test('what is next of reconciling: what no longer meets, what is under way, balances of files, what never was', () => {
  const till = account('Till', file)
  expect(reconciling(till)).toBe('Till can be reconciled next, by the balance of its file.')
  expect(reconciling(till, account('Card', file))).toBe(
    'Till and Card can be reconciled next, by the balances of their files.',
  )
  expect(reconciling(till, account('Card', { openId: 'card' } as Partial<Account>))).toBe(
    'The statement of Card is under way.',
  )
  expect(
    reconciling(till, account('Card', { changed: { id: 'one', cents: -100 } } as Partial<Account>)),
  ).toBe('The books no longer meet the statement of Card.')
  expect(reconciling(account('Cash box', { reconciledThrough: null }))).toBe(
    'Cash box has not been reconciled yet.',
  )
  expect(reconciling(account('Till', {}))).toBe('The books meet the last statement of every account.')
})

test('the month that is furthest behind is closed next, with whose it is', () => {
  const side = (name: string, of: number, state = 'done') => ({
    side: { name },
    month: of,
    checklist: [{ id: 'over', state }],
  })
  const said = (...sides: ReturnType<typeof side>[]) =>
    nextToClose({ sides } as unknown as Parameters<typeof nextToClose>[0])
  const march = month(2026, 3)
  expect(said(side('The Orrs', march))).toBe('Next to close is March 2026.')
  expect(said(side('The Orrs', march), side('Bramley', march))).toBe(
    'Next to close is March 2026, in all books.',
  )
  expect(said(side('The Orrs', march), side('Bramley', month(2026, 1)))).toBe(
    'Next to close is January 2026, of Bramley.',
  )
  // May still runs, of both.
  expect(said(side('The Orrs', month(2026, 5), 'stops'), side('Bramley', month(2026, 5), 'stops'))).toBe(
    'Every month that is over is closed. May 2026 can be closed from Jun 1, 2026 on.',
  )
})

test('savings against the plan say how they went, and whether that is better or worse', () => {
  const said = (planned: number, actual: number) =>
    changeInWords({
      change: { name: 'Change', planned, actual, difference: actual - planned, isWorse: actual < planned },
      actual: { from: '2026-02', to: '2026-04' },
    } as unknown as Parameters<typeof changeInWords>[0])
  expect(said(-900, -1_300)).toBe(
    'Savings fell by $1,300, $400 worse than planned, February 2026 to April 2026.',
  )
  expect(said(-900, 200)).toBe(
    'Savings grew by $200, $1,100 better than planned, February 2026 to April 2026.',
  )
  expect(said(-900, -900.4)).toBe('Savings fell by $900, as planned, February 2026 to April 2026.')
})

test('of herds the one whose money is back last counts, and one that does not come back at all goes first', () => {
  const herd = (name: string, back: object | null) => ({ name, payback: back })
  const said = (...herds: ReturnType<typeof herd>[]) =>
    herdAnswer({ herds } as unknown as Parameters<typeof herdAnswer>[0])
  const sheep = herd('Meat sheep', { isPutIn: true, paidBack: '2033-03', monthsToPayBack: 84 })
  const hens = herd('Hens', { isPutIn: true, paidBack: '2028-06', monthsToPayBack: 20 })
  expect(said(sheep)).toBe(
    'The money put into Meat sheep is back in March 2033, 7 years after the first of it went in.',
  )
  expect(said(hens, sheep)).toContain('Meat sheep is back in March 2033')
  expect(said(hens, sheep)).toContain('That of the others is back before.')
  expect(said(hens, herd('Goats', { isPutIn: true, paidBack: null, monthsToPayBack: null }))).toBe(
    'The money put into Goats does not come back within 30 years.',
  )
  expect(said(herd('Hens', { isPutIn: false, paidBack: null, monthsToPayBack: null }))).toContain('own way')
  expect(said(herd('Hens', null))).toBeNull()
})

test('hours of a week are summed, and who worked most comes first', () => {
  const person = (name: string, total: number) => ({ name, minutes: [], total })
  expect(weekInWords([person('Bram', 90), person('Ada', 600)])).toBe(
    '11.5 hours are written down for this week: 10 by Ada and 1.5 by Bram.',
  )
  expect(weekInWords([person('Ada', 60)])).toBe('1 hour is written down for this week, all by Ada.')
})

test('what is noted for the preparer: only what there is, goods at what they sell for', () => {
  const none = { farmMiles: 0, hired: [], goods: [], kitchenCents: cents(0), barteredCents: cents(0) }
  expect(notedInWords(none, 2026)).toBe('No miles, hired hours or goods of 2026 are noted yet.')
  const hired = [{ person: 'Ola', minutes: 150, payCents: cents(4500), hasUnpaid: false }]
  const goods = [{}, {}] as never
  expect(
    notedInWords(
      { farmMiles: 1240, hired, goods, kitchenCents: cents(6000), barteredCents: cents(2550) },
      2026,
    ),
  ).toBe('Noted for 2026 are 1,240 farm miles, 2.5 hired hours, and $85.50 of goods that left without money.')
})

test('copies say the newest here and the last that left, also of those whose day is not known', () => {
  const kept = [
    { name: 'a', day: day('2026-03-02'), byteCount: 1 },
    { name: 'b', day: day('2026-03-09'), byteCount: 1 },
    { name: 'c', day: null, byteCount: 1 },
  ]
  expect(copiesInWords({ kept, lastElsewhere: null })).toBe(
    'The newest copy on this computer is of Mar 9, 2026, and none has left it.',
  )
  expect(copiesInWords({ kept: [], lastElsewhere: day('2026-02-01') })).toBe(
    'No copy is on this computer yet; the last one that left it is of Feb 1, 2026.',
  )
})

test('plans say how long savings last with each, and where they last with all, which gets lowest', () => {
  const plan = (name: string, monthsLeft: number | null, lowestSpendable: number) => ({
    name,
    milestones: { monthsLeft, lowestSpendable },
  })
  expect(lastInWords([plan('As it is', 34, 0), plan('Fewer hours', null, 9000)])).toBe(
    'Savings last 34 months with “As it is” and to the end with “Fewer hours”.',
  )
  expect(lastInWords([plan('As it is', null, 8000), plan('Fewer hours', null, 9000)])).toBe(
    'Savings last with each; the lowest they get is $8,000 with “As it is” and $9,000 with “Fewer hours”.',
  )
})

test('payees: who they are comes before who gets a form', () => {
  const payee = (name: string, kind: string | null, ...forms: string[]) => ({ name, kind, forms })
  const said = (...payees: ReturnType<typeof payee>[]) =>
    formsInWords({ payees, lineCents: cents(200_000), year: 2026 } as unknown as Parameters<
      typeof formsInWords
    >[0])
  expect(said(payee('Feed mill', 'company'))).toBe('Nobody was paid enough in 2026 for a Form 1099.')
  expect(said(payee('Ola Brandt', 'contractor', '1099-NEC'), payee('Barn owner', null, '1099-MISC'))).toBe(
    'Say who Barn owner is: paid enough in 2026 for a Form 1099.',
  )
  expect(said(payee('Ola Brandt', 'contractor', '1099-NEC'))).toBe('A Form 1099 of 2026 goes to Ola Brandt.')
  expect(formsInWords({ payees: [], lineCents: null, year: 2019 })).toContain('2019')
})

test('a form of the year says its profit or loss so far, and that nothing is entered yet', () => {
  expect(profitInWords('the farm', { year: 2026, netProfitCents: cents(-125_000) }, true)).toBe(
    'With what is entered here, the loss of the farm in 2026 is $1,250.00.',
  )
  expect(profitInWords('Bindery', { year: 2026, netProfitCents: cents(30_050) }, false)).toBe(
    'Nothing is entered here yet: by the books, the profit of Bindery in 2026 is $300.50.',
  )
})
