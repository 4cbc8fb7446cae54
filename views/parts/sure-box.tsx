// The yes below a form that asks whether something can be so.
import { Checkbox, type FieldErrors } from './field.tsx'

/** The yes that a doubt asks for; nothing where none does. */
export const SureBox = ({ errors }: { errors: FieldErrors }) =>
  errors.sure === undefined ? null : (
    <Checkbox name="sure" label="Yes, it is so: save it" error={errors.sure} />
  )
