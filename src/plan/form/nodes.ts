// What a form of the plan is made of, before it is drawn.
import type { UsualFigure, UsualSource } from '#farm/usual/usual-figures.ts'
import type { FieldKind, Path } from './shape.ts'

/** A part of the plan that one form shows: what it does not show, it does not change. */
export interface FormPart {
  path: Path
  /** Begins the names of its inputs; empty where they are called as the fields themselves. */
  name: string
  only?: readonly string[]
}

export interface Option {
  value: string
  label: string
}

/** A published figure beside a field. */
export interface Suggestion {
  /** What the button that takes it sends. */
  taken: string
  /** Null for the measure or the choice that the figures hold for, said in `holds`: `by the bird`. */
  figure: UsualFigure | null
  source: UsualSource | null
  holds?: string
  /** Its money was brought from this year's dollars to the last prices. */
  broughtFrom: number | null
  /** Input names and texts that taking it types. */
  types: readonly (readonly [name: string, text: string])[]
  /** Taken by its own press only. */
  isAlone?: boolean
  /** The field stands at it: there is nothing to take. */
  stands?: boolean
}

interface Named {
  name: string
  label: string
  hint: string
  /** Heading under which it stands, with others of the same. */
  under: string
  /** How many things of it somebody entered, a row of a list as one, where it is one that is usually left as it is. */
  entered?: number
}

export type FieldNode = Named & {
  kind: 'field'
  of: FieldKind
  value: string
  /** The default that holds while the field is empty, as its text; empty where nothing does. */
  whenEmpty: string
  options: readonly Option[]
  optional: boolean
  usual?: readonly Suggestion[]
}

export type FlagNode = Named & { kind: 'flag'; checked: boolean; usual?: readonly Suggestion[] }

export type MonthsNode = Named & {
  kind: 'months'
  one: string
  whenEmpty: string
  months: readonly string[]
  /** Whether the one figure holds in each month, or is the year's total. */
  isEachMonth: boolean
  total: number | null
  usual?: readonly Suggestion[]
}

export type ListNode = Named & {
  kind: 'list'
  rows: FormNode[][]
  /** Rows are those of the plan's people, markets and so on: none is added or taken out. */
  isFixed: boolean
}

export type PageNode = Named & {
  kind: 'page'
  page: string
  /** Short name of the thing it belongs to; empty while that is new. */
  of: string
  entries: number
}

export type VariantsNode = Named & {
  kind: 'variants'
  value: string
  options: readonly Option[]
  children: FormNode[]
}

export type FormNode =
  | FieldNode
  | FlagNode
  | MonthsNode
  | ListNode
  | PageNode
  | (Named & { kind: 'ticks'; options: readonly Option[]; chosen: readonly string[] })
  | (Named & { kind: 'group'; children: FormNode[] })
  | VariantsNode
  | { kind: 'hidden'; name: string; value: string }

/**
 * Names of what a browser posts nothing of when it is empty: boxes and lists. A form posts these names as `shown[]`, so that
 * an empty list is told from one that the form did not hold. Those of a kind's own fields go with them.
 */
export const shownNames = (nodes: readonly FormNode[]): string[] =>
  nodes.flatMap((node) => {
    if (node.kind === 'flag' || node.kind === 'ticks') return [node.name]
    if (node.kind === 'list') return [node.name, ...shownNames(node.rows.flat())]
    return node.kind === 'group' ? shownNames(node.children) : []
  })

/** All choices of a kind in a form, those within others too. */
export const variantsIn = (nodes: readonly FormNode[]): VariantsNode[] =>
  nodes.flatMap((node) => {
    if (node.kind === 'list') return variantsIn(node.rows.flat())
    if (node.kind === 'group') return variantsIn(node.children)
    return node.kind === 'variants' ? [node, ...variantsIn(node.children)] : []
  })

/** Each node with all that lie in it. */
export const within = (nodes: readonly FormNode[]): FormNode[] =>
  nodes.flatMap((node) => {
    if (node.kind === 'list') return [node, ...within(node.rows.flat())]
    return node.kind === 'group' || node.kind === 'variants' ? [node, ...within(node.children)] : [node]
  })
