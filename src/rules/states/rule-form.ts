// The one form in which every state's income tax is written as data: one year's rules, read and checked. DEVELOPERS.md says how a state is changed.
import { z } from 'zod'

const byStatus = <T extends z.ZodType>(type: T) =>
  z.strictObject({ single: type, joint: type, head: type, separate: type })

/**
 * Dollars or a plain number: the same for all; by status; by number of children for the earned income credit or of dependents (the
 * last entry for more); a base with so much for each dependent or filer; a multiple of the poverty line.
 */
export type Amount =
  | number
  | { single: Amount; joint: Amount; head: Amount; separate: Amount }
  | { byChildren: Amount[] }
  | { byDependents: Amount[] }
  | { base: Amount; perDependent?: number | undefined; perFiler?: number | undefined }
  | { timesPoverty: Amount }
const amount: z.ZodType<Amount> = z.lazy(() =>
  z.union([
    z.number(),
    byStatus(amount),
    z.strictObject({ byChildren: z.array(amount) }),
    z.strictObject({ byDependents: z.array(amount) }),
    z.strictObject({
      base: amount,
      perDependent: z.number().optional(),
      perFiler: z.number().optional(),
    }),
    z.strictObject({ timesPoverty: amount }),
  ]),
)

/** Pairs of a start and a value, as amounts vary; by size for so many people, and so many more for each filer of 65. */
export type Rows =
  | [number, number][]
  | { single: Rows; joint: Rows; head: Rows; separate: Rows }
  | { byChildren: Rows[] }
  | { byDependents: Rows[] }
  | { bySize: Rows[]; plusAged?: number | undefined }
const pairs = z.array(z.tuple([z.number(), z.number()]))
const rows: z.ZodType<Rows> = z.lazy(() =>
  z.union([
    pairs,
    byStatus(rows),
    z.strictObject({ byChildren: z.array(rows) }),
    z.strictObject({ byDependents: z.array(rows) }),
    z.strictObject({ bySize: z.array(rows), plusAged: z.number().optional() }),
  ]),
)

/** Names of figures, summed; `-` before one that is taken off; a number stands for itself. */
const names = z.union([z.string(), z.array(z.union([z.string(), z.number()]))])
export type Names = z.infer<typeof names>

const everybody = ['filers', 'dependents', 'everyone'] as const
const count = z.union([
  z.enum(everybody),
  z.strictObject({
    who: z.enum([...everybody, 'blindFilers']),
    ageFrom: z.number().optional(),
    ageBelow: z.number().optional(),
    plus: z.number().optional(),
    most: z.number().optional(),
    /** The ages are those of people born in certain years: a year later they are one higher. */
    byBirth: z.boolean().optional(),
  }),
])
export type Count = z.infer<typeof count>

/** Holds when the sum of names and counts is within the bounds, and all the rest holds too. */
const condition = z.strictObject({
  on: names.optional(),
  counts: z.array(count).optional(),
  over: names.optional(),
  atMost: amount.optional(),
  below: amount.optional(),
  atLeast: amount.optional(),
  above: amount.optional(),
  status: z.array(z.enum(['single', 'joint', 'head', 'separate'])).optional(),
  byBirth: z.boolean().optional(),
  get and() {
    return z.array(condition).optional()
  },
})
export type Condition = z.infer<typeof condition>

/** A row's value holds from its start on, or, strictly, only above it. */
const table = z.strictObject({
  on: names,
  over: names.optional(),
  above: amount.optional(),
  rows,
  strictlyAbove: z.boolean().optional(),
})
export type Table = z.infer<typeof table>

/** Straight lines between points. */
const curve = z.strictObject({ on: names, points: rows })
export type Curve = z.infer<typeof curve>

/** What an excess takes off: at a rate, in steps of dollars or shares (begun ones count, unless `round`), or all over a width. */
const reduction = z.strictObject({
  on: names,
  above: amount,
  rate: amount.optional(),
  step: amount.optional(),
  by: amount.optional(),
  byShare: amount.optional(),
  round: z.enum(['down', 'none']).optional(),
  width: amount.optional(),
  places: z.number().optional(),
  to: amount.optional(),
})
export type Reduction = z.infer<typeof reduction>

/** One rule that gives dollars. Its fields apply in this order; it never gives less than 0 unless it may be negative. */
const item = z.strictObject({
  what: z.string().optional(),
  /** Later rules name its value by this. */
  id: z.string().optional(),
  /** Of the items with one word here only the largest counts. */
  pick: z.string().optional(),
  refundable: z.boolean().optional(),
  /** Written from memory of the law, not in the source. */
  mark: z.string().optional(),
  /** For each filer, with that filer's own figures. */
  each: z.boolean().optional(),
  when: z.array(condition).optional(),
  get sumOf() {
    return z.array(item).optional()
  },
  get largestOf() {
    return z.array(item).optional()
  },
  of: names.optional(),
  mayBeNegative: z.boolean().optional(),
  mostBefore: names.optional(),
  maxOf: z.strictObject({ base: amount, less: names.optional() }).optional(),
  amount: amount.optional(),
  share: amount.optional(),
  table: table.optional(),
  curve: curve.optional(),
  count: count.optional(),
  mostFirst: amount.optional(),
  less: z
    .array(z.strictObject({ amount: amount.optional(), of: names.optional(), share: amount.optional() }))
    .optional(),
  get lessItem() {
    return item.optional()
  },
  shareAfter: amount.optional(),
  tableAfter: table.optional(),
  least: amount.optional(),
  most: amount.optional(),
  mostOf: names.optional(),
  get mostItem() {
    return item.optional()
  },
  lessAfter: names.optional(),
  stepUp: z.strictObject({ on: names, above: amount, step: amount, by: amount }).optional(),
  reduce: reduction.optional(),
  mostTable: table.optional(),
  thenCount: count.optional(),
  thenTimes: z.strictObject({ of: names, over: names }).optional(),
})
export type Item = z.infer<typeof item>

/** How a couple's tax may be worked on two incomes; see `spouses.ts`. */
const spouses = z.strictObject({
  method: z.enum(['own', 'byShare', 'split']),
  whole: z.boolean().optional(),
  column: z.literal('single').optional(),
  income: z.string().optional(),
  lessAmount: amount.optional(),
  lessExemptions: z.boolean().optional(),
  most: z.number().optional(),
  when: z.array(condition).optional(),
  asCredit: z.boolean().optional(),
})
export type Spouses = z.infer<typeof spouses>

/** Brackets are pairs of a start and a marginal rate. */
const brackets = z.union([pairs, byStatus(pairs)])
export type Brackets = z.infer<typeof brackets>

/** Net long-term gain on brackets of its own on top of the rest, or at a rate where that is lower, the rest filled `upTo` first. */
const gains = z.strictObject({
  of: names,
  rate: z.number().optional(),
  upTo: z.union([z.number(), byStatus(z.number())]).optional(),
  brackets: brackets.optional(),
})
export type Gains = z.infer<typeof gains>

const items = z.array(item).optional()

/** One year's rules, in the order in which they are worked; see `program.ts`. */
export const yearRules = z.strictObject({
  start: z.strictObject({
    of: z.array(z.union([z.string(), z.number()])),
    floorEach: z.boolean().optional(),
  }),
  add: items,
  subtract: items,
  deduct: items,
  exempt: items,
  brackets,
  eachNoTaxUpTo: z.number().optional(),
  gains: gains.optional(),
  alsoTax: items,
  noTaxWhen: z.array(condition).optional(),
  taxAtMost: items,
  taxAtLeast: items,
  spouses: spouses.optional(),
  ownCredits: items,
  ownUnit: z.number().optional(),
  credits: items,
  flatTax: items,
  or: z.array(z.strictObject({ subtract: items, noCredits: z.boolean().optional() })).optional(),
})
export type YearRules = z.infer<typeof yearRules>
