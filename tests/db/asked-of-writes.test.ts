// What a write is remembered by holds all that was asked of it: with a part left out, other content under the same form id would be taken
// for the same form, and be lost without a word.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseSync } from '@swc/core'
import { expect, test } from 'vitest'

const root = new URL('../../src/db/', import.meta.url).pathname

/** Found by the program when it writes, or how it is done: not what the person asked. */
const notAsked = new Set([
  ...['books', 'act', 'today', 'later', 'first', 'options', 'part', 'saying', 'folder', 'bytes', 'sheets'],
  // The write itself, of doorways to `once`.
  ...['kind', 'write'],
])

/** Remembered under another name, put in order before. */
const inOtherWords: Readonly<Record<string, string>> = { save: 'asked', request: 'body' }

interface Node {
  type?: string
  value?: unknown
  params?: Node[]
  pat?: Node
  left?: Node
  properties?: Node[]
  key?: Node
  callee?: Node
  arguments?: { expression: Node }[]
}

const nodesIn = (node: unknown): Node[] =>
  typeof node !== 'object' || node === null
    ? []
    : Array.isArray(node)
      ? node.flatMap(nodesIn)
      : [node as Node, ...Object.values(node).flatMap(nodesIn)]

const namesIn = (node: unknown): string[] =>
  nodesIn(node).flatMap(({ type, value }) => (type === 'Identifier' ? [String(value)] : []))

/** Names that a parameter brings in: its own, or those that it is taken apart into; not those of its type, nor of what stands in for it. */
const boundIn = (param: Node): string[] => {
  if (param.pat ?? param.left) return boundIn((param.pat ?? param.left)!)
  if (param.type === 'Identifier') return [String(param.value)]
  return (param.properties ?? []).flatMap((one) =>
    one.type === 'KeyValuePatternProperty' ? boundIn(one.value as Node) : [String(one.key?.value ?? '')],
  )
}

const remembers = (body: unknown, name: string): boolean =>
  namesIn(body).some((one) => one === name || one === inOtherWords[name])

/** Each function that writes by `once`: the kind of write, its parameters, and the names in what it is remembered by. */
const writesIn = (source: string) =>
  nodesIn(parseSync(source, { syntax: 'typescript' }).body).flatMap((node) => {
    if (!/^(ArrowFunctionExpression|FunctionDeclaration)$/.test(node.type ?? '') || !node.params?.length)
      return []
    const calls = nodesIn(node).filter(
      ({ type, callee }) =>
        type === 'CallExpression' && callee?.type === 'Identifier' && callee.value === 'once',
    )
    const bound = node.params.flatMap(boundIn)
    return calls.map(({ arguments: given = [] }) => ({
      kind: String(given[2]!.expression.value),
      missing: bound.filter((name) => !notAsked.has(name) && !remembers(given[3], name)),
    }))
  })

test('every write is remembered by all that was asked of it', () => {
  const writes = readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && name !== 'once.ts')
    .flatMap((name) => writesIn(readFileSync(join(root, name), 'utf8')))
  expect(writes.length).toBeGreaterThan(50)
  expect(writes.filter(({ missing }) => missing.length > 0)).toEqual([])
})

test('a part left out is found', () => {
  const source = (remembered: string) =>
    `export const mend = (books: Books, act: Act, day: Day, { posts, rails }: Fence): Outcome<{ no: number }> =>
      once(books, act, 'fence.mend', ${remembered}, () => ({ ok: true, result: { no: posts + rails } }))`
  expect(writesIn(source('{ day, posts, rails }'))).toEqual([{ kind: 'fence.mend', missing: [] }])
  expect(writesIn(source('{ day, posts }'))).toEqual([{ kind: 'fence.mend', missing: ['rails'] }])
})
