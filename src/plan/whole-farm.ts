// The one line that the first run writes for the whole farm, until its lines of work are entered one by one.
import type { Enterprise } from '#farm/farm-document.ts'
import { yearTotal } from '#farm/seasonal.ts'
import type { Plan } from './plan.ts'

export const wholeFarm = 'whole-farm'

/** Null in a plan without it, or when it neither sells nor costs anything. */
export const wholeFarmOf = (plan: Plan): Enterprise | null => {
  const whole = plan.farm.enterprises.find((one) => one.id === wholeFarm)
  return whole && yearTotal(whole.salesPerUnit) + yearTotal(whole.costsPerUnit) > 0 ? whole : null
}

/** The lines of work other than that one. */
export const ownLines = (plan: Plan): { id: string; name: string; start?: string | undefined }[] =>
  [...plan.farm.enterprises, ...plan.farm.herds].filter((one) => one.id !== wholeFarm)
