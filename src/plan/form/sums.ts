// Figures worked out from the fields of a form while they are typed, and shown beside them: what one unit leaves in a year, and an hour of it.
import { parseQuantity } from '#money/parse.ts'
import type { FormNode } from './nodes.ts'

/** (Terms, each added or taken off) × `times` ÷ `per`: names of fields; of months their year's total counts. */
export interface FormSum {
  label: string
  /** Heading of the fields beside which it stands. */
  under: string
  plus: readonly string[]
  minus: readonly string[]
  times?: string
  per?: string
}

/** Dollars; null where a field holds no figure, or nothing to divide by. */
export const formSum = (nodes: readonly FormNode[], { plus, minus, times, per }: FormSum): number | null => {
  const of = (names: readonly string[]) =>
    names.reduce<number | null>((sum, name) => {
      const value = figureOf(nodes, name)
      return sum === null || value === null ? null : sum + value
    }, 0)
  const [added, taken] = [of(plus), of(minus)]
  const [factor, divisor] = [
    times === undefined ? 1 : figureOf(nodes, times),
    per === undefined ? 1 : figureOf(nodes, per),
  ]
  if (added === null || taken === null || factor === null || !divisor) return null
  return ((added - taken) * factor) / divisor
}

const figureOf = (nodes: readonly FormNode[], name: string): number | null => {
  const node = nodes.find((one) => one.name === name)
  if (node?.kind === 'months') {
    const isEmpty = node.one === '' && node.months.every((text) => text === '')
    return isEmpty ? figureIn(node.whenEmpty) : node.total
  }
  return node?.kind === 'field' ? figureIn(node.value === '' ? node.whenEmpty : node.value) : null
}

const figureIn = (text: string): number | null => {
  const read = parseQuantity(text === '' ? '0' : text)
  return read.ok ? read.value : null
}
