// `estimate --kind rmd`: the required distribution of a year, its due day and what missing it would cost.
import { z } from 'zod'
import {
  distributionStartAges,
  missedDistributionTax,
  uniformLifetimeDivisors,
} from '#rules/data/retirement-accounts.ts'
import { requiredDistributionOf } from '#rules/required-distributions.ts'
import { dollarsInput, factLine, yearInput } from './estimate-fields.ts'
import { estimateKind } from './estimate-kind.ts'

export const requiredDistributionKind = estimateKind({
  schema: z.strictObject({ bornYear: yearInput(), year: yearInput(), balance: dollarsInput() }),
  help: `rmd: the required distribution from traditional accounts in a year

  bornYear   year of birth
  year       year of the distribution
  balance    of the account on December 31 of the year before, dollars

Prints: startAge, firstYear, age, divisor (null before the first year), amount, due, ifMissed {tax, mended}, trace. By the Uniform
Lifetime Table; a sole beneficiary spouse more than ten years younger has a smaller amount, by a table not held here.

Example: {"bornYear":1951,"year":2026,"balance":100000}`,
  run: (input) => {
    const required = requiredDistributionOf(input.bornYear, input.year, input.balance)
    return {
      ...required,
      trace: [
        factLine('startAge', required.startAge, distributionStartAges, { bornYear: input.bornYear }),
        factLine('amount', required.amount, uniformLifetimeDivisors, {
          balance: input.balance,
          age: required.age,
          divisor: required.divisor ?? 'none yet',
        }),
        factLine('ifMissed', required.ifMissed.tax, missedDistributionTax, { amount: required.amount }),
      ],
    }
  },
})
