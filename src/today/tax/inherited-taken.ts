// What was taken out of accounts of the books that bear the name of an inherited account of the plan.

import type { BookYear } from '#ledger/reports/book-year.ts'
import { centsToDollars, sumCents, zeroCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { isNamedInherited } from '#today/projection/accounts-apart.ts'

/**
 * Dollars of traditional ones, which line 4b holds: no tax is added to them at any age (26 USC 72(t)(2)(A)(ii)), and some states tax
 * them otherwise than the own accounts.
 */
export const inheritedTaken = (plan: Plan, sides: readonly BookYear[]): number =>
  centsToDollars(
    sumCents(
      sides
        .flatMap(({ accounts }) => accounts)
        .filter(
          ({ account: { name, savingsKind } }) =>
            savingsKind === 'traditional' && isNamedInherited(plan, { kind: savingsKind, name }),
        )
        .map(({ takenOutCents }) => (takenOutCents ? sumCents(takenOutCents) : zeroCents)),
    ),
  )
