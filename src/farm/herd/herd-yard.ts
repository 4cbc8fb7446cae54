// The yard of one herd: its heads by class and age, and what happens to them within a month.
import { type Month, monthOfYear } from '#calendar/month.ts'
import { heldEachMonth, spreadOverYear, stepInForce } from '#farm/seasonal.ts'
import type { Herd, HerdRates } from './herd-document.ts'
import { ratesOf } from './herd-rates.ts'
import { youngWorth } from './meat.ts'
import { ageAsBegins } from './young-age.ts'

export interface Yard {
  herd: Herd
  rates: HerdRates
  /** Breeding females raised here and bought, apart because tax treats their sale differently. */
  raised: number
  bought: number
  males: number
  /** Heads by age in months: all young from birth to weaning, then those for sale, the last place those that are of the age; and females kept to breed. */
  forSale: Float64Array
  kept: Float64Array
  product: number[]
  perFemale: number[]
  perYoung: number[]
  hoursPerFemale: number[]
  hoursFixed: number[]
  adultLoss: number
  youngLoss: number
  /** Of young between weaning and sale, in a month. */
  growingLoss: number
  /** Dollars that a young one brings on average. */
  youngPrice: number
}

export interface Flows {
  born: number
  bought: number
  lost: number
  /** Females kept to breed that came of age and joined the breeding herd. */
  joined: number
  soldYoung: number
  culled: number
  /** Dollars. */
  youngSales: number
  cullSales: number
  cullSalesRaised: number
  stockBought: number
}

const noFlows = (): Flows => ({
  born: 0,
  bought: 0,
  lost: 0,
  joined: 0,
  soldYoung: 0,
  culled: 0,
  youngSales: 0,
  cullSales: 0,
  cullSalesRaised: 0,
  stockBought: 0,
})

export const newYard = (herd: Herd): Yard => {
  const rates = ratesOf(herd)
  const saleAge = Math.max(rates.saleAgeMonths, rates.weaningAgeMonths)
  return {
    herd,
    rates,
    raised: 0,
    bought: 0,
    males: 0,
    forSale: new Float64Array(saleAge + 1),
    kept: new Float64Array(Math.max(rates.breedingAgeMonths, rates.weaningAgeMonths + 1) + 1),
    product: spreadOverYear(herd.productPerFemale),
    perFemale: heldEachMonth(herd.costPerFemale),
    perYoung: heldEachMonth(herd.costPerYoung),
    hoursPerFemale: heldEachMonth(herd.hoursPerFemale),
    hoursFixed: heldEachMonth(herd.hoursFixed),
    adultLoss: 1 - (1 - rates.adultLossPerYear) ** (1 / 12),
    youngLoss: 1 - (1 - rates.youngLossToWeaning) ** (1 / rates.weaningAgeMonths),
    youngPrice: youngWorth(herd).perHead,
    growingLoss:
      rates.youngLossToSale === undefined
        ? 1 - (1 - rates.adultLossPerYear) ** (1 / 12)
        : 1 - (1 - rates.youngLossToSale) ** (1 / Math.max(1, saleAge - rates.weaningAgeMonths)),
  }
}

export const monthInYard = (
  yard: Yard,
  at: Month,
  start: Month,
  limits: readonly { from: string; value: number }[],
): Flows => {
  const flows = noFlows()
  const limit = limits.length ? stepInForce(yard.herd.carryingLimit, limits, at) : yard.herd.carryingLimit
  if (at === start) stockUp(yard, flows, at)
  growOlder(yard, flows, limit)
  sellReady(yard, flows, at)
  if (yard.rates.birthMonths.includes(monthOfYear(at))) {
    const born = (yard.raised + yard.bought) * yard.rates.conception * yard.rates.birthsPerFemale
    yard.forSale[0]! += born
    flows.born += born
  }
  lose(yard, flows)
  if (monthOfYear(at) === yard.rates.cullMonth && at !== start) cull(yard, flows, yard.rates.cullPerYear)
  const females = yard.raised + yard.bought
  if (females > limit) cull(yard, flows, (females - limit) / females)
  if (yard.herd.buysReplacements && monthOfYear(at) === yard.rates.cullMonth) refill(yard, flows, limit)
  keepMales(yard, flows, at, start)
  return flows
}

const stockUp = (yard: Yard, flows: Flows, at: Month) => {
  const { breedingFemales, replacements, males, ownedAlready, prices } = yard.herd
  const females = Math.min(breedingFemales, yard.herd.carryingLimit)
  if (ownedAlready) yard.raised = females
  else yard.bought = females
  const age = ageAsBegins(yard.rates, at, yard.rates.weaningAgeMonths)
  yard.kept[Math.min(age, yard.kept.length - 2)] = replacements
  yard.males = males
  flows.bought += females + replacements + males
  if (!ownedAlready) {
    flows.stockBought += (females + replacements) * prices.breedingFemale + males * prices.male
  }
}

const growOlder = (yard: Yard, flows: Flows, limit: number) => {
  const { rates, kept, forSale } = yard
  const ready = kept[kept.length - 2]!
  kept.copyWithin(1, 0, kept.length - 2)
  kept[0] = 0
  const room = Math.max(0, limit - yard.raised - yard.bought)
  const joining = Math.min(ready, room)
  yard.raised += joining
  flows.joined += joining
  sellYoung(yard, flows, ready - joining)
  const oldest = forSale.length - 1
  const grown = forSale[oldest - 1]!
  forSale.copyWithin(1, 0, oldest - 1)
  forSale[0] = 0
  if (rates.weaningAgeMonths < oldest) keepAtWeaning(yard, limit)
  const staying = rates.weaningAgeMonths >= oldest ? takeKept(yard, grown, limit) : 0
  forSale[oldest]! += grown - staying
}

/** Young of the age are sold: at once, or the same part of them in each month of sale. */
const sellReady = (yard: Yard, flows: Flows, at: Month) => {
  const { forSale, rates } = yard
  const ready = forSale[forSale.length - 1]!
  const months = rates.saleMonths ?? []
  const place = months.indexOf(monthOfYear(at))
  if (ready <= 0 || (months.length > 0 && place < 0)) return
  const sold = months.length === 0 ? ready : ready / (months.length - place)
  forSale[forSale.length - 1] = ready - sold
  sellYoung(yard, flows, sold)
}

const keepAtWeaning = (yard: Yard, limit: number) => {
  const age = yard.rates.weaningAgeMonths
  yard.forSale[age]! -= takeKept(yard, yard.forSale[age]!, limit)
}

/** Moves kept females out of a weaned group of both sexes; the group's heads kept. Culls of the year to come leave room. */
const takeKept = (yard: Yard, weaned: number, limit: number): number => {
  if (weaned <= 0) return 0
  const { rates, kept } = yard
  const growing = kept.reduce((a, b) => a + b, 0)
  const yearly = (1 - rates.cullPerYear) * (1 - rates.adultLossPerYear)
  const years = Math.max(1, (rates.breedingAgeMonths - rates.weaningAgeMonths) / 12)
  const room = Math.max(0, limit - (yard.raised + yard.bought) * yearly ** years - growing)
  const staying = Math.min((weaned / 2) * rates.keepOfFemaleYoung, room)
  kept[Math.min(rates.weaningAgeMonths, kept.length - 2)]! += staying
  return staying
}

const sellYoung = (yard: Yard, flows: Flows, heads: number) => {
  if (heads <= 0) return
  flows.soldYoung += heads
  flows.youngSales += heads * yard.youngPrice
}

const lose = (yard: Yard, flows: Flows) => {
  const { adultLoss, youngLoss, growingLoss, rates, forSale, kept } = yard
  flows.lost += (yard.raised + yard.bought + yard.males) * adultLoss
  yard.raised *= 1 - adultLoss
  yard.bought *= 1 - adultLoss
  yard.males *= 1 - adultLoss
  for (let age = 0; age < forSale.length; age += 1) {
    const share = age < rates.weaningAgeMonths ? youngLoss : growingLoss
    flows.lost += forSale[age]! * share
    forSale[age]! *= 1 - share
  }
  for (let age = 0; age < kept.length; age += 1) {
    flows.lost += kept[age]! * adultLoss
    kept[age]! *= 1 - adultLoss
  }
}

/** Sells a share of the breeding females, raised and bought alike. */
const cull = (yard: Yard, flows: Flows, share: number) => {
  const raised = yard.raised * share
  const bought = yard.bought * share
  yard.raised -= raised
  yard.bought -= bought
  flows.culled += raised + bought
  flows.cullSales += (raised + bought) * yard.herd.prices.cullFemale
  flows.cullSalesRaised += raised * yard.herd.prices.cullFemale
}

const refill = (yard: Yard, flows: Flows, limit: number) => {
  const heads = Math.max(0, Math.min(yard.herd.breedingFemales, limit) - yard.raised - yard.bought)
  yard.bought += heads
  flows.bought += heads
  flows.stockBought += heads * yard.herd.prices.breedingFemale
}

/** Males are replaced all together at the end of their service, and topped up to one for each full group of females. */
const keepMales = (yard: Yard, flows: Flows, at: Month, start: Month) => {
  const { rates, herd } = yard
  if (rates.femalesPerMale <= 0) return
  const service = Math.round(rates.maleLifeYears * 12)
  if (at > start && (at - start) % service === 0) {
    flows.culled += yard.males
    flows.cullSales += yard.males * herd.prices.cullFemale
    yard.males = 0
  }
  const females = yard.raised + yard.bought
  const needed = females > 0 ? Math.ceil(females / rates.femalesPerMale - 1e-9) : 0
  if (yard.males < needed - 0.5) {
    const heads = needed - yard.males
    yard.males += heads
    flows.bought += heads
    flows.stockBought += heads * herd.prices.male
  }
}

/** The whole herd is sold: grown females and males as culls, everything young as young. */
export const sellUp = (yard: Yard): Flows => {
  const flows = noFlows()
  cull(yard, flows, 1)
  flows.culled += yard.males
  flows.cullSales += yard.males * yard.herd.prices.cullFemale
  yard.males = 0
  sellYoung(yard, flows, sumHeads(yard.forSale) + sumHeads(yard.kept))
  yard.forSale.fill(0)
  yard.kept.fill(0)
  return flows
}

export const sumHeads = (values: Float64Array): number => {
  let total = 0
  for (let i = 0; i < values.length; i += 1) total += values[i]!
  return total
}
