// The box that a form shows once it was told that it changes a closed year.
import { Checkbox, type FieldErrors } from './field.tsx'

interface OverClosedProps {
  typed: { value(name: string): string }
  errors: FieldErrors
}

export const OverClosed = ({ typed, errors }: OverClosedProps) =>
  errors.overClosed || typed.value('overClosed') === 'yes' ? (
    <Checkbox
      name="overClosed"
      label="Change the closed year, and keep an amended copy of its pack"
      hint="The first copy stays, and the amended one is kept beside it."
      checked={typed.value('overClosed') === 'yes'}
      error={errors.overClosed}
    />
  ) : null
