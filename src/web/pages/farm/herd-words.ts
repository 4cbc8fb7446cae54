// The form of a herd in the words of its kind, once that is chosen.
import { type HerdKind, herdKinds } from '#farm/herd/herd-document.ts'
import { inSpecies } from '#farm/herd/species-words.ts'
import type { FormNode } from '#plan/form/nodes.ts'

export const herdWords = (nodes: FormNode[]): FormNode[] => {
  const chosen = nodes.find((node) => node.kind === 'field' && node.name === 'kind')
  const kind = herdKinds.find((one) => chosen?.kind === 'field' && one === chosen.value)
  return kind ? said(nodes, kind) : nodes
}

const said = (nodes: readonly FormNode[], kind: HerdKind): FormNode[] =>
  nodes.map((node): FormNode => {
    if (node.kind === 'hidden') return node
    const words = { label: inSpecies(node.label, kind), hint: inSpecies(node.hint, kind) }
    if (node.kind === 'group') return { ...node, ...words, children: said(node.children, kind) }
    if (node.kind === 'list') return { ...node, ...words, rows: node.rows.map((row) => said(row, kind)) }
    return { ...node, ...words }
  })
