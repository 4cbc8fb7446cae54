// How many courses are drawn and from which seed: folded away until something in it is wrong.
import { type FieldErrors, QuantityField } from '../parts/field.tsx'

export interface DrawsChoiceProps {
  /** Text as typed. */
  choices: { paths: string; seed: string }
  errors: FieldErrors
  mostPaths: string
}

export const DrawsChoice = ({ choices, errors, mostPaths }: DrawsChoiceProps) => (
  <details open={errors.paths !== undefined || errors.seed !== undefined}>
    <summary>How many courses, and from which seed</summary>
    <QuantityField
      name="paths"
      label="Drawn courses"
      hint={`50 to ${mostPaths}; more take longer and stray less`}
      value={choices.paths}
      error={errors.paths}
    />
    <QuantityField
      name="seed"
      label="Seed"
      hint="The same seed draws the same courses"
      value={choices.seed}
      error={errors.seed}
    />
  </details>
)
