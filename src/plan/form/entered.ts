// What somebody entered in a part of a form: how it differs from the same part as it opens in a new plan.
import type { FormNode } from './nodes.ts'

/** How many things hold something else than in `untouched`: each row of a list and each strip of months counts as one, whatever it holds. */
export const countEntered = (node: FormNode, untouched: FormNode): number => {
  const [now, before] = [textsOf(node), textsOf(untouched)]
  return [...new Set([...now.keys(), ...before.keys()])].filter(
    (name) => (now.get(name) ?? '') !== (before.get(name) ?? ''),
  ).length
}

/** What each of them comes to, by its name: an empty one holds its default. */
const textsOf = (node: FormNode): Map<string, string> => new Map(pairsOf(node))

const pairsOf = (node: FormNode): (readonly [string, string])[] => {
  switch (node.kind) {
    case 'hidden':
    case 'page':
      return []
    case 'field':
      return [[node.name, node.value || node.whenEmpty]]
    case 'flag':
      return [[node.name, node.checked ? 'yes' : '']]
    case 'ticks':
      return [[node.name, node.chosen.join()]]
    case 'months': {
      const isOne = node.months.every((text) => text === '')
      return [[node.name, isOne ? node.one || node.whenEmpty : JSON.stringify([node.one, ...node.months])]]
    }
    case 'list':
      return node.rows.map((row, k) => rowPair(row, `${node.name}.${k}`))
    case 'group':
      return node.children.flatMap(pairsOf)
    case 'variants':
      return [[node.name, node.value], ...node.children.flatMap(pairsOf)]
  }
}

/** One pair a row: all that stands in it. A row in which nothing stands yet was added all the same: it holds no figure. */
const rowPair = (row: readonly FormNode[], name: string): readonly [string, string] => {
  const texts = row.flatMap(pairsOf)
  return [name, texts.some(([, text]) => text !== '') ? JSON.stringify(texts) : '0']
}

/** Whether an input of the part has a standard value of its own, which holds while nothing is entered. */
export const hasStandard = (node: FormNode): boolean =>
  pairsOf(node).some(([, text]) => !['', '0'].includes(text))
