// How a kind of coverage is called on pages.
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'

export const coverageWords: Record<CoverageKind, string> = {
  absent: 'not at home',
  none: 'nothing in the plan',
  'other plan': 'another plan',
  marketplace: 'marketplace',
  Medicaid: 'Medicaid',
  'children’s program': 'children’s program (CHIP)',
  'basic health program': 'basic health program',
  Medicare: 'Medicare',
}
