// Benefits that come each month by the books while the plan has none: of a relative or a child at home they count in months left.
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { Account } from '#ledger/account.ts'
import { formatDollars } from '#money/format.ts'
import { isRelative } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import type { OneSided } from './figures.ts'
import { incomeEachMonth, where } from './other-income.ts'

export const benefitsOfBooks = (books: Books, plan: Plan, today: Day): OneSided[] => {
  if (hasBenefits(plan, today)) return []
  return incomeEachMonth(books, today, isBenefit).map(({ account, perMonth }) =>
    told(plan, account, perMonth),
  )
}

const isBenefit = ({ kind, purpose }: Account): boolean => kind === 'income' && purpose === 'benefit'

/** Of somebody at home, or Social Security of an adult that has begun, with what comes for a child then. */
const hasBenefits = ({ household: { people, dependents } }: Plan, today: Day): boolean =>
  dependents.some(({ ownMoney }) => ownMoney > 0) ||
  people.some(({ born, claimAge }) => yearIn(born) + claimAge.years <= yearIn(today))

const told = (plan: Plan, account: Account, perMonth: number): OneSided => {
  const { dependents } = plan.household
  const relatives = dependents.filter(isRelative)
  const [relative] = relatives
  const says = `${account.name} brings ${formatDollars(perMonth)} a month by the books, and the plan knows nothing of it`
  const head = { id: `benefits-${account.number}`, waits: dependents.length > 0 }
  if (relative === undefined || relatives.length > 1)
    return {
      ...head,
      says: `${says}. Of a relative or a child at home it is entered there, as own benefits for the household; your own Social Security begins in the plan at the age at which you claim it`,
      change: null,
      more: where,
    }
  const taken = dependents.map((one) => (one === relative ? { ...one, ownMoney: perMonth } : one))
  return {
    ...head,
    says: `${says}. Taken in as ${relative.name}’s own benefits for the household, which are not your income for tax`,
    change: {
      button: 'Take it into the plan',
      note: `${account.name} taken into the plan`,
      plan: { ...plan, household: { ...plan.household, dependents: taken } },
    },
    more: where,
  }
}
