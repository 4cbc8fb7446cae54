// What one breeding female of a grown herd yields in a full year, by the measure it is sold in, and the price that has to be had for it.
import { spreadOverYear, yearTotal } from '#farm/seasonal.ts'
import { type Herd, isBird } from './herd-document.ts'
import { steadyFemale } from './herd-steady.ts'
import { lessKill, youngWorth } from './meat.ts'
import { speciesWords } from './species-words.ts'

export interface HerdYield {
  measure: string
  yieldPerFemale: number
  priceNow: number
  /** Of a year, the herd’s own. */
  hours: number
  /** The price that covers her direct costs and so much more, once all else that she gives is sold: below zero where that covers more. */
  priceToCover: (more: number) => number
}

/** Eggs, milk or wool where their yield is entered; young by the head, and those sold as meat by the pound too. By the months of the mix and the herd's form. */
export const herdYields = (herd: Herd, females: number): HerdYield[] => {
  const heads = Math.max(females, 1)
  const one = steadyFemale(herd, heads)
  if (one === null) return []
  const product = sum(spreadOverYear(herd.productPerFemale).map((dollars, k) => dollars * one.standing[k]!))
  const ready = sum(one.ready)
  // Culls of poultry stand with what is sold of it, those of others are taken off the costs.
  const young = ready * youngWorth(herd).perHead
  const costs = sum(one.costs) - (sum(one.product) - product)
  const hours = sum(one.hours) + sum(one.hoursFixed) / heads
  const whole = { product, ready, hours }
  return [
    ...productYield(herd, { ...whole, standing: sum(one.standing) / 12, toCover: costs - young }),
    ...youngYields(herd, { ...whole, toCover: costs - product }),
  ]
}

interface Whole {
  product: number
  ready: number
  hours: number
  /** What a year of one female costs, less what is sold beside. */
  toCover: number
}

const productYield = (herd: Herd, whole: Whole & { standing: number }): HerdYield[] => {
  if (!herd.yieldPerFemale) return []
  const year = yearTotal(herd.productPerFemale)
  const yields = herd.yieldPerFemale * (year > 0 ? whole.product / year : whole.standing)
  return [
    {
      measure: herd.yieldMeasure ?? (isBird(herd.kind) ? 'dozen' : 'measure'),
      yieldPerFemale: yields,
      priceNow: whole.product / yields,
      hours: whole.hours,
      priceToCover: (more) => (whole.toCover + more) / yields,
    },
  ]
}

/** Fewer than this of a female in a year are none that are raised for sale. */
const leastYoung = 0.005

const youngYields = (herd: Herd, { ready, hours, toCover }: Whole): HerdYield[] => {
  if (ready < leastYoung) return []
  const worth = youngWorth(herd)
  const [one] = speciesWords[herd.kind].sold
  const perHead = (more: number) => (toCover + more) / ready
  const { byWeight, hangingPrice, hangingWeight, pounds, cutPrice, processing } = worth
  const gross = byWeight * hangingWeight * hangingPrice + (1 - byWeight) * pounds * cutPrice
  // All prices of meat move alike.
  const byPound = (measure: string, priceNow: number, weight: number): HerdYield[] =>
    priceNow <= 0 || weight <= 0
      ? []
      : [
          {
            measure,
            yieldPerFemale: ready * weight,
            priceNow,
            hours,
            priceToCover: (more) => (priceNow * (perHead(more) + processing)) / gross,
          },
        ]
  return [
    {
      measure: herd.meat ? `${one}, ${lessKill}` : one,
      yieldPerFemale: ready,
      priceNow: worth.perHead,
      hours,
      priceToCover: perHead,
    },
    ...byPound('pound of hanging weight', hangingPrice, byWeight * hangingWeight),
    ...byPound('packaged pound', cutPrice, (1 - byWeight) * pounds),
  ]
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0)
