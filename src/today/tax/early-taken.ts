// What of the money taken out of retirement savings in a year, by the books, bears the tax added to early withdrawals.
import { month } from '#calendar/month.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import type { EarlierIncome } from '#ledger/reports/income-of-year.ts'
import { centsToDollars, sumCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { isAddedTo, month59Half } from '#plan/savings/early-addition.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import { isNamedInherited, isNamedSo } from '#today/projection/accounts-apart.ts'
import { inheritedTaken } from './inherited-taken.ts'

/** Onto the return: what of the money taken out was inherited, and what bears the tax added; `earlier` came before the books. */
export const fillTaken = (
  household: HouseholdYear,
  plan: Plan,
  sides: readonly BookYear[],
  earlier: EarlierIncome | undefined,
): void => {
  household.inheritedIra[0] = inheritedTaken(plan, sides)
  household.earlyWithdrawalAmount = earlyTaken(plan, sides) + (earlier?.earlyWithdrawals ?? 0)
}

/**
 * Dollars on line 4b that were paid out early (26 USC 72(t)): what was converted to Roth savings and what was inherited is none. Whose an
 * account of the books is, the plan's account of its name says; where none bears it, all are early that could be.
 */
export const earlyTaken = (plan: Plan, sides: readonly BookYear[]): number =>
  centsToDollars(
    sumCents(
      sides.flatMap(({ accounts, year }) =>
        accounts.flatMap(({ account: { name, savingsKind }, paidOutCents }) => {
          if (savingsKind !== 'traditional' || paidOutCents === undefined) return []
          const held = { kind: savingsKind, name }
          return isNamedInherited(plan, held)
            ? []
            : paidOutCents.filter((_, place) => isEarlyAt(plan, held, month(year, place + 1)))
        }),
      ),
    ),
  )

const isEarlyAt = (plan: Plan, held: { kind: 'traditional'; name: string }, at: ReturnType<typeof month>) => {
  const { people } = plan.household
  const own = plan.savings.accounts.filter(
    ({ kind, inherited }) => kind === 'traditional' && inherited === undefined,
  )
  const named = own.filter((one) => isNamedSo(one, held))
  const meant = named.length > 0 ? named : own
  const born = ({ owner }: (typeof own)[number]) =>
    people.filter(({ id }) => owner === undefined || id === owner).map((one) => one.born)
  return meant.length > 0
    ? meant.some((one) => born(one).some((each) => isAddedTo(one, each, at)))
    : people.some((one) => at < month59Half(one.born, Math.floor(at / 12)))
}
