// The words that stand in a module as texts: strings, templates and what JSX writes out. Addresses, names of parts and comments are not texts.
import { parseSync } from '@swc/core'

export interface WrittenText {
  /** Line of the file, from 1. */
  line: number
  text: string
}

/** A text that a person may read: it has a space in it, or begins with a capital letter. */
export const writtenTexts = (file: string, source: string): WrittenText[] => {
  // The parser counts bytes on from one file to the next: a first token of our own says where this file begins.
  const bytes = Buffer.from(`;${source}`)
  const module = parseSync(bytes.toString(), { syntax: 'typescript', tsx: file.endsWith('.tsx') })
  const found: WrittenText[] = []
  const walk = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return
    if (Array.isArray(node)) {
      for (const one of node) walk(one)
      return
    }
    const { type, span } = node as { type?: string; span?: { start: number } }
    if (type === 'ImportDeclaration' || (type?.startsWith('Export') && 'source' in node && node.source))
      return
    const raw = type === undefined ? undefined : textOf[type]?.(node as Record<string, unknown>)
    const text = raw?.replaceAll(/\s+/g, ' ').trim() ?? ''
    if (span && /^[A-Z]|\S \S/.test(text)) {
      const before = bytes.subarray(1, span.start - module.span.start)
      found.push({ line: before.toString().split('\n').length, text })
    }
    for (const value of Object.values(node)) walk(value)
  }
  walk(module.body)
  return found
}

const textOf: Readonly<Record<string, (node: Record<string, unknown>) => string>> = {
  StringLiteral: ({ value }) => String(value),
  TemplateElement: ({ cooked }) => String(cooked),
  JSXText: ({ value }) => String(value),
}
