// What is usually left as it is stands folded under its name until something is entered, wrong, or suggested in it.
import type { Child } from 'hono/jsx'
import { hasStandard } from '#plan/form/entered.ts'
import { type FormNode, within } from '#plan/form/nodes.ts'
import type { FieldErrors } from '../field.tsx'
import { Fold } from '../fold.tsx'

interface SeldomProps {
  nodes: readonly FormNode[]
  errors: FieldErrors
  name: string
  /** Drawn in a fold, which says the name, or by itself. */
  children: (isFolded: boolean) => Child
}

/** A closed fold is sent with the form like an open one. */
export const Seldom = ({ nodes, errors, name, children }: SeldomProps) => {
  const entered = nodes.map((node) => (node.kind === 'hidden' ? 0 : node.entered))
  if (entered.includes(undefined)) return <>{children(false)}</>
  const count = entered.reduce<number>((sum, one) => sum + one!, 0)
  const holds =
    count > 0 ? `${count} entered` : nodes.some(hasStandard) ? 'standard values' : 'nothing entered'
  return (
    <Fold
      name={name}
      holds={holds}
      isOpen={count > 0 || isWrong(nodes, errors) || within(nodes).some(hasUsual)}
    >
      {children(true)}
    </Fold>
  )
}

const isWrong = (nodes: readonly FormNode[], errors: FieldErrors): boolean =>
  Object.keys(errors).some((path) => nodes.some(({ name }) => path === name || path.startsWith(`${name}.`)))

const hasUsual = (node: FormNode): boolean => 'usual' in node && (node.usual?.length ?? 0) > 0

/** Within a fold it does not fold again. */
export const unfolded = (node: FormNode): FormNode => {
  if (node.kind === 'hidden') return node
  const { entered: _, ...rest } = node
  return rest
}
