// The sentence that a room begins with: what is bought, reconciled and closed next, and how savings went against the plan. Figures of a farm of our own invention.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import type { ReconcileListFigures } from '#today/reconcile/figures.ts'
import { nextToClose } from '#views/close/close.tsx'
import { buyingAnswer } from '#views/farm/room-answers.ts'
import { answerOf } from '#views/reconcile/list.tsx'
import { changeInWords } from '#views/runway/actual.tsx'

const buying = (...queue: [name: string, bought: number | null][]): string | null =>
  buyingAnswer({
    purchases: { firstMonth: month(2026, 5), queue: queue.map(([name, bought]) => ({ name, bought })) },
  } as unknown as FarmFigures)

test('of what is wanted the first month comes, not the first of the list, and nothing that is bought already', () => {
  expect(
    buying(['Loader', month(2028, 3)], ['Walk-in cooler', month(2027, 1)], ['Gate', month(2025, 4)]),
  ).toBe('Next comes Walk-in cooler, in January 2027, from the farm’s own cash.')
  expect(buying(['Loader', null])).toBe('Cash allows nothing on the list within the plan.')
  expect(buying(['Gate', month(2025, 4)])).toBeNull()
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
  const side = (name: string, of: number) => ({ side: { name }, month: of })
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
