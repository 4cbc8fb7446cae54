// One sheet of a pack: whose it is, what it comes to, and how it is shown.
import type { Child } from 'hono/jsx'
import type { SideKind } from '../../parts/side.tsx'

export interface Sheet {
  /** Its own address within the pack, and the name of its table. */
  id: string
  /** Whose: a side, or all together. */
  of: string
  kind: SideKind | 'together'
  title: string
  /** What it comes to, and what that is. Worked out when it is shown. */
  total: () => { says: string; amount: string }
  /** `csv` is the address of its table. */
  show: (csv: string) => Child
}
