// What is paid, or comes in, once: next month.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, monthText } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import type { OneSided } from './figures.ts'

/** Not told again while the plan still waits for it. */
export const onceNextMonth = (
  plan: Plan,
  today: Day,
  { id, name, cost, says, waits }: Pick<OneSided, 'id' | 'says' | 'waits'> & { name: string; cost: number },
): OneSided[] => {
  const { oneOffs } = plan.household
  const month = monthText(addMonths(monthOfDay(today), 1))
  if (oneOffs.some((one) => one.id === id && one.month >= monthText(monthOfDay(today)))) return []
  const item = { id, name, month, cost, todaysPrices: false }
  const household = { ...plan.household, oneOffs: [...oneOffs.filter((one) => one.id !== id), item] }
  return [
    {
      id,
      says,
      waits,
      change: {
        button: cost > 0 ? 'Plan to pay it next month' : 'Plan that it comes in next month',
        note: `${name} taken into the plan`,
        plan: { ...plan, household },
      },
      more: null,
    },
  ]
}
