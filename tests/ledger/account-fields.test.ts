// What an account can be said to be. Lines are held against the published forms, whose lines an account fills are written out here.
import { describe, expect, test } from 'vitest'
import { type Account, accountKinds, type SideKind } from '#ledger/account.ts'
import { accountFaults } from '#ledger/account-fields.ts'
import { linesFor } from '#ledger/schedule-lines.ts'
import { startAccounts } from '#ledger/start-accounts.ts'

const account = (more: Partial<Account>) => ({
  kind: 'expense' as const,
  cashRole: 'none' as const,
  scheduleLine: null,
  purpose: null,
  taxKind: null,
  savingsKind: null,
  personId: null,
  propertyLoan: null,
  currentKind: null,
  contraKind: null,
  crossingRole: null,
  ...more,
})
const faultsOf = (side: SideKind, more: Partial<Account>) =>
  accountFaults(side, account(more)).map(({ path, message }) => `${path}: ${message}`)

describe('lines of the tax form', () => {
  // Schedule F (Form 1040) 2019 and 2024, Parts I and II, irs.gov: lines that take an amount from the books.
  test('a farm account takes the lines of Schedule F that are filled in, by its kind', () => {
    const lines = (kind: 'income' | 'expense') => linesFor('farm', kind).map(({ line }) => line)
    expect(lines('income')).toEqual(['1a', '2', '3a', '4a', '5a', '5b', '6a', '6d', '7', '8', '2b', '4797'])
    expect(lines('expense')).toEqual(
      '1b 10 11 12 13 14 15 16 17 18 19 20 21a 21b 22 23 24a 24b 25 26 27 28 29 30 31 32a 32b 32c 32d 32e 32f'.split(
        ' ',
      ),
    )
  })

  // Schedule C (Form 1040) 2024, irs.gov; lines 8 to 39 in part from memory.
  test('a venture’s account takes the lines of Schedule C, sums left out', () => {
    expect(linesFor('venture', 'income').map(({ line }) => line)).toEqual(['1', '6', '4797'])
    const costs = linesFor('venture', 'expense').map(({ line }) => line)
    expect(costs.slice(0, 4)).toEqual(['2', '8', '9', '10'])
    for (const sum of ['3', '4', '5', '7', '27a', '27b', '28', '31', '42']) expect(costs).not.toContain(sum)
  })

  test.each(['1c', '3b', '4b', '5c', '6b', '6c', '9', '33', '34', '99', '32g', 'sixteen', ''])(
    'no farm account of any kind takes “%s”: the form works it out or does not have it',
    (line) => {
      for (const kind of accountKinds)
        expect(faultsOf('farm', { kind, scheduleLine: line })).toEqual([
          expect.stringMatching(/^scheduleLine: /),
        ])
    },
  )

  test('a cost takes no line of income, income none of costs, and neither a line of the other form', () => {
    expect(faultsOf('farm', { kind: 'expense', scheduleLine: '4a' })[0]).toContain('for income')
    expect(faultsOf('farm', { kind: 'income', scheduleLine: '16' })[0]).toContain('for costs')
    expect(faultsOf('venture', { scheduleLine: '32a' })).toHaveLength(1)
    expect(faultsOf('household', { scheduleLine: '16' })[0]).toContain('Leave it empty')
    expect(faultsOf('farm', { kind: 'asset', scheduleLine: '14' })[0]).toContain('Only income and costs')
  })
})

describe('purpose, tax and savings', () => {
  test('what is for income taxes says whose tax it is', () => {
    expect(faultsOf('household', { purpose: 'tax' })).toEqual([expect.stringMatching(/^taxKind: Say whose/)])
    expect(faultsOf('household', { purpose: 'tax', taxKind: 'state' })).toEqual([])
    expect(faultsOf('household', { purpose: 'living', taxKind: 'federal' })).toHaveLength(1)
    expect(faultsOf('farm', { taxKind: 'federal' })).toHaveLength(1)
    expect(faultsOf('farm', { kind: 'liability', taxKind: 'sales' })).toEqual([])
  })

  test('a cost is no pay, income no premium, and only the household’s own money is savings', () => {
    expect(faultsOf('household', { purpose: 'pay' })).toHaveLength(1)
    expect(faultsOf('household', { kind: 'income', purpose: 'premium' })).toHaveLength(1)
    expect(faultsOf('venture', { purpose: 'living' })).toHaveLength(1)
    expect(faultsOf('household', { kind: 'asset', cashRole: 'other', savingsKind: 'roth' })).toEqual([])
    expect(faultsOf('household', { kind: 'asset', savingsKind: 'roth' })).toHaveLength(1)
    expect(faultsOf('farm', { kind: 'asset', cashRole: 'cash', savingsKind: 'cash' })).toHaveLength(1)
  })

  test('a loan on house or land is a loan, its interest debt, and what is paid with it a living cost', () => {
    expect(faultsOf('household', { kind: 'liability', propertyLoan: 'loan' })).toEqual([])
    expect(faultsOf('farm', { kind: 'liability', propertyLoan: 'loan' })).toEqual([])
    expect(faultsOf('household', { purpose: 'debt', propertyLoan: 'interest' })).toEqual([])
    expect(faultsOf('household', { purpose: 'living', propertyLoan: 'escrow' })).toEqual([])
    for (const wrong of [
      { kind: 'liability', cashRole: 'spendable', propertyLoan: 'loan' },
      { kind: 'liability', taxKind: 'sales', propertyLoan: 'loan' },
      { kind: 'asset', propertyLoan: 'loan' },
      { purpose: 'living', propertyLoan: 'interest' },
      { propertyLoan: 'escrow' },
    ] as const)
      expect(faultsOf('household', wrong)).toEqual([expect.stringMatching(/^propertyLoan: /)])
    expect(faultsOf('farm', { propertyLoan: 'interest' })).toHaveLength(1)
    expect(faultsOf('venture', { kind: 'liability', propertyLoan: 'loan' })).toHaveLength(1)
  })

  test.each(['farm', 'household', 'venture'] as const)(
    'the accounts that %s books start with are all sound',
    (side) => {
      for (const one of startAccounts(side)) expect([one.name, faultsOf(side, one)]).toEqual([one.name, []])
    },
  )
})
