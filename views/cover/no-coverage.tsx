// What may follow where the plan says “no coverage”: it lists nothing there, which does not mean that there is nothing to be had.
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'

export interface FullCost {
  state: string
  source: string
}

interface NoCoverageProps {
  /** All kinds that are told beside it. */
  kinds: readonly CoverageKind[]
  fullCost: FullCost | null
}

export const NoCoverage = ({ kinds, fullCost }: NoCoverageProps) =>
  kinds.includes('none') ? (
    <p class="figure-note">
      “No coverage” means that the plan lists none. The marketplace covers anyone, children too, with the
      credit or at the full premium: check them under <a href="/cover/marketplace">Premiums</a>.
      {fullCost === null
        ? ''
        : ` ${fullCost.state} also sells its children’s program at full cost to families above the limit: ask the agency for the price. Source: ${fullCost.source}.`}
    </p>
  ) : null
