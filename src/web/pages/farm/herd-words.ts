// The form of a herd in the words of its kind, once that is chosen, with what holds for that kind where a rate is left empty.
import { type HerdKind, type HerdRates, herdKinds, isBird } from '#farm/herd/herd-document.ts'
import { defaultHerdRates } from '#farm/herd/herd-rates.ts'
import { inSpecies } from '#farm/herd/species-words.ts'
import type { FormNode } from '#plan/form/nodes.ts'
import type { FieldKind } from '#plan/form/shape.ts'
import { textOf } from '#plan/form/texts.ts'

export const herdWords = (nodes: FormNode[]): FormNode[] => {
  const chosen = nodes.find((node) => node.kind === 'field' && node.name === 'kind')
  const kind = herdKinds.find((one) => chosen?.kind === 'field' && one === chosen.value)
  return kind ? said(nodes, kind) : nodes
}

const said = (nodes: readonly FormNode[], kind: HerdKind): FormNode[] =>
  nodes.map((node): FormNode => {
    if (node.kind === 'hidden') return node
    const hint = node.kind === 'field' ? withUsual(node, kind) : node.hint
    const words = { label: inSpecies(node.label, kind), hint: inSpecies(hint, kind) }
    if (node.kind === 'group') return { ...node, ...words, children: said(node.children, kind) }
    if (node.kind === 'list') return { ...node, ...words, rows: node.rows.map((row) => said(row, kind)) }
    return { ...node, ...words }
  })

/** The hint with the rate that is common practice for the kind; where the kind has none the hint says itself what holds. */
const withUsual = (
  { name, hint, of }: { name: string; hint: string; of: FieldKind },
  kind: HerdKind,
): string => {
  const [, rate] = /^rates\.(.+)$/.exec(name) ?? []
  const usual = defaultHerdRates[kind][rate as keyof HerdRates]
  if (usual === undefined) return hint
  const value = `${textOf(of, usual) || 'none'}${of === 'percent' ? '%' : ''}`
  const as = isBird(kind) && kind !== 'layers' ? ', as for hens' : ''
  const or = rate === 'saleAgeMonths' ? ', or their age in months of sale that come before it' : ''
  return [hint.replace(/\.? ?Empty: .*$/, ''), `Empty: ${value}${as}${or}`]
    .filter((part) => part !== '')
    .join('. ')
}
