// How many lines each function of a file has, components with their JSX too, which the linter does not count.
import { parseSync } from '@swc/core'

/** Lines that say something: neither blank nor a comment. */
export const functionLengths = (file: string, source: string): { name: string; lines: number }[] => {
  // The parser counts bytes on from one file to the next: a first token of our own says where this file begins.
  const bytes = Buffer.from(`;${source}`)
  const module = parseSync(bytes.toString(), { syntax: 'typescript', tsx: file.endsWith('.tsx') })
  const found: { name: string; lines: number }[] = []
  const walk = (node: unknown, name: string): void => {
    if (typeof node !== 'object' || node === null) return
    if (Array.isArray(node)) {
      for (const one of node) walk(one, name)
      return
    }
    const { type, span, id, identifier, key } = node as Node
    const own = (type === 'VariableDeclarator' ? id : (identifier ?? key))?.value ?? name
    if (span && functions.has(type ?? '')) {
      const text = bytes.subarray(span.start - module.span.start, span.end - module.span.start).toString()
      found.push({
        name: own,
        lines: text.split('\n').filter((line) => /\S/.test(line.replace(/^\s*(\/\/|\/?\*).*/, ''))).length,
      })
    }
    for (const inner of Object.values(node)) walk(inner, own)
  }
  walk(module.body, file)
  return found
}

interface Node {
  type?: string
  span?: { start: number; end: number }
  id?: { value?: string }
  identifier?: { value?: string } | null
  key?: { value?: string }
}

const functions = new Set([
  'FunctionDeclaration',
  'FunctionExpression',
  'ArrowFunctionExpression',
  'MethodProperty',
  'ClassMethod',
  'PrivateMethod',
  'Constructor',
])
