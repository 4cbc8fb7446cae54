// Self-employment of the fast return: per person the tax, net earnings and earned income, summed into the scratch lines.
import type { LawYear } from '../law-year.ts'
import { wholeCents } from '../rounding.ts'
import type { HouseholdTax, HouseholdYear } from './household-year.ts'
import { atRate } from './tables.ts'
import { work } from './work.ts'

export const addBusinesses = (law: LawYear, input: HouseholdYear, out: HouseholdTax): void => {
  work.wages = 0
  work.profit = 0
  work.half = 0
  work.selfEmploymentTax = 0
  work.net = 0
  work.earned = 0
  work.leastEarned = Number.POSITIVE_INFINITY
  work.withheldSocial = 0
  work.earnedLimit = 0
  out.netSelfEmploymentEarnings[0] = 0
  out.netSelfEmploymentEarnings[1] = 0
  let profits = 0
  for (let place = 0; place < input.people; place += 1) {
    profits +=
      Math.max(0, wholeCents(input.farmProfit[place]!)) +
      Math.max(0, wholeCents(input.otherSelfEmployment[place]!))
  }
  for (let place = 0; place < input.people; place += 1) addPerson(law, input, out, place, profits)
  work.business = Math.max(work.profit, -law.businessLossLimit[input.status]! * 100)
}

const addPerson = (
  law: LawYear,
  input: HouseholdYear,
  out: HouseholdTax,
  place: number,
  profits: number,
): void => {
  const wages = wholeCents(input.wages[place]!)
  const farm = wholeCents(input.farmProfit[place]!)
  const other = wholeCents(input.otherSelfEmployment[place]!)
  const farmOptional = input.farmOptional[place] === 1 ? farmOption(law, input, place, farm) : 0
  const otherOptional =
    input.nonfarmOptional[place] === 1 ? otherOption(law, input, place, other, farmOptional) : 0
  const optional = farmOptional + otherOptional
  const regular = (farmOptional > 0 ? 0 : farm) + (otherOptional > 0 ? 0 : other)
  const net = (regular > 0 ? atRate(regular, law.selfEmploymentFactor) : regular) + optional
  let half = 0
  if (net >= law.selfEmploymentMinimum * 100) {
    const covered = Math.min(net, Math.max(0, law.wageBase * 100 - wages))
    const tax =
      atRate(covered, law.selfEmploymentSocialSecurityRate) + atRate(net, law.selfEmploymentMedicareRate)
    half = Math.floor(tax / 2 + 0.5)
    work.selfEmploymentTax += tax
    work.net += net
    out.netSelfEmploymentEarnings[place] = net / 100
  }
  const own = Math.max(0, farm) + Math.max(0, other)
  const contributions = wholeCents(input.sep)
  limitBy(farm, own, half, contributions, profits)
  limitBy(other, own, half, contributions, profits)
  work.earnedLimit = Math.max(work.earnedLimit, farmOptional, otherOptional)
  work.wages += wages
  work.profit += farm + other
  work.half += half
  work.earned += regular + optional
  work.leastEarned = Math.min(work.leastEarned, wages + regular + optional - half)
  work.withheldSocial +=
    atRate(Math.min(wages, law.wageBase * 100), law.selfEmploymentSocialSecurityRate / 2) +
    atRate(wages, law.selfEmploymentMedicareRate / 2)
}

const limitBy = (profit: number, own: number, half: number, contributions: number, all: number): void => {
  if (profit <= 0) return
  const left =
    profit - Math.floor((half * profit) / own + 0.5) - Math.floor((contributions * profit) / all + 0.5)
  if (left > work.earnedLimit) work.earnedLimit = left
}

const farmOption = (law: LawYear, input: HouseholdYear, place: number, farm: number): number => {
  const gross = wholeCents(input.farmGross[place]!)
  const open = gross <= law.farmOptionalGrossLimit * 100 || farm < law.optionalNetLimit * 100
  return open && gross > 0 ? Math.min(Math.floor((gross * 2) / 3 + 0.5), law.optionalMethodMax * 100) : 0
}

const otherOption = (
  law: LawYear,
  input: HouseholdYear,
  place: number,
  other: number,
  farmOptional: number,
): number => {
  const gross = wholeCents(input.nonfarmGross[place]!)
  const open =
    gross > 0 && other < law.optionalNetLimit * 100 && other < atRate(gross, law.nonfarmOptionalShareLimit)
  if (!open) return 0
  return Math.max(0, Math.min(Math.floor((gross * 2) / 3 + 0.5), law.optionalMethodMax * 100 - farmOptional))
}
