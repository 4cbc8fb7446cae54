// A part that stands closed under its name and what it holds.
import type { Child } from 'hono/jsx'

interface FoldProps {
  id?: string
  name: Child
  /** At the right: a sum or a count. A fold says what it hides. */
  holds: string
  isOpen?: boolean
  children: Child
}

export const Fold = ({ id, name, holds, isOpen = false, children }: FoldProps) => (
  <details class="fold" id={id} open={isOpen}>
    <summary>
      <span class="fold-name">{name}</span>
      <span class="fold-holds">{holds}</span>
    </summary>
    {children}
  </details>
)
