// The plan's forms, made from its schema: what to ask, under which name, in which unit, and what stands in each field.
import type { Named } from '#farm/field-words.ts'
import { countEntered } from './entered.ts'
import { isStripEmpty, stripTexts, stripTotal, typedStrip } from './month-strip.ts'
import type { FieldNode, FormNode, FormPart, Option } from './nodes.ts'
import {
  asRecord,
  drawnFieldsOf,
  eachKey,
  type FieldKind,
  kindOf,
  labelOf,
  nameBelow,
  rowKey,
  type Shape,
  shapeAt,
  variantOf,
  variantsOf,
} from './shape.ts'
import { signedNodes } from './signed.ts'
import { textOf } from './texts.ts'

/** What the plan has of each kind of thing that fields can name. */
export type Pointers = Readonly<Record<Named, readonly { id: string; name: string }[]>>

/** The form of a part over its value in the plan. */
export const drawForm = (part: FormPart, value: unknown, pointers: Pointers): FormNode[] =>
  draw(part, value, { pointers, typed: false })

/** The form over what was typed, to show again. */
export const redrawForm = (part: FormPart, typed: unknown, pointers: Pointers): FormNode[] =>
  draw(part, typed, { pointers, typed: true })

interface Making {
  pointers: Pointers
  typed: boolean
}

const draw = (part: FormPart, value: unknown, making: Making): FormNode[] => {
  const shape = shapeAt(part.path)
  const key = String(part.path.at(-1) ?? '')
  return variantsOf(shape)
    ? [nodeOf(shape, part.name, key, value, making)]
    : childrenOf(shape, part.name, value, making, part.only)
}

/** What is usually left as it is says how much of it was entered. */
const nodeOf = (shape: Shape, name: string, key: string, value: unknown, making: Making): FormNode => {
  const node = plainNode(shape, name, key, value, making)
  if (!shape.seldom || node.kind === 'hidden') return node
  const untouched = plainNode(shape, name, key, shape.default, { ...making, typed: false })
  return { ...node, entered: countEntered(node, untouched) }
}

const plainNode = (shape: Shape, name: string, key: string, value: unknown, making: Making): FormNode => {
  const named = { name, label: labelOf(shape, key), hint: shape.description ?? '', under: shape.group ?? '' }
  const kind = kindOf(shape)
  switch (kind) {
    case 'page':
      return { ...named, kind, page: shape.page!, of: '', entries: Array.isArray(value) ? value.length : 0 }
    case 'variants':
      return { ...named, ...variantParts(shape, name, value, making) }
    case 'group':
      return { ...named, kind, children: childrenOf(shape, name, value, making) }
    case 'months':
      return { ...named, kind, ...monthParts(shape, value, making) }
    case 'flag':
      return { ...named, kind, checked: value === true || value === 'yes' }
    case 'ticks':
      return { ...named, kind, ...tickParts(shape, value, making) }
    case 'rows':
      return { ...named, kind: 'list', isFixed: false, rows: rowsOf(shape.items!, name, value, making) }
    case 'each':
      return { ...named, kind: 'list', isFixed: true, rows: eachRows(shape.items!, name, value, making) }
    case 'weights':
      return {
        ...named,
        kind: 'list',
        isFixed: shape.names !== undefined,
        rows: weightRows(shape, name, value, making),
      }
    default:
      return { ...named, ...fieldParts(shape, kind, named.label, value, making) }
  }
}

const childrenOf = (
  shape: Shape,
  name: string,
  value: unknown,
  making: Making,
  only?: readonly string[],
): FormNode[] => {
  const holder = asRecord(value)
  const id = typeof holder.id === 'string' ? holder.id : ''
  return drawnFieldsOf(shape, only).flatMap(([key, field]): FormNode[] => {
    const below = nameBelow(name, key)
    if (key === 'id') return id === '' ? [] : [{ kind: 'hidden', name: below, value: id }]
    const node = nodeOf(field, below, key, holder[key] ?? (making.typed ? undefined : field.default), making)
    if (field.belowZero !== undefined && node.kind === 'field')
      return signedNodes(field, key, node, holder, making.typed)
    return [node.kind === 'page' ? { ...node, of: id } : node]
  })
}

const variantParts = (shape: Shape, name: string, value: unknown, making: Making) => {
  const variants = variantsOf(shape)!
  const { told, shape: chosen } = variantOf(variants, value)
  return {
    kind: 'variants' as const,
    name: nameBelow(name, variants.key),
    value: told,
    options: [...variants.by].map(([kind, { title = '' }]) => ({ value: kind, label: title })),
    ...(chosen.description === undefined ? {} : { hint: chosen.description }),
    children: childrenOf(chosen, name, value, making),
  }
}

const monthParts = (shape: Shape, value: unknown, making: Making) => {
  const texts = making.typed ? typedStrip(value) : stripTexts(value)
  const isEachMonth = shape.months === 'each month'
  const whenEmpty = stripTexts(shape.default).one
  return {
    ...texts,
    whenEmpty,
    isEachMonth,
    total: isStripEmpty(texts) ? null : stripTotal(texts, isEachMonth),
  }
}

const tickParts = (shape: Shape, value: unknown, { pointers }: Making) => {
  const chosen = (Array.isArray(value) ? value : []).filter(
    (one): one is string => typeof one === 'string' && one !== '',
  )
  return { chosen, options: withChosen(asOptions(pointers[shape.items!.names!]), chosen) }
}

/** Rows with the field that says which saved row each was: its short name, or its place. */
const rowsOf = (items: Shape, name: string, value: unknown, making: Making): FormNode[][] =>
  (Array.isArray(value) ? value : []).map((row, place) => {
    const at = `${name}.${place}`
    const was = making.typed ? String(asRecord(row)._row ?? '') : String(place)
    const hidden: FormNode[] =
      rowKey(items) === '_row' && was !== '' ? [{ kind: 'hidden', name: `${at}._row`, value: was }] : []
    return [...hidden, ...childrenOf(items, at, row, making)]
  })

/** A row for each of the plan's people, markets and so on: those that have a value first, in their order; others are empty. */
const eachRows = (items: Shape, name: string, value: unknown, making: Making): FormNode[][] => {
  const key = eachKey(items)!
  const known = making.pointers[items.properties![key]!.names!]
  const rows: unknown[] = Array.isArray(value) ? value : []
  const had = rows.map((row) => String(asRecord(row)[key] ?? ''))
  const missing = known.map(({ id }) => id).filter((id) => !had.includes(id))
  const drawn = [
    ...rowsOf(items, name, rows, making),
    ...missing.map((_, k) => childrenOf(items, `${name}.${rows.length + k}`, {}, { ...making, typed: true })),
  ]
  return drawn.map((nodes, place) => {
    const id = [...had, ...missing][place]!
    const label = known.find((one) => one.id === id)?.name ?? id
    return nodes.map((node): FormNode => {
      if (node.kind === 'hidden') return node
      if (node.name === `${name}.${place}.${key}`) return { kind: 'hidden', name: node.name, value: id }
      // An empty row is left out of the plan: no default holds in it.
      return 'whenEmpty' in node ? { ...node, label, whenEmpty: '' } : { ...node, label }
    })
  })
}

const weightRows = (shape: Shape, name: string, value: unknown, making: Making): FormNode[][] => {
  const typed = Array.isArray(value) ? value.map(asRecord) : []
  const had = making.typed
    ? typed.map((row) => ({ key: String(row.key ?? ''), value: row.value }))
    : Object.entries(asRecord(value)).map(([key, weight]) => ({ key, value: weight }))
  const known = shape.names === undefined ? [] : making.pointers[shape.names]
  const missing = known.filter(({ id }) => !had.some(({ key }) => key === id)).map(({ id }) => ({ key: id }))
  const weight = shape.additionalProperties as Shape
  return [...had, ...missing].map((row, place) => {
    const [keyName, valueName] = [`${name}.${place}.key`, `${name}.${place}.value`]
    const valueNode = nodeOf(weight, valueName, 'weight', 'value' in row ? row.value : undefined, making)
    if (shape.names === undefined)
      return [nodeOf(shape.propertyNames ?? {}, keyName, 'name', row.key, making), valueNode]
    const label = known.find(({ id }) => id === row.key)?.name ?? row.key
    return [{ kind: 'hidden' as const, name: keyName, value: row.key }, { ...valueNode, label } as FormNode]
  })
}

const fieldParts = (shape: Shape, of: FieldKind, label: string, value: unknown, making: Making) => {
  const text = making.typed && typeof value === 'string' ? value : textOf(of, value)
  const options = of === 'choice' ? withChosen(optionsOf(shape, making.pointers), [text]) : []
  return {
    kind: 'field',
    of,
    label: unitLabel(shape, label, of),
    value: text,
    whenEmpty: textOf(of, shape.default),
    options,
    optional: shape.default === undefined,
  } satisfies Partial<FieldNode>
}

const optionsOf = (shape: Shape, pointers: Pointers): Option[] =>
  shape.names
    ? asOptions(pointers[shape.names])
    : (shape.enum ?? []).map((value) => ({ value, label: shape.labels?.[value] ?? value }))

const asOptions = (things: readonly { id: string; name: string }[]): Option[] =>
  things.map(({ id, name }) => ({ value: id, label: name }))

/** What is chosen stands among the choices even when the plan has it no more: else a browser would choose another. */
const withChosen = (options: readonly Option[], chosen: readonly string[]): Option[] => [
  ...options,
  ...[...new Set(chosen)]
    .filter((value) => value !== '' && !options.some((one) => one.value === value))
    .map((value) => ({ value, label: value })),
]

const unitLabel = (shape: Shape, label: string, of: FieldKind): string => {
  if (of === 'percents') return `${label}, percent`
  if (of === 'percent') return shape.unit === 'rate a year' ? `${label}, percent a year` : `${label}, percent`
  // The dollar sign stands before the field; per what it is has to be said.
  const [, per] = /^dollars a (month|year)$/.exec(shape.unit ?? '') ?? []
  const unit = of === 'money' ? (per === undefined ? undefined : `a ${per}`) : shape.unit
  const isSaid = unit === undefined || label.toLowerCase().includes(per ?? unit)
  return isSaid || (of !== 'number' && of !== 'money') ? label : `${label}, ${unit}`
}
