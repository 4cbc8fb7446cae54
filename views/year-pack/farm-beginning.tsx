// When the farm began as a business, and what was paid before it: asked once.
import { DayField, fieldOf, MoneyField } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import type { InputForm } from './inputs-shape.ts'

export const Beginning = ({ form }: { form: InputForm }) => (
  <details
    open={['beganOn', 'startUpBefore'].some(
      (name) => form.typed.value(name) !== '' || form.errors[name] !== undefined,
    )}
  >
    <summary>When the farm began, and costs before</summary>
    <p>
      What was paid before the farm began as a business is no farm expense: it counts as start-up costs, of
      which some is deducted in the year it begins, and the rest over fifteen years (26 USC 195). Interest,
      taxes, land, stock and machines are none of them.
    </p>
    <Caution askWhom="a licensed tax preparer">
      When a farm begins depends on what was done, like the first planting or stock for sale, and not on the
      first dollar alone.
    </Caution>
    <div class="field-row">
      <DayField
        {...fieldOf(form, 'beganOn')}
        label="Day the farm began as a business"
        hint="The same for all years. Where it was before these books, enter that day or leave it empty"
      />
      <MoneyField {...fieldOf(form, 'startUpBefore')} label="Start-up costs of years before these books" />
    </div>
  </details>
)
