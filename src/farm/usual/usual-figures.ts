// Published usual figures of enterprises, herds and markets, as suggestions for their forms: each with its range, the year of its
// dollars, place and source. They hold for nobody: a farm's own batches and books take their place.
import { z } from 'zod'
import { obtainedWays } from '#rules/dated.ts'
import enterprises from './figures/enterprises.json' with { type: 'json' }
import herds from './figures/herds.json' with { type: 'json' }
import markets from './figures/markets.json' with { type: 'json' }
import sources from './figures/sources.json' with { type: 'json' }

export type UsualList = 'enterprises' | 'herds' | 'markets'

const sourceSchema = z.object({
  author: z.string(),
  title: z.string(),
  publisher: z.string(),
  number: z.string().optional(),
  year: z.int().optional(),
  address: z.string().optional(),
  kind: z.string(),
})

const figureSchema = z.object({
  /** Where it stands in the form: `salesPerUnit`, `rates.cullPerYear`. Its value is in that field's own measure. */
  field: z.string(),
  value: z.union([z.number(), z.array(z.number())]),
  low: z.number().optional(),
  high: z.number().optional(),
  /** In words: `dollars a bird`. What begins with dollars is money. */
  unit: z.string(),
  /** Year of its dollars; null where none is printed. Only on money. */
  dollarsYear: z.int().nullable().optional(),
  /** Sales at the price that covers costs: what it was sold for is not known. */
  isBreakEven: z.boolean().optional(),
  place: z.string().optional(),
  source: z.string().optional(),
  obtained: z.enum(obtainedWays),
  /** How it comes from the printed figures. */
  sum: z.string().optional(),
  note: z.string().optional(),
})

const kindSchema = z.object({
  id: z.string(),
  name: z.string(),
  /** What the figures are counted by, and the measure of the yield: they hold in no other. */
  unit: z.string().optional(),
  yieldMeasure: z.string().optional(),
  /** Choices of the form that the figures hold for, as a browser sends them: `kind` is `layers`. */
  holdsFor: z.record(z.string(), z.string()).optional(),
  says: z.string().optional(),
  /** Parts of the form that are another way of doing it: filling all empty fields leaves them alone until something is typed in them. */
  onlyWhenBegun: z.array(z.string()).optional(),
  figures: z.array(figureSchema),
})

export type UsualFigure = z.infer<typeof figureSchema>
export type UsualKind = z.infer<typeof kindSchema>
export type UsualSource = z.infer<typeof sourceSchema>

const tables = { enterprises, herds, markets } as const
const read = new Map<UsualList, UsualKind[]>()

/** What figures are published for, in the order in which it is offered. Read once, when first asked for. */
export const usualKinds = (list: UsualList): readonly UsualKind[] => {
  const known = read.get(list) ?? z.array(kindSchema).parse(tables[list])
  read.set(list, known)
  return known
}

export const usualKind = (list: UsualList, id: string): UsualKind | null =>
  usualKinds(list).find((one) => one.id === id) ?? null

let known: Record<string, UsualSource> | null = null

/** Null for what has none: the farm's own measure of a unit. Throws on a source that is not listed. */
export const usualSource = ({ source }: { source?: string | undefined }): UsualSource | null => {
  if (source === undefined) return null
  known ??= z.record(z.string(), sourceSchema).parse(sources)
  const found = known[source]
  if (!found) throw new Error(`No source is listed as ${source}`)
  return found
}

export const isMoney = ({ unit }: UsualFigure): boolean => unit.startsWith('dollars')
