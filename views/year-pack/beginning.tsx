// When a farm or venture began as a business, and what was paid before it: asked once.
import { DayField, fieldOf, MoneyField } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import type { InputForm } from './inputs-shape.ts'

interface BeginningProps {
  form: InputForm
  /** Begins a sentence's part: the farm, the business. */
  what: string
  /** What is no start-up cost, beside interest and taxes. */
  not: string
  /** What can make it begin. */
  like: string
}

export const Beginning = ({ form, what, not, like }: BeginningProps) => (
  <details
    open={['beganOn', 'startUpBefore'].some(
      (name) => form.typed.value(name) !== '' || form.errors[name] !== undefined,
    )}
  >
    <summary>When {what} began, and costs before</summary>
    <p>
      What was paid before {what} began is no expense of it: it counts as start-up costs, of which some is
      deducted in the year it begins, and the rest over fifteen years (26 USC 195). Interest, taxes, {not} are
      none of them.
    </p>
    <Caution askWhom="a licensed tax preparer">
      When a business begins depends on what was done, like {like}, and not on the first dollar alone.
    </Caution>
    <div class="field-row">
      <DayField
        {...fieldOf(form, 'beganOn')}
        label={`Day ${what} began as a business`}
        hint="The same for all years. Where it was before these books, enter that day or leave it empty"
      />
      <MoneyField {...fieldOf(form, 'startUpBefore')} label="Start-up costs of years before these books" />
    </div>
  </details>
)
