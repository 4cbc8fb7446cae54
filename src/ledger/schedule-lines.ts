// Which line of the tax form an account can have: by its side and kind, and only lines that are filled in, never those the form works out.
import type { Account, AccountKind, SideKind } from './account.ts'
import { farmSide, householdSide } from './account.ts'
import { besideScheduleC, goodsSoldLines, scheduleCExpenses, scheduleCIncome } from './schedule-c-lines.ts'
import {
  assetSales,
  besideScheduleF,
  type LineCaption,
  scheduleFExpenses,
  scheduleFIncome,
} from './schedule-f-lines.ts'
import { householdForm, householdIncomeLines } from './tax/household-lines.ts'

/** The form's name. */
export const formOfSide = (side: SideKind): string =>
  side === 'farm' ? 'Schedule F' : side === 'venture' ? 'Schedule C' : householdForm

/** Lines an account of these books and this kind can have, in the form's order. */
export const linesFor = (side: SideKind, kind: AccountKind): readonly LineCaption[] => {
  if (kind !== 'income' && kind !== 'expense') return []
  return formLines[side][kind]
}

/** Why an account cannot have a line, and what to do; null when it can, or has none. */
export const lineFault = (side: SideKind, account: Pick<Account, 'kind' | 'scheduleLine'>): string | null => {
  const { kind, scheduleLine } = account
  if (scheduleLine === null) return null
  const form = formOfSide(side)
  if (side === 'household' && kind !== 'income')
    return 'Only income of the household has a line. Leave it empty'
  const lines = linesFor(side, kind)
  if (lines.length === 0) return 'Only income and costs have a line. Leave it empty'
  if (lines.some(({ line }) => line === scheduleLine)) return null
  const other = kind === 'income' ? 'expense' : 'income'
  if (linesFor(side, other).some(({ line }) => line === scheduleLine))
    return `Line ${scheduleLine} of ${form} is for ${kind === 'income' ? 'costs' : 'income'}, and this account is ${kind === 'income' ? 'income' : 'a cost'}. Choose a line from the list`
  return `No account can have line ${scheduleLine} of ${form}: the form works it out, or has no such line. Choose a line from the list`
}

export const sideKindOf = ({ sideId }: Pick<Account, 'sideId'>): SideKind =>
  sideId === farmSide ? 'farm' : sideId === householdSide ? 'household' : 'venture'

/** Breeding stock, machinery, buildings and land sold, of the farm or of a venture. */
export const sellsAssets = (
  account: Pick<Account, 'sideId' | 'kind' | 'scheduleLine' | 'systemRole'>,
): boolean =>
  account.sideId !== householdSide &&
  account.kind === 'income' &&
  account.scheduleLine === assetSales &&
  account.systemRole === null

/** What a line means for statements: each form has a number of its own for the same thing. */
export const lineRole = (
  account: Pick<Account, 'sideId' | 'kind' | 'scheduleLine'>,
): 'against sales' | 'depreciation' | 'interest' | null => {
  const side = sideKindOf(account)
  if (side === 'household' || account.kind !== 'expense' || account.scheduleLine === null) return null
  const { againstSales, depreciation, interest } = forms[side]
  if (againstSales.includes(account.scheduleLine)) return 'against sales'
  if (account.scheduleLine === depreciation) return 'depreciation'
  return interest.includes(account.scheduleLine) ? 'interest' : null
}

/** Paid to people for their work: to workers, or to others by the job. */
export const paysForWork = (account: Pick<Account, 'sideId' | 'kind' | 'scheduleLine'>): boolean => {
  const side = sideKindOf(account)
  if (side === 'household' || account.kind !== 'expense' || account.scheduleLine === null) return false
  return forms[side].work.includes(account.scheduleLine)
}

interface BusinessForm {
  income: readonly LineCaption[]
  expenses: readonly LineCaption[]
  againstSales: readonly string[]
  depreciation: string
  interest: readonly string[]
  work: readonly string[]
}

const forms: Record<Exclude<SideKind, 'household'>, BusinessForm> = {
  farm: {
    income: [...scheduleFIncome, ...besideScheduleF],
    expenses: scheduleFExpenses,
    againstSales: ['1b'],
    depreciation: '14',
    interest: ['21a', '21b'],
    work: ['13', '22'],
  },
  venture: {
    income: [...scheduleCIncome, ...besideScheduleC],
    expenses: scheduleCExpenses,
    againstSales: ['2', ...goodsSoldLines],
    depreciation: '13',
    interest: ['16a', '16b'],
    work: ['11', '26', '37'],
  },
}

/** Laid out once: a page asks for them some thousand times. */
const formLines: Record<SideKind, Record<'income' | 'expense', readonly LineCaption[]>> = {
  farm: linesOfForm(forms.farm),
  household: { income: householdIncomeLines, expense: [] },
  venture: linesOfForm(forms.venture),
}

function linesOfForm({ income, expenses }: BusinessForm) {
  return {
    income: income.filter((one) => !one.isCost),
    expense: [...income.filter((one) => one.isCost), ...expenses],
  }
}
