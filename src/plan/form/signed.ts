// An amount whose sign says which of two things it is: a form asks which, and takes the amount alone.
import type { FieldNode } from './nodes.ts'
import { asRecord, type Shape } from './shape.ts'

const wayOf = (key: string): string => `${key}Way`

/** The choice, and the amount as `node` has it; what was typed stands as it was. */
export const signedNodes = (
  { title = '', belowZero = '' }: Shape,
  key: string,
  node: FieldNode,
  holder: Readonly<Record<string, unknown>>,
  typed: boolean,
): FieldNode[] => {
  const isBelow = node.value.startsWith('-')
  const said = typed ? holder[wayOf(key)] : undefined
  return [
    {
      kind: 'field',
      of: 'choice',
      name: `${node.name.slice(0, -key.length)}${wayOf(key)}`,
      label: `${title} or ${belowZero.toLowerCase()}`,
      hint: '',
      under: node.under,
      value: typeof said === 'string' && said !== '' ? said : isBelow ? 'below' : 'above',
      whenEmpty: 'above',
      options: [
        { value: 'above', label: title },
        { value: 'below', label: belowZero },
      ],
      optional: false,
    },
    { ...node, label: 'Amount', value: typed || !isBelow ? node.value : node.value.slice(1) },
  ]
}

/** What was typed of a field, with the sign that the choice beside it gives. */
export const signedText = (shape: Shape, key: string, typed: unknown): unknown => {
  const holder = asRecord(typed)
  const text = holder[key]
  if (shape.belowZero === undefined || typeof text !== 'string' || holder[wayOf(key)] !== 'below') return text
  return /^\s*([-\u2212]|$)/.test(text) ? text : `-${text.trim()}`
}
