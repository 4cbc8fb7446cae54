// Farm income averaging in a yearly estimate: the base years as they are told, and their rates.
import { z } from 'zod'
import type { Indexing } from '#rules/dated.ts'
import { filingStatuses, statusIndex } from '#rules/filing-status.ts'
import { firstRateYear, rateLawFor } from '#rules/law.ts'
import type { BaseYear, FarmAveraging } from '#rules/return/farm-averaging.ts'
import { dollarsInput } from './estimate-fields.ts'

const baseYear = z.strictObject({
  filingStatus: z.enum(filingStatuses, { error: `Enter one of: ${filingStatuses.join(', ')}` }),
  taxableIncome: z
    .number({ error: 'Enter dollars as a number; below 0 where deductions were more than income' })
    .min(-1e9)
    .max(1e9),
  gains: dollarsInput().default(0),
})

export const averagingInput = z.strictObject({
  elected: dollarsInput().optional(),
  baseYears: z
    .array(baseYear)
    .length(
      3,
      'List the three years before, the last one first, like [{"filingStatus":"single","taxableIncome":21000}, …]',
    ),
})

/** Null: not chosen. Throws `RuleYearError` for a year before the rates that are held. */
export const averagingOf = (
  input: z.output<typeof averagingInput> | undefined,
  taxYear: number,
  indexing: Indexing,
): FarmAveraging | null => {
  if (!input) return null
  const years = input.baseYears.map(
    (base, k): BaseYear => ({
      law: rateLawFor(taxYear - 1 - k, indexing),
      status: statusIndex(base.filingStatus),
      taxable: base.taxableIncome,
      preferred: base.gains,
      ratio: 1,
    }),
  )
  return { years: [years[0]!, years[1]!, years[2]!], elected: input.elected ?? -1 }
}

export const averagingHelp = `farmAveraging  {"baseYears":[{"filingStatus":"single","taxableIncome":21000,"gains":0},…]}: the three years before, the
                 last first, from ${firstRateYear} on, as earlier Schedules J left them; elected: farm income to be averaged, without it
                 as much as costs least. Adds averagedFarmIncome`
