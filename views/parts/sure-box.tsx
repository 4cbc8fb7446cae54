// The yes below a form that asks whether something can be so.
import { Checkbox, type FieldErrors } from './field.tsx'

/** The yes that a doubt asks for; nothing where none does. */
export const SureBox = ({ errors }: { errors: FieldErrors }) =>
  errors.sure === undefined ? null : (
    <Checkbox name="sure" label="Yes, it is so: save it" error={errors.sure} />
  )

/** The end of each question at a field that a person can answer with yes: asked once, and taken when the box below it is checked. */
const sureWords = 'If that is right, check the box'

export const askSure = (what: string): string => `${what} ${sureWords}`

/** The list of questions that were said yes to, each by its own words: a yes is for these amounts and days alone. */
export const sure = 'sure[]'

export const AskedBox = ({ id, error, yes }: { id: string; error: string | undefined; yes: string }) =>
  error?.endsWith(sureWords) ? (
    <div class="choice">
      <input type="checkbox" id={`${id}-sure`} name={sure} value={error} />
      <label for={`${id}-sure`}>{yes}</label>
    </div>
  ) : null
