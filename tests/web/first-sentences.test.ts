// The sentence that a room begins with: what is bought next, and which account is reconciled next. Figures of a farm of our own invention.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import type { ReconcileListFigures } from '#today/reconcile/figures.ts'
import { buyingAnswer } from '#views/farm/room-answers.ts'
import { answerOf } from '#views/reconcile/list.tsx'

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
