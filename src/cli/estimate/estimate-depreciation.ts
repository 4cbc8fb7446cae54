// `estimate --kind depreciation`: the schedule of farm property by asset and year, with section 179 and bonus.
import { z } from 'zod'
import { yearIn } from '#calendar/month.ts'
import {
  bonusPercentSince,
  decliningBalancePercent,
  type FarmAssetClass,
  recoveryYears,
  section179Limit,
} from '#rules/data/depreciation.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { assetClasses, takesSection179 } from '#rules/depreciation/recovery.ts'
import { type DepreciableAsset, depreciationSchedule } from '#rules/depreciation/schedule.ts'
import { section179Carried, section179Ceiling, section179Limits } from '#rules/depreciation/write-offs.ts'
import { dayInput, dollarsInput, factLine, growthPercentInput, yearInput } from './estimate-fields.ts'
import { estimateKind } from './estimate-kind.ts'

const classNames = Object.keys(assetClasses) as [FarmAssetClass, ...FarmAssetClass[]]

const asset = z
  .strictObject({
    name: z.string().min(1, 'Give the asset a name'),
    assetClass: z.enum(classNames, { error: `Enter one of: ${classNames.join(', ')}` }),
    cost: dollarsInput(),
    businessShare: z
      .number({ error: 'Enter a share from 0 to 1' })
      .min(0.01, 'Enter at least 0.01')
      .max(1, 'Enter at most 1')
      .default(1),
    placedInService: dayInput(),
    acquired: dayInput().optional(),
    section179: dollarsInput().default(0),
    bonus: z.boolean().default(false),
    system: z.enum(['general', 'alternative']).default('general'),
    disposed: dayInput().optional(),
  })
  .refine((one) => one.section179 === 0 || takesSection179(one.assetClass), {
    error: 'Section 179 does not cover buildings. Enter 0',
    path: ['section179'],
  })
  .refine((one) => one.section179 <= one.cost, { error: 'Enter no more than the cost', path: ['section179'] })
  .refine((one) => one.disposed === undefined || one.disposed >= one.placedInService, {
    error: 'Enter a day after the first use',
    path: ['disposed'],
  })

const schema = z
  .strictObject({
    firstYear: yearInput(),
    lastYear: yearInput(),
    assets: z.array(asset).min(1, 'List at least one asset').max(1000),
    activeBusinessIncome: dollarsInput().optional(),
    inflationPercent: growthPercentInput(2.5),
  })
  .refine((input) => input.lastYear >= input.firstYear && input.lastYear <= input.firstYear + 60, {
    error: 'Enter a last year from the first one to 60 years on',
    path: ['lastYear'],
  })

export const depreciationKind = estimateKind({
  schema,
  help: `depreciation: deductions of farm property by year

  firstYear, lastYear    years to print
  assets                 list of {name, assetClass, cost, businessShare, placedInService, acquired, section179, bonus, system,
                         disposed}; cost: business part, dollars; businessShare (1) lowers a car's yearly limits; days like "2026-05-01"; acquired decides the bonus (left out: first
                         use); bonus true takes it; system general or alternative
  activeBusinessIncome   of firstYear, dollars, for the section 179 ceiling (optional)
  inflationPercent       for limits past the published years (2.5)

assetClass: ${classNames.join(', ')}

Prints: years, assets (deductions and basisAtYearEnd by year), totals, section179 {elected, ceiling, carriesForward} of firstYear, trace.

Example: {"firstYear":2026,"lastYear":2031,"assets":[{"name":"Tractor","assetClass":"machinery-used","cost":18000,"placedInService":"2026-04-01"}]}`,
  run: (input) => {
    const assets = input.assets.map(
      ({ acquired, disposed, ...rest }): DepreciableAsset => ({
        ...rest,
        ...(acquired ? { acquired } : {}),
        ...(disposed ? { disposed } : {}),
      }),
    )
    const schedule = depreciationSchedule(assets, input.firstYear, input.lastYear)
    return {
      ...schedule,
      ...section179Figures(input),
      trace: schedule.assets.map((row) =>
        factLine(row.name, row.deductions[0] ?? 0, row.bonus > 0 ? bonusPercentSince : recoveryYears, {
          assetClass: row.assetClass,
          cost: row.cost,
          convention: row.convention,
          section179: row.section179,
          bonus: row.bonus,
          method: decliningBalancePercent.rule,
        }),
      ),
    }
  },
})

const section179Figures = (input: z.output<typeof schema>) => {
  const elected = input.assets
    .filter((one) => yearIn(one.placedInService) === input.firstYear)
    .reduce((sum, one) => sum + one.section179, 0)
  if (input.activeBusinessIncome === undefined) return { section179: { elected } }
  const cost = input.assets
    .filter((one) => yearIn(one.placedInService) === input.firstYear && takesSection179(one.assetClass))
    .reduce((sum, one) => sum + one.cost, 0)
  const limits = section179Limits(input.firstYear, steadyIndexing(input.inflationPercent / 100))
  return {
    section179: {
      elected,
      ceiling: section179Ceiling(limits, cost, input.activeBusinessIncome),
      carriesForward: section179Carried(limits, cost, input.activeBusinessIncome, elected),
      source: section179Limit.source,
      basis: limits.basis,
    },
  }
}
