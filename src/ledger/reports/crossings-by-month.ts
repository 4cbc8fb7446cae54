// Crossings by month and pair of sides: what was drawn, put in, reimbursed, used at home and lent.
import { type Cents, cents, negateCents, sumCents, zeroCents } from '#money/cents.ts'
import type { CrossingRole } from '../account.ts'
import type { BookYear } from './book-year.ts'

export interface CrossingMonths {
  /** The farm or a venture, and the side across the line from it. */
  side: string
  other: string
  /** Twelve sums each, January first, in cents; a taken-back crossing counts against. */
  draws: readonly Cents[]
  contributions: readonly Cents[]
  reimbursements: readonly Cents[]
  goods: readonly Cents[]
  /** Borrowed from the other side less paid back; lending to it is negative. */
  borrowed: readonly Cents[]
}

/** Read from the books of the farm and the ventures; each pair once. */
export const crossingsByMonth = (sides: readonly BookYear[]): CrossingMonths[] => {
  const names = new Map(sides.map((side) => [side.sideId, side.name]))
  return sides
    .filter((side) => side.kind !== 'household')
    .flatMap((side) =>
      othersOf(side)
        .filter((other) => other === 'household' || side.sideId < other)
        .map((other) => pairMonths(side, other, names.get(other) ?? other)),
    )
}

const othersOf = (side: BookYear): string[] => [
  ...new Set(side.accounts.flatMap(({ account }) => account.crossingSideId ?? [])),
]

const pairMonths = (side: BookYear, other: string, otherName: string): CrossingMonths => {
  const of = (role: CrossingRole, sign: 1 | -1): Cents[] => {
    const rows = side.accounts.filter(
      ({ account }) => account.crossingSideId === other && account.crossingRole === role,
    )
    return Array.from({ length: 12 }, (_, i) => {
      const sum = sumCents(rows.map((row) => row.monthsCents[i] ?? zeroCents))
      return sign === 1 ? sum : negateCents(sum)
    })
  }
  const borrowed = of('borrowed', -1)
  const lent = of('lent', 1)
  return {
    side: side.name,
    other: otherName,
    draws: of('draws', 1),
    contributions: of('contributions', -1),
    reimbursements: of('reimbursements', 1),
    goods: of('goods', 1),
    borrowed: borrowed.map((amount, i) => cents(amount - lent[i]!)),
  }
}
