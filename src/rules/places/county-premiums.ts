// What the marketplace of a county charges: the benchmark plan of each year, and the lowest-cost bronze plan, for one adult of 21.
import { ageFactor } from '../marketplace/premium-by-age.ts'
import { type Place, ratingAreaOf } from './counties.ts'
import { benchmarkTable, bronzeTable, type PremiumTable } from './published.ts'

export type CountyPlan = 'benchmark' | 'bronze'

/** Dollars a month for one person of 21; where no age is rated, for one adult. */
export interface CountyPremium {
  year: number
  at21: number
}

/** All published years of a plan in the place’s rating area, oldest first; none where the area has no published premium. */
export const countyPremiums = (plan: CountyPlan, place: Place): CountyPremium[] => {
  const area = ratingAreaOf(place)
  if (area === null || place.state === undefined) return []
  const table = tables[plan]()
  const monthly = table.premiums[place.state]?.[area] ?? []
  return table.years.flatMap((year, k) => {
    const premium = monthly[k]
    return premium == null ? [] : [{ year, at21: premium * over21(place.state!, year) }]
  })
}

/** Where the published premiums come from and how they were obtained, as pages say it. */
export const premiumSource = (plan: CountyPlan): string => {
  const { source, note } = tables[plan]()
  return `${source}. ${note}.`
}

const tables: Record<CountyPlan, () => PremiumTable> = { benchmark: benchmarkTable, bronze: bronzeTable }

/** Published premiums are those of a child. */
const over21 = (state: string, year: number): number => {
  const [adult, child] = [ageFactor(state, 21, year), ageFactor(state, 0, year)]
  return adult === null || child === null ? 1 : adult / child
}
