// How many simulations are run and from which seed: folded away until something in it is wrong.
import { type FieldErrors, QuantityField } from '../parts/field.tsx'

export interface DrawsChoiceProps {
  /** Text as typed. */
  choices: { paths: string; seed: string }
  errors: FieldErrors
  mostPaths: string
}

export const DrawsChoice = ({ choices, errors, mostPaths }: DrawsChoiceProps) => (
  <details open={errors.paths !== undefined || errors.seed !== undefined}>
    <summary>Number of simulations and seed</summary>
    <QuantityField
      name="paths"
      label="Simulations"
      hint={`50 to ${mostPaths}; more is slower and more precise`}
      value={choices.paths}
      error={errors.paths}
    />
    <QuantityField
      name="seed"
      label="Seed"
      hint="The same seed gives the same simulations"
      value={choices.seed}
      error={errors.seed}
    />
  </details>
)
