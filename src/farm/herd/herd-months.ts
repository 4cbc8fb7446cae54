// The build-up of a herd or flock month by month, in expected heads: what comes in, what goes out, what it sells and costs.
import { addMonths, type Month, monthOfYear } from '#calendar/month.ts'
import { monthFromText } from '#farm/seasonal.ts'
import { countsByMonth, recount } from './herd-count.ts'
import type { Herd } from './herd-document.ts'
import { type Flows, monthInYard, newYard, sellUp, sumHeads, type Yard } from './herd-yard.ts'

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
  /** Females kept to breed that joined the breeding herd. */
  joined: Float64Array
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
 * Within a month: what was counted as it began stands, stock is bought, young are born, losses fall, kept females are chosen and grow up, stock is sold, costs fall.
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
  const counts = countsByMonth(herd)
  const last = firstMonth + monthCount - 1
  for (let at: Month = start; at <= last && at <= end + 1; at = addMonths(at, 1)) {
    const count = at > start ? counts.get(at) : undefined
    const missing = count ? recount(yard, count, at) : 0
    const flows = at > end ? sellUp(yard) : monthInYard(yard, at, start, limits)
    flows.lost += missing
    if (at >= firstMonth) record(out, at - firstMonth, yard, flows, at)
  }
  return out
}

const record = (out: HerdMonths, index: number, yard: Yard, flows: Flows, at: Month) => {
  const { herd } = yard
  const season = monthOfYear(at) - 1
  const females = yard.raised + yard.bought
  const young = sumHeads(yard.forSale)
  const kept = sumHeads(yard.kept)
  out.breedingFemales[index] = females
  out.replacements[index] = kept
  out.young[index] = young
  out.males[index] = yard.males
  out.born[index] = flows.born
  out.boughtHeads[index] = flows.bought
  out.lostHeads[index] = flows.lost
  out.joined[index] = flows.joined
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
    joined: row(),
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
