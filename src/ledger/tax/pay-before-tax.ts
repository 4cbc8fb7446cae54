// What is taken off pay before tax: premiums of an employer's health plan, and what is put off into a plan at work. Booked in one entry with the pay.
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { type Account, householdSide } from '../account.ts'
import { type AccountYear, type BookYear, takenOffPay } from '../reports/book-year.ts'
import { cameIn, placeOfIncome } from './income-places.ts'

/** Pay as Form W-2 has it. */
export const isWages = (account: Account): boolean =>
  account.kind === 'income' && account.sideId === householdSide && placeOfIncome(account).goes?.line === '1a'

/**
 * Premiums of an employer's plan are wages neither for income tax nor for Social Security (26 USC 106, 125, 3121(a)(5)(G)); what is put
 * into a plan at work is so for Social Security alone (26 USC 402(e)(3), 3121(v)(1)). Into Roth savings it is put after tax.
 */
export const takenBeforeTax = ({
  sideId,
  kind,
  purpose,
  savingsKind,
}: Account): 'premium' | 'deferred' | null =>
  sideId !== householdSide
    ? null
    : kind === 'expense' && purpose === 'premium'
      ? 'premium'
      : kind === 'asset' && savingsKind === 'traditional'
        ? 'deferred'
        : null

/** Box 1 of Form W-2, as far as the books tell it. */
export const wagesOf = (row: AccountYear): Cents => cents(cameIn(row) - takenOffPay(row))

/** Premiums that the household paid itself, January first: those of an employer's plan are in no deduction and no credit (26 USC 162(l)(2)(B), 36B(c)(2)(C)). */
export const ownPremiums = (row: AccountYear): Cents[] =>
  row.monthsCents.map((sum, m) => cents(sum - (row.fromPayCents?.[m] ?? 0)))

/** The same of all of a household's accounts. */
export const ownPremiumsOf = (side: BookYear): Cents[] => {
  const rows = premiumRows(side).map(ownPremiums)
  return Array.from({ length: 12 }, (_, m) => sumCents(rows.map((months) => months[m]!)))
}

/** Premiums taken off pay, January first. */
export const premiumsFromPay = (side: BookYear): Cents[] => {
  const rows = premiumRows(side)
  return Array.from({ length: 12 }, (_, m) => sumCents(rows.map((row) => row.fromPayCents?.[m] ?? zeroCents)))
}

export const premiumRows = ({ accounts }: BookYear): AccountYear[] =>
  accounts.filter(({ account }) => account.kind === 'expense' && account.purpose === 'premium')
