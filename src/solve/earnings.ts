// What simulations take money to earn and prices to do, in a sentence.
import { fromTo } from '#calendar/spell.ts'
import { marketHistories } from '#chance/market-history.ts'
import { formatPercent } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'

/** Rates are nominal, a year, before tax. */
export function sayEarnings({ chance, assumptions }: Plan): string {
  if (chance.markets !== 'stated') {
    const { firstYear, lastYear } = marketHistories[chance.markets]
    const years = `the years ${fromTo(String(firstYear), String(lastYear))}`
    return chance.centre === 'source'
      ? `Money is taken to earn, and prices to rise, what they did in ${years}.`
      : `${sayRates(assumptions)}, on average as the plan expects, with ups and downs like those of ${years}.`
  }
  const { stocksMean: stocks, bondsMean: bonds, billsMean: bills, inflationMean: inflation } = chance
  return chance.centre === 'source'
    ? `${sayRates({ stocks, bonds, bills, inflation })}, on average, with the ups and downs that the plan states.`
    : `${sayRates(assumptions)}, on average as the plan expects, with the ups and downs that it states.`
}

const sayRates = (rates: { stocks: number; bonds: number; bills: number; inflation: number }): string =>
  `Stocks are taken to earn ${formatPercent(rates.stocks)} a year, bonds ${formatPercent(rates.bonds)}, bills and savings accounts ${formatPercent(rates.bills)}, and prices to rise ${formatPercent(rates.inflation)}`
