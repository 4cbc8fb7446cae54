// The picture that organizes the books: a house and a barn with the yard line between them.
import type { Child } from 'hono/jsx'

export type SideKind = 'household' | 'farm' | 'venture'

export const sideClass = (kind: SideKind): string => (kind === 'household' ? 'side-house' : `side-${kind}`)

export const SideWord = ({ kind, children }: { kind: SideKind; children: Child }) => (
  <span class={`side-word ${sideClass(kind)}`}>{children}</span>
)

/** The outline over a side's box: a house gable, a barn, a work bench. */
export const SideRoof = ({ kind }: { kind: SideKind }) => (
  <svg class="side-roof" viewBox="0 0 72 32" aria-hidden="true" focusable="false">
    <path d={outlines[kind]} fill="none" stroke="currentColor" stroke-width="2.5" stroke-linejoin="round" />
  </svg>
)

const outlines: Record<SideKind, string> = {
  household: 'M4 30V16L20 3l16 13v14zM28 9V4h4v8M15 30V20h9v10',
  farm: 'M4 30V14l5-7 13-5 13 5 5 7v16zM15 30V18h14v12M15 18l14 12M29 18 15 30M46 30h22M48 30V20M57 30V20M66 30V20M46 24h22',
  venture: 'M4 14h44M8 14v16M44 14v16M14 14V6h12v8M32 14l6-10 4 3-5 7',
}

/** An arrow through a gate in the line; the words beside it say the way as well. */
export const GateArrow = ({ toRight }: { toRight: boolean }) => (
  <svg viewBox="0 0 48 16" aria-hidden="true" focusable="false" preserveAspectRatio="none">
    <path
      d={toRight ? 'M1 8h45M39 2l7 6-7 6' : 'M47 8H2M9 2 2 8l7 6'}
      fill="none"
      stroke="currentColor"
      stroke-width="2"
    />
  </svg>
)
