// Published usual figures beside the fields of a form, and what is typed when one of them is taken.
import {
  type UsualFigure,
  type UsualKind,
  type UsualList,
  usualKind,
  usualKinds,
  usualSource,
} from '#farm/usual/usual-figures.ts'
import { atPricesOf, lastPriceYear } from '#farm/usual/usual-prices.ts'
import { stripTexts } from './month-strip.ts'
import {
  type FieldNode,
  type FlagNode,
  type FormNode,
  type MonthsNode,
  type Suggestion,
  within,
} from './nodes.ts'
import { textOf } from './texts.ts'

/** What the document keeps of the figures that a thing began with. */
export interface BegunWith {
  figures: string
  pricesOf?: number | undefined
}

/** What a form says of the published figures it shows: for what, and at which prices. */
export interface UsualChoice {
  kinds: readonly UsualKind[]
  /** Those that are shown beside all fields. */
  chosen: UsualKind | null
  /** Those that it began with, shown where a field still stands at one. */
  kept: UsualKind | null
  /** The year to whose prices dollars are brought; null for dollars as printed. */
  pricesOf: number | null
  lastYear: number
  /** Nothing is saved yet. */
  isNew: boolean
  /** What the chosen figures leave open and the plan would count as nothing: `costs`, `hours`, `sales`. */
  missing: readonly string[]
}

/**
 * `said` gives what a form or an address says under a name, empty where it says nothing; a form that opens says nothing. `begun`: what a
 * saved thing began with. A new one without figures chosen shows those of the kind that is chosen.
 */
export const usualChoice = (
  list: UsualList,
  said: (name: string) => string,
  { isNew, begun }: { isNew: boolean; begun: BegunWith | undefined },
): UsualChoice => {
  const isAsked = isNew || said('usualShown') === 'yes' || said('show') === 'usual' || said('take') !== ''
  const isOpening = said('formId') === ''
  const chosen =
    (isAsked || isOpening ? usualKind(list, said('usual')) : null) ??
    (isNew ? ofKind(list, said('kind')) : null)
  const kept = usualKind(list, begun?.figures ?? '')
  const pricesAsked = isOpening && !chosen ? begun?.pricesOf !== undefined : said('usualPrices') === 'yes'
  const keptYear = chosen === null || chosen === kept ? begun?.pricesOf : undefined
  return {
    kinds: usualKinds(list),
    chosen,
    kept,
    pricesOf: pricesAsked ? (keptYear ?? lastPriceYear()) : null,
    lastYear: lastPriceYear(),
    isNew,
    missing: chosen ? missingOf(list, chosen) : [],
  }
}

/**
 * What is kept with a thing as it is saved: what was, while the form still says so; else the figures that the form chose, where a field
 * of `nodes` stands at one of them.
 */
export const begunWithAfter = (
  list: UsualList,
  said: (name: string) => string,
  begun: BegunWith | undefined,
  nodes: readonly FormNode[],
): BegunWith | undefined => {
  const chosen = usualKind(list, said('usual'))
  const pricesOf = said('usualPrices') === 'yes' ? (begun?.pricesOf ?? lastPriceYear()) : undefined
  const known = usualKind(list, begun?.figures ?? '')
  if (begun && chosen === known && pricesOf === begun.pricesOf) return begun
  if (chosen === null || !within(standing(nodes, chosen, pricesOf ?? null)).some(isStanding)) return undefined
  return { figures: chosen.id, ...(pricesOf === undefined ? {} : { pricesOf }) }
}

const isStanding = (node: FormNode): boolean =>
  canHold(node) && node.usual?.some(({ figure }) => figure !== null) === true

/** Fields of each list, any of which tells what it is for. */
const told: Readonly<Record<UsualList, Readonly<Record<string, readonly string[]>>>> = {
  enterprises: { costs: ['costsPerUnit'], hours: ['hoursPerUnit'], sales: ['salesPerUnit'] },
  herds: {
    costs: ['costPerFemale'],
    hours: ['hoursPerFemale', 'hoursFixed'],
    sales: ['prices.youngSold', 'productPerFemale', 'meat.wholePrice', 'meat.cutPrice'],
  },
  markets: {},
}

const missingOf = (list: UsualList, { figures }: UsualKind): string[] =>
  Object.entries(told[list])
    .filter(([, fields]) => !figures.some(({ field }) => fields.includes(field)))
    .map(([what]) => what)

const ofKind = (list: UsualList, kind: string): UsualKind | null =>
  usualKinds(list).find(({ holdsFor }) => kind !== '' && holdsFor?.kind === kind) ?? null

/** Choices that are still open stand as the figures shown hold for. */
export const holding = (nodes: FormNode[]): FormNode[] =>
  nodes.map((node): FormNode => {
    if (node.kind === 'group') return { ...node, children: holding(node.children) }
    const holds = node.kind === 'field' && node.value === '' ? node.usual?.[0] : undefined
    return node.kind === 'field' && holds?.figure === null ? { ...node, value: holds.types[0]![1] } : node
  })

/** All figures that are chosen; without any, those that fields of a saved thing still stand at. */
export const suggested = (nodes: FormNode[], choice: UsualChoice | null): FormNode[] => {
  if (choice?.chosen) return withUsual(nodes, choice.chosen, choice.pricesOf)
  return choice?.kept ? standing(nodes, choice.kept, choice.pricesOf) : nodes
}

/** Of the figures only those that fields stand at. */
const standing = (nodes: readonly FormNode[], kind: UsualKind, pricesOf: number | null): FormNode[] =>
  onlyStanding(withUsual(nodes, kind, pricesOf))

const onlyStanding = (nodes: readonly FormNode[]): FormNode[] =>
  nodes.map((node): FormNode => {
    if (node.kind === 'group') return { ...node, children: onlyStanding(node.children) }
    if (!canHold(node) || !node.usual) return node
    const { usual: all, ...plain } = node
    const usual = all
      .filter(
        ({ figure, types }) => figure !== null && types.every(([name, text]) => holds(node, name, text)),
      )
      .map((one) => ({ ...one, stands: true }))
    return usual.length > 0 ? { ...plain, usual } : plain
  })

const holds = (node: FieldNode | FlagNode | MonthsNode, name: string, text: string): boolean => {
  if (node.kind === 'field') return node.value === text
  if (node.kind === 'flag') return false
  const month = /\.m(\d+)$/.exec(name)
  return (month ? node.months[Number(month[1]) - 1] : node.one) === text
}

/** Sent by the button that fills every field that is empty. */
export const takeAll = 'all'

/** Names of inputs are those of the plan's own fields. Money stands at the last prices where that is asked and its year is known. */
const withUsual = (nodes: readonly FormNode[], kind: UsualKind, pricesOf: number | null): FormNode[] =>
  nodes.map((node) => {
    if (node.kind === 'group') {
      const children = withUsual(node.children, kind, pricesOf)
      const stands = kind.onlyWhenBegun?.includes(node.name) && children.every(isUntouched)
      return { ...node, children: stands ? children.map(alone) : children }
    }
    if (!canHold(node)) return node
    const usual = [...holdsFor(node, kind), ...figuresOf(node, kind, pricesOf)]
    return usual.length === 0 ? node : { ...node, usual }
  })

const canHold = (node: FormNode): node is FieldNode | FlagNode | MonthsNode =>
  node.kind === 'field' || node.kind === 'flag' || node.kind === 'months'

const figuresOf = (
  node: FieldNode | FlagNode | MonthsNode,
  kind: UsualKind,
  pricesOf: number | null,
): Suggestion[] =>
  (node.kind === 'flag' ? [] : kind.figures)
    .filter(({ field }) => field === node.name)
    .map((printed, place) => {
      const brought = pricesOf === null ? null : atPricesOf(printed, pricesOf)
      const figure = brought ?? printed
      return {
        taken: `${node.name}.${place}`,
        figure,
        source: usualSource(figure),
        broughtFrom: brought === null ? null : printed.dollarsYear!,
        types: node.kind === 'flag' ? [] : textsOf(node, figure.value),
      }
    })

const textsOf = (node: FieldNode | MonthsNode, value: UsualFigure['value']): Suggestion['types'] => {
  if (node.kind === 'field') return [[node.name, textOf(node.of, value)]]
  const { one, months } = stripTexts(value)
  return [[`${node.name}.one`, one], ...months.map((text, k) => [`${node.name}.m${k + 1}`, text] as const)]
}

/** The measure or the choice that the figures hold for, and in no other. */
const holdsFor = (node: FieldNode | FlagNode | MonthsNode, kind: UsualKind): Suggestion[] => {
  const { unit, yieldMeasure } = kind
  const chosen = kind.holdsFor?.[node.name]
  const measure = { unit, yieldMeasure }[node.name]
  const text = chosen ?? measure
  if (node.kind === 'months' || text === undefined) return []
  const holds =
    chosen !== undefined
      ? chosenWords(node, text)
      : node.name === 'unit'
        ? `by the ${text}`
        : `counted in ${text}`
  return [
    { taken: node.name, figure: null, source: null, holds, broughtFrom: null, types: [[node.name, text]] },
  ]
}

const chosenWords = (node: FieldNode | FlagNode, text: string): string =>
  node.kind === 'flag'
    ? 'for herds and flocks with this checked'
    : `for ${node.options.find(({ value }) => value === text)?.label.toLowerCase() ?? text}`

/** What taking one of them, or all, types. All: fields that are empty, and what the figures hold for. */
export const typedBy = (nodes: readonly FormNode[], taken: string): Suggestion['types'] =>
  nodes.flatMap((node): Suggestion['types'] => {
    if (node.kind === 'group') return typedBy(node.children, taken)
    if (!canHold(node) || !node.usual) return []
    const [first] = node.usual
    if (taken !== takeAll) return node.usual.find((one) => one.taken === taken)?.types ?? []
    if (first!.isAlone) return []
    return first!.figure === null || node.kind === 'flag' || isEmpty(node) ? first!.types : []
  })

const isUntouched = (node: FormNode): boolean =>
  node.kind === 'field' || node.kind === 'months' ? isEmpty(node) : true

const alone = (node: FormNode): FormNode =>
  canHold(node) && node.usual
    ? { ...node, usual: node.usual.map((one) => ({ ...one, isAlone: true })) }
    : node

/** Nothing is typed, or only what would hold if nothing were. */
const isEmpty = (node: FieldNode | MonthsNode): boolean => {
  const typed = node.kind === 'field' ? node.value : node.one
  const hasMonths = node.kind === 'months' && node.months.some((text) => text !== '')
  return !hasMonths && (typed === '' || typed === node.whenEmpty)
}
