// One broken figure leaves its page standing: what throws while a view is rendered says so in its own place, and the rest is shown.
import { cloneElement, Fragment, isValidElement, type JSXNode } from 'hono/jsx'
import { type HtmlEscapedString, raw } from 'hono/utils/html'
import { BrokenPart } from '#views/parts/message.tsx'

/** What a view makes. */
export type Html = HtmlEscapedString | Promise<HtmlEscapedString>

/** The view as text. `onBroken` hears of every part that threw; what it throws itself ends the page. */
export const renderStanding = (view: () => Html, onBroken: (error: unknown) => void): Html => {
  const render = (node: unknown): string => {
    try {
      return textOf(node)
    } catch (error) {
      return renderPieces(node, render) ?? broken(error)
    }
  }
  const broken = (error: unknown): string => {
    onBroken(error)
    return textOf(<BrokenPart />)
  }
  const View = () => view()
  return raw(render(<View />))
}

/** A node taken apart into its pieces, each rendered by itself; null when it cannot stand without the piece that broke. */
const renderPieces = (node: unknown, render: (piece: unknown) => string): string | null => {
  if (Array.isArray(node)) return node.map(render).join('')
  if (!isValidElement(node)) return null
  if (typeof node.tag === 'function') {
    const made = resultOf(node)
    return made === null ? null : render(made.result)
  }
  const pieces = node.children.map(render)
  if (node.tag === '') return pieces.join('')
  if (!opensUp.has(node.tag)) return null
  return textOf(cloneElement(node, {}, ...pieces.map((text) => raw(text))))
}

/** Only between these may one child fail alone: a table without one of its cells would say something else. */
const opensUp = new Set(['div', 'main', 'section', 'article'])

const resultOf = ({ tag, props, children }: JSXNode): { result: unknown } | null => {
  const given =
    children.length === 0 ? props : { ...props, children: children.length === 1 ? children[0] : children }
  try {
    return { result: (tag as unknown as (props: object) => unknown)(given) }
  } catch {
    return null
  }
}

const textOf = (node: unknown): string => String(Fragment({ children: node as never }))
