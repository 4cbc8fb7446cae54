// The parts of a form in their order: what has no heading first, then what stands under each.
import type { FormNode } from './nodes.ts'

export const sectionsOf = (nodes: readonly FormNode[]): Section[] => {
  const isLoose = (node: FormNode) =>
    headingOf(node) === '' && ['hidden', 'field', 'flag'].includes(node.kind)
  const sections: Section[] = []
  for (const node of nodes.filter((one) => !isLoose(one))) {
    const under = headingOf(node)
    const section = under === '' ? undefined : sections.find((one) => one.under === under)
    if (section) section.own.push(node)
    else sections.push({ under, own: [node] })
  }
  return [{ under: '', own: nodes.filter(isLoose) }, ...sections]
}

/** `under` is empty for what has no heading: loose fields together, anything larger by itself. */
export interface Section {
  under: string
  own: FormNode[]
}

const headingOf = (node: FormNode): string => (node.kind === 'hidden' ? '' : node.under)
