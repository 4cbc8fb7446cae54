// At which age young are sold, by the months they are born in and the months of sale.
import type { HerdRates } from './herd-document.ts'

/** Months of the year, and months of age. */
export interface FirstSale {
  birth: number
  sale: number
  age: number
}

/** When those of each month of birth are first sold: in a month of sale once they are of the age. Nothing for those that have no young. */
export const firstSales = (rates: HerdRates): FirstSale[] =>
  rates.birthMonths.map((birth) => {
    const age = ageFrom(rates, birth, Math.max(rates.saleAgeMonths, rates.weaningAgeMonths))
    return { birth, sale: ((birth + age - 1) % 12) + 1, age }
  })

/**
 * The age that holds where none is entered: the usual one, `saleAgeMonths`, unless the months of sale say another. They do where some
 * young would be nearer to that age in a month of sale before it than in the first one after: then they are sold from that month on.
 */
export const ageBySaleMonths = (rates: HerdRates): number => {
  const { birthMonths, saleMonths = [], saleAgeMonths, weaningAgeMonths } = rates
  const sooner = birthMonths.flatMap((birth) => {
    const late = ageFrom(rates, birth, saleAgeMonths) - saleAgeMonths
    return saleMonths
      .map((sale) => saleAgeMonths - monthsOn(sale, birth + saleAgeMonths))
      .filter((age) => age >= weaningAgeMonths && saleAgeMonths - age < late)
  })
  return sooner.length === 0 ? saleAgeMonths : Math.min(...sooner)
}

/** The first age, from `least` on, that falls into a month of sale. */
const ageFrom = ({ saleMonths = [] }: HerdRates, birth: number, least: number): number =>
  saleMonths.length === 0
    ? least
    : least + Math.min(...saleMonths.map((sale) => monthsOn(birth + least, sale)))

/** Months from one month of the year to the next of another. */
const monthsOn = (from: number, to: number): number => (((to - from) % 12) + 12) % 12
