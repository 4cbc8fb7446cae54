// What one farm year does to Social Security: quarters and later benefit under the regular and the farm optional method.
import { z } from 'zod'
import { optionalMethodMax } from '#rules/data/self-employment.ts'
import { type Indexing, RuleYearError } from '#rules/dated.ts'
import { firstLawYear, lawFor } from '#rules/law.ts'
import { selfEmploymentTax } from '#rules/return/self-employment-tax.ts'
import type { TraceLine } from '#rules/return/trace.ts'
import { inDollars, wholeCents } from '#rules/rounding.ts'
import type { BenefitLaw } from '#rules/social-security/benefit-law.ts'
import { farmYearEffect } from '#rules/social-security/coverage.ts'
import type { EarningsRecord } from '#rules/social-security/primary-amount.ts'
import { dollarsInput, factLine, yearInput } from './estimate-fields.ts'

export const farmYearSchema = z.strictObject({
  year: yearInput(),
  netProfit: z.number({ error: 'Enter dollars as a number; a loss is below 0' }).min(-1e9).max(1e9),
  grossIncome: dollarsInput(),
})

export interface FarmYearFigures {
  regular: FarmYearMethod
  /** Null where the law does not open the method: gross and net farm income are both too high. */
  farmOptional: FarmYearMethod | null
}

interface FarmYearMethod {
  coveredEarnings: number
  selfEmploymentTax: number
  quarters: number
  /** Dollars a month on the primary amount, against a year without covered earnings. */
  primaryAmountChange: number
}

/** Both methods side by side. Throws `RuleYearError` for a year before the self-employment figures. */
export const farmYearFigures = (
  law: BenefitLaw,
  record: EarningsRecord,
  farm: z.output<typeof farmYearSchema>,
  indexing: Indexing,
): FarmYearFigures => {
  if (farm.year < firstLawYear)
    throw new RuleYearError(optionalMethodMax.rule, farm.year, `figures start in ${firstLawYear}`)
  const taxLaw = lawFor(farm.year, indexing)
  const work = (useFarmOptional: boolean) =>
    selfEmploymentTax(taxLaw, {
      wages: 0,
      farmProfit: wholeCents(farm.netProfit),
      otherProfit: 0,
      useFarmOptional,
      farmGross: wholeCents(farm.grossIncome),
      useNonfarmOptional: false,
      nonfarmGross: 0,
    })
  const told = (worked: ReturnType<typeof work>): FarmYearMethod => {
    const effect = farmYearEffect(law, record, farm.year, inDollars(worked.netEarnings))
    return {
      coveredEarnings: effect.coveredEarnings,
      selfEmploymentTax: inDollars(worked.tax),
      quarters: effect.quarters,
      primaryAmountChange: Math.round(effect.primaryAmountChange * 100) / 100,
    }
  }
  const optional = work(true)
  return { regular: told(work(false)), farmOptional: optional.farmOptional > 0 ? told(optional) : null }
}

export const farmYearTrace = (farm: z.output<typeof farmYearSchema>, figures: FarmYearFigures): TraceLine =>
  factLine(
    'farmYear',
    figures.farmOptional?.coveredEarnings ?? figures.regular.coveredEarnings,
    optionalMethodMax,
    {
      year: farm.year,
      netProfit: farm.netProfit,
      grossIncome: farm.grossIncome,
    },
  )
