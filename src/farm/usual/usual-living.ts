// What farm families spent on living, as published: suggestions for a month of living, brought to a household's size and later prices
// only where that is asked.
import { z } from 'zod'
import { consumerPriceIndex } from '#rules/data/consumer-prices.ts'
import { obtainedWays } from '#rules/dated.ts'
import living from './figures/living.json' with { type: 'json' }
import { type UsualSource, usualSource } from './usual-figures.ts'
import { lastPriceYear } from './usual-prices.ts'

const livingSchema = z.array(
  z.object({
    id: z.string(),
    /** Dollars of its year, of one family. */
    perYear: z.number(),
    /** In the family, on average; left out where it is not printed. */
    people: z.number().optional(),
    dollarsYear: z.int(),
    place: z.string(),
    source: z.string(),
    obtained: z.enum(obtainedWays),
    note: z.string().optional(),
  }),
)

export type LivingFigure = z.infer<typeof livingSchema>[number]

export interface LivingSuggestion {
  /** What the button that takes it sends. */
  taken: string
  figure: LivingFigure
  source: UsualSource
  /** Dollars a month, whole: as printed, or brought to `people` and the prices of `year`. */
  perMonth: number
  year: number
  /** Null: the family's own size. */
  people: number | null
}

let read: LivingFigure[] | null = null

export const livingFigures = (): readonly LivingFigure[] => {
  read ??= livingSchema.parse(living)
  return read
}

/**
 * Each figure as printed and brought over: to the last whole year of the consumer price index, and, where the family's size is printed,
 * to so many people by the square root of their number (a rule of thumb of income studies; from memory).
 */
export const livingSuggestions = (people: number): LivingSuggestion[] =>
  livingFigures().flatMap((figure): LivingSuggestion[] => {
    const source = usualSource(figure)!
    const of = (perYear: number) => Math.round(perYear / 12)
    const year = lastPriceYear()
    const toLast = consumerPriceIndex.values[year]! / consumerPriceIndex.values[figure.dollarsYear]!
    const bySize = figure.people === undefined || people < 1 ? null : Math.sqrt(people / figure.people)
    return [
      {
        taken: `${figure.id}.printed`,
        figure,
        source,
        perMonth: of(figure.perYear),
        year: figure.dollarsYear,
        people: null,
      },
      {
        taken: `${figure.id}.brought`,
        figure,
        source,
        perMonth: of(figure.perYear * toLast * (bySize ?? 1)),
        year,
        people: bySize === null ? null : people,
      },
    ]
  })
