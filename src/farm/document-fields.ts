// The fields of which the farm's part of the plan is made, each with its own words for what would be right.
import { z } from 'zod'
import type {} from './field-words.ts'
import { largestAmount, monthTextSchema, tooLarge } from './seasonal.ts'

export const amount = z
  .number({ error: 'Enter a number, like 12 or 1.5' })
  .min(0, 'Enter zero or more')
  .max(largestAmount, tooLarge)
export const dollars = amount.meta({ unit: 'dollars' })
export const share = z
  .number({ error: 'Enter a share from 0 to 1 (0% to 100% on forms)' })
  .min(0, 'A share is at least 0%')
  .max(1, 'A share is at most 100%')
  .meta({ unit: 'share' })
export const id = z.string().min(1, { error: 'Give it a short name for reference' })
export const name = z.string({ error: 'Give it a name' }).min(1, { error: 'Give it a name' })
export const starts = monthTextSchema
  .optional()
  .meta({ title: 'Starts in', description: 'Empty: it runs already' })
export const ends = monthTextSchema.optional().meta({ title: 'Ends after', description: 'Empty: it goes on' })
export const markets = z.array(z.string().meta({ names: 'market' })).default([])

export const seasonSpread = z.number().min(0).max(1).meta({
  title: 'How far a season’s yield varies',
  unit: 'share',
  description: 'Standard deviation of its logarithm; used in simulations only (common practice)',
})

export const bookTag = z.string().optional().meta({
  title: 'Tag in the books',
  description: 'The enterprise under which the books keep its lines; empty: its own short name',
})

/** The published figures that some of its fields still stand at, and the year to whose prices their dollars were brought. */
export const begunWith = z
  .object({
    figures: z.string().meta({ title: 'Figures' }),
    pricesOf: z.number().int().optional().meta({ title: 'At prices of', told: 'calendar year' }),
  })
  .optional()
  .meta({ title: 'Begun with published figures', aside: true })

/** Weights by Schedule F line, like `{ "26": 2, "28": 1 }`; any scale, they are shares of their sum. */
export const scheduleFLines = z
  .record(
    z.string().meta({ title: 'Schedule F line' }),
    amount.meta({ title: 'Its part', told: 'parts of the whole' }),
  )
  .meta({ title: 'Schedule F lines of its costs', description: 'Parts on any scale, like 2 and 1' })
