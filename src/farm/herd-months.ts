// The build-up of a herd or flock month by month, in expected heads: what comes in, what goes out, what it sells and costs.
import { addMonths, type Month, monthOfYear } from '#calendar/month.ts'
import type { Herd, HerdRates } from './herd-document.ts'
import { ratesOf } from './herd-rates.ts'
import { heldEachMonth, monthFromText, spreadOverYear, stepInForce } from './seasonal.ts'

/** Heads at each month's end and flows within it; dollars at plan prices. One figure per month from `firstMonth`. */
export interface HerdMonths {
  firstMonth: Month
  breedingFemales: Float64Array
  replacements: Float64Array
  young: Float64Array
  males: Float64Array
  born: Float64Array
  boughtHeads: Float64Array
  lostHeads: Float64Array
  soldYoungHeads: Float64Array
  culledHeads: Float64Array
  /** Young and products sold: ordinary farm sales. */
  sales: Float64Array
  /** Grown stock sold, and of that the part that was raised here and held long enough as breeding stock. */
  cullSales: Float64Array
  cullSalesRaised: Float64Array
  stockBought: Float64Array
  costs: Float64Array
  hours: Float64Array
  /** Breeding females, replacements and males at the prices paid for such stock. */
  stockCapital: Float64Array
}

/**
 * Runs the herd from its start and keeps `monthCount` months from `firstMonth`. A herd that starts later is empty until then.
 * Within a month: stock is bought, young are born, losses fall, kept females are chosen and grow up, stock is sold, costs fall.
 */
export const herdMonths = (
  herd: Herd,
  firstMonth: Month,
  monthCount: number,
  limits: readonly { from: string; value: number }[] = [],
): HerdMonths => {
  const out = emptyMonths(firstMonth, monthCount)
  const start = monthFromText(herd.start)
  const end = herd.end === undefined ? Number.POSITIVE_INFINITY : monthFromText(herd.end)
  const yard = newYard(herd)
  const last = firstMonth + monthCount - 1
  for (let at: Month = start; at <= last && at <= end + 1; at = addMonths(at, 1)) {
    const flows = at > end ? sellUp(yard) : monthInYard(yard, at, start, limits)
    if (at >= firstMonth) record(out, at - firstMonth, yard, flows, at)
  }
  return out
}

interface Yard {
  herd: Herd
  rates: HerdRates
  /** Breeding females raised here and bought, apart because tax treats their sale differently. */
  raised: number
  bought: number
  males: number
  /** Heads by age in months: all young from birth to weaning, then those for sale; and females kept to breed. */
  forSale: Float64Array
  kept: Float64Array
  product: number[]
  perFemale: number[]
  perYoung: number[]
  hoursPerFemale: number[]
  hoursFixed: number[]
  adultLoss: number
  youngLoss: number
}

interface Flows {
  born: number
  bought: number
  lost: number
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
  soldYoung: 0,
  culled: 0,
  youngSales: 0,
  cullSales: 0,
  cullSalesRaised: 0,
  stockBought: 0,
})

const newYard = (herd: Herd): Yard => {
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
  }
}

const monthInYard = (
  yard: Yard,
  at: Month,
  start: Month,
  limits: readonly { from: string; value: number }[],
): Flows => {
  const flows = noFlows()
  const limit = limits.length ? stepInForce(yard.herd.carryingLimit, limits, at) : yard.herd.carryingLimit
  if (at === start) stockUp(yard, flows)
  growOlder(yard, flows, limit)
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

const stockUp = (yard: Yard, flows: Flows) => {
  const { breedingFemales, replacements, males, ownedAlready, prices } = yard.herd
  const females = Math.min(breedingFemales, yard.herd.carryingLimit)
  if (ownedAlready) yard.raised = females
  else yard.bought = females
  yard.kept[Math.min(yard.rates.weaningAgeMonths, yard.kept.length - 2)] = replacements
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
  sellYoung(yard, flows, ready - joining)
  const oldest = forSale.length - 1
  const leaving = forSale[oldest - 1]!
  forSale.copyWithin(1, 0, oldest - 1)
  forSale[0] = 0
  if (rates.weaningAgeMonths < oldest) keepAtWeaning(yard, limit)
  const staying = rates.weaningAgeMonths >= oldest ? takeKept(yard, leaving, limit) : 0
  sellYoung(yard, flows, leaving - staying)
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
  flows.youngSales += heads * yard.herd.prices.youngSold
}

const lose = (yard: Yard, flows: Flows) => {
  const { adultLoss, youngLoss, rates, forSale, kept } = yard
  flows.lost += (yard.raised + yard.bought + yard.males) * adultLoss
  yard.raised *= 1 - adultLoss
  yard.bought *= 1 - adultLoss
  yard.males *= 1 - adultLoss
  for (let age = 0; age < forSale.length; age += 1) {
    const share = age < rates.weaningAgeMonths ? youngLoss : adultLoss
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
const sellUp = (yard: Yard): Flows => {
  const flows = noFlows()
  cull(yard, flows, 1)
  flows.culled += yard.males
  flows.cullSales += yard.males * yard.herd.prices.cullFemale
  yard.males = 0
  sellYoung(yard, flows, sum(yard.forSale) + sum(yard.kept))
  yard.forSale.fill(0)
  yard.kept.fill(0)
  return flows
}

const record = (out: HerdMonths, index: number, yard: Yard, flows: Flows, at: Month) => {
  const { herd } = yard
  const season = monthOfYear(at) - 1
  const females = yard.raised + yard.bought
  const young = sum(yard.forSale)
  const kept = sum(yard.kept)
  out.breedingFemales[index] = females
  out.replacements[index] = kept
  out.young[index] = young
  out.males[index] = yard.males
  out.born[index] = flows.born
  out.boughtHeads[index] = flows.bought
  out.lostHeads[index] = flows.lost
  out.soldYoungHeads[index] = flows.soldYoung
  out.culledHeads[index] = flows.culled
  out.sales[index] = flows.youngSales + females * yard.product[season]!
  out.cullSales[index] = flows.cullSales
  out.cullSalesRaised[index] = flows.cullSalesRaised
  out.stockBought[index] = flows.stockBought
  out.costs[index] = (females + kept + yard.males) * yard.perFemale[season]! + young * yard.perYoung[season]!
  const anyone = females + kept + young > 0
  out.hours[index] = (females + kept) * yard.hoursPerFemale[season]! + (anyone ? yard.hoursFixed[season]! : 0)
  out.stockCapital[index] = (females + kept) * herd.prices.breedingFemale + yard.males * herd.prices.male
}

const sum = (values: Float64Array): number => {
  let total = 0
  for (let i = 0; i < values.length; i += 1) total += values[i]!
  return total
}

const emptyMonths = (firstMonth: Month, count: number): HerdMonths => {
  const row = () => new Float64Array(count)
  return {
    firstMonth,
    breedingFemales: row(),
    replacements: row(),
    young: row(),
    males: row(),
    born: row(),
    boughtHeads: row(),
    lostHeads: row(),
    soldYoungHeads: row(),
    culledHeads: row(),
    sales: row(),
    cullSales: row(),
    cullSalesRaised: row(),
    stockBought: row(),
    costs: row(),
    hours: row(),
    stockCapital: row(),
  }
}
