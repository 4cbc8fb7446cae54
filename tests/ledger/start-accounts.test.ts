// The accounts that new books begin with: what a small direct-market farm sells has a place of its own under the line of Schedule F it
// is filed on. Which products such farms keep apart is common practice.
import { expect, test } from 'vitest'
import type { SideKind } from '#ledger/account.ts'
import { startAccounts } from '#ledger/start-accounts.ts'

// Line 2 of Schedule F (Form 1040): sales of livestock, produce, grains and other products that were raised.
test.each([
  'Vegetables and fruit sold',
  'Cut flowers sold',
  'Honey and hive goods sold',
  'Raised livestock and meat sold',
  'Eggs and poultry sold',
  'Milk and cheese sold',
  'Tree fruit and nuts sold',
])('a farm finds “%s” on line 2', (name) => {
  expect(startAccounts('farm')).toContainEqual(
    expect.objectContaining({ name, kind: 'income', scheduleLine: '2' }),
  )
})

test.each(['farm', 'household', 'venture'] satisfies SideKind[])(
  'no number and no name stands twice among those of a %s',
  (kind) => {
    const accounts = startAccounts(kind)
    expect(new Set(accounts.map(({ number }) => number)).size).toBe(accounts.length)
    expect(new Set(accounts.map(({ name }) => name)).size).toBe(accounts.length)
  },
)
