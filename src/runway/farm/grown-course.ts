// The farm, and its expected course, with what the plan lets its prices and costs grow beyond all prices, as the projection counts it.
import { month } from '#calendar/month.ts'
import type { FarmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import type { Plan } from '#plan/plan.ts'
import { planSpan } from '#runway/compile/compile.ts'
import { times } from '#runway/compile/compile-farm.ts'
import { growthRow } from '#runway/span.ts'

const sold = [
  'offered',
  'ceiling',
  'sales',
  'culls',
  'auctionSales',
  'marketSales',
  'marketCapacity',
] as const
const paid = [
  'directCosts',
  'spent',
  'stockBought',
  'marketCosts',
  'marketCostsEach',
  'overheads',
  'hiredCosts',
] as const

/** Still at the plan's first prices: only what grows beyond them is added. A course may begin before the plan or last longer. */
export const grownCourse = (plan: Plan, course: FarmCourse): FarmCourse => {
  const span = { ...planSpan(plan), firstMonth: course.firstMonth, months: course.monthCount }
  const prices = growthRow(span, plan.assumptions.farmPriceGrowth)
  const costs = growthRow(span, plan.assumptions.farmCostGrowth)
  const grown = { ...course }
  for (const name of sold) grown[name] = times(course[name], prices)
  for (const name of paid) grown[name] = times(course[name], costs)
  return grown
}

/** A farm with its amounts as they have grown beyond prices by a year: what a mix of that year is worked out from. */
export const grownFarm = (plan: Plan, farm: Farm, year: number): Farm => {
  const span = { ...planSpan(plan), firstMonth: month(year, 1), months: 1 }
  const prices = growthRow(span, plan.assumptions.farmPriceGrowth)[0]!
  const costs = growthRow(span, plan.assumptions.farmCostGrowth)[0]!
  if (prices === 1 && costs === 1) return farm
  return {
    ...farm,
    enterprises: farm.enterprises.map((one) => ({
      ...one,
      salesPerUnit: scaled(one.salesPerUnit, prices),
      costsPerUnit: scaled(one.costsPerUnit, costs),
    })),
    markets: farm.markets.map((one) => ({
      ...one,
      salesPerTrip: scaled(one.salesPerTrip, prices),
      feePerTrip: scaled(one.feePerTrip, costs),
      feePerMonth: scaled(one.feePerMonth, costs),
      // Miles cost so much each.
      milesPerTrip: scaled(one.milesPerTrip, costs),
    })),
    herds: farm.herds.map((one) => ({
      ...one,
      productPerFemale: scaled(one.productPerFemale, prices),
      costPerFemale: scaled(one.costPerFemale, costs),
      costPerYoung: scaled(one.costPerYoung, costs),
      ...(one.meat === undefined ? {} : { meat: grownMeat(one.meat, prices, costs) }),
      prices: {
        ...one.prices,
        youngSold: one.prices.youngSold * prices,
        cullFemale: one.prices.cullFemale * prices,
        ...(one.prices.atAuction === undefined ? {} : { atAuction: one.prices.atAuction * prices }),
        breedingFemale: one.prices.breedingFemale * costs,
        male: one.prices.male * costs,
      },
    })),
    overheads: farm.overheads.map((one) => ({ ...one, costs: scaled(one.costs, costs) })),
    hired: {
      ...farm.hired,
      hourlyCost: farm.hired.hourlyCost * costs,
      ...(farm.hired.wage === undefined ? {} : { wage: farm.hired.wage * costs }),
    },
  }
}

const grownMeat = (meat: Meat, prices: number, costs: number): Meat => ({
  ...meat,
  wholePrice: scaled(meat.wholePrice, prices),
  halfPrice: scaled(meat.halfPrice, prices),
  quarterPrice: scaled(meat.quarterPrice, prices),
  cutPrice: scaled(meat.cutPrice, prices),
  processingPerHead: scaled(meat.processingPerHead, costs),
  processingPerPound: scaled(meat.processingPerPound, costs),
  freezerPerPound: scaled(meat.freezerPerPound, costs),
})

type Meat = NonNullable<Farm['herds'][number]['meat']>

const scaled = <Amount extends number | readonly number[] | undefined>(
  amount: Amount,
  factor: number,
): Amount =>
  (typeof amount === 'number'
    ? amount * factor
    : (amount as readonly number[] | undefined)?.map((one) => one * factor)) as Amount
