// Where each account of income goes on the year's forms, or why it is left out: so that every dollar of the books is found again.
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import type { Account } from '../account.ts'
import { type AccountYear, type BookYear, takenIn, takenOffPay } from '../reports/book-year.ts'
import { assetSales, farmInterest, scheduleFIncome } from '../schedule-f-lines.ts'
import { formOfSide, lineFault, linesFor, sideKindOf } from '../schedule-lines.ts'
import { householdForm, householdIncomeLines, notTaxed } from './household-lines.ts'

export interface IncomePlace {
  accountId: number
  account: string
  side: string
  /** What came in, positive. */
  amountCents: Cents
  /** The line it is taxed on; null where it is left out. */
  goes: { form: string; line: string } | null
  /** The line in words, or why it is left out. */
  says: string
  /** Nobody said where it goes: a person should. */
  isAsked: boolean
}

/** Every account of income that moved in the year and all retirement savings that were taken from, of every side, in the order of the books. */
export const incomePlaces = (sides: readonly BookYear[]): IncomePlace[] =>
  sides.flatMap((side) =>
    side.accounts
      .filter((row) => cameIn(row) !== 0)
      .flatMap((row) => {
        const { id: accountId, name: account } = row.account
        const beforeTaxCents = takenOffPay(row)
        const whole = { accountId, account, side: side.name, ...placeOfIncome(row.account) }
        const wages = { ...whole, amountCents: cents(cameIn(row) - beforeTaxCents) }
        return beforeTaxCents === 0
          ? [wages]
          : [wages, { ...whole, ...leftOut(beforeTaxSays), amountCents: beforeTaxCents }]
      }),
  )

const beforeTaxSays =
  'Taken off pay before tax, for an employer’s health plan or into a plan at work: it is in no wages (26 USC 106, 402(e)(3)). What a pay slip takes after tax is booked as an entry of its own.'

/** What the places on a line hold, of one form. */
export const onLine = (rows: readonly AccountYear[], form: string, line: string): AccountYear[] =>
  rows.filter(({ account }) => {
    if (account.kind !== 'income' && !isRetirement(account)) return false
    const { goes } = placeOfIncome(account)
    return goes?.form === form && goes.line === line
  })

/** What came in by an account in the year, positive: of income what it earned, of retirement savings what was taken out. */
export const cameIn = (row: AccountYear): Cents =>
  row.account.kind === 'income' ? takenIn(row) : row.takenOutCents ? sumCents(row.takenOutCents) : zeroCents

const isRetirement = ({ kind, savingsKind }: Account): boolean =>
  kind === 'asset' && (savingsKind === 'traditional' || savingsKind === 'roth')

type Place = Pick<IncomePlace, 'goes' | 'says' | 'isAsked'>

/** Where income of an account goes, or what was taken out of retirement savings (26 USC 408(d)(1), 408A(d)(1)). */
export const placeOfIncome = (account: Account): Place => {
  if (isRetirement(account))
    return account.savingsKind === 'roth'
      ? leftOut(
          'Taken from Roth savings: taken as not taxed. What they earned is where it comes out too early.',
        )
      : { goes: { form: householdForm, line: '4b' }, says: takenSays, isAsked: false }
  if (account.systemRole === 'goods_value')
    return leftOut('The value of goods used at home is kept for the books; it is no sale.')
  if (account.systemRole === 'unsorted_in') return leftOut('Not sorted yet.', true)
  const side = sideKindOf(account)
  if (side === 'household') return placeAtHome(account)
  const form = formOfSide(side)!
  const line = lineFault(side, account) === null ? account.scheduleLine : null
  if (line === null) {
    const other = otherIncomeLine[side]
    const says = `It has no line of ${form}, and counts as other income until you choose one.`
    return { goes: { form, line: other }, says, isAsked: true }
  }
  if (line === farmInterest)
    return { goes: { form: householdForm, line: '2b' }, says: 'Interest', isAsked: false }
  if (line === assetSales)
    return { goes: { form: 'Form 4797', line: 'sales' }, says: 'Sales, thing by thing', isAsked: false }
  const caption = linesFor(side, 'income').find((one) => one.line === line)!
  return { goes: { form, line }, says: caption.says, isAsked: false }
}

const takenSays = 'Taken from retirement savings, all of it taxed; what was rolled over is left out'

/** Other income of Schedule F and of Schedule C. */
const otherIncomeLine = { farm: scheduleFIncome.at(-1)!.line, venture: '6' } as const

const placeAtHome = (account: Account): Place => {
  const { scheduleLine, purpose, taxKind } = account
  if (taxKind === 'unrealized') return leftOut('Gained or lost in value and not sold: no tax knows it yet.')
  const line = scheduleLine ?? (purpose === 'pay' ? '1a' : purpose === 'interest' ? '2b' : null)
  if (line === notTaxed) return leftOut('You marked it as not taxed.')
  if (line !== null) {
    const caption = householdIncomeLines.find((one) => one.line === line)
    return {
      goes: { form: householdForm, line },
      says: line === '1a' ? 'Pay' : (caption?.says ?? ''),
      isAsked: false,
    }
  }
  return purpose === 'benefit'
    ? leftOut(
        'Benefits and credits are taken as not taxed. Unemployment pay and Social Security have a line: choose it.',
      )
    : leftOut('Not classified yet: choose its line, or that it is not taxed.', true)
}

const leftOut = (says: string, isAsked = false): Place => ({ goes: null, says, isAsked })
