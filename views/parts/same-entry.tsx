// The question where an entry is like one that the books have, and the box that answers it: one can buy the same twice in a day.
import { type Day, dayName } from '#calendar/day.ts'

interface TypedValues {
  value(name: string): string
}

/** What a form says at the day, until the box below it is ticked. */
export const sameEntryQuestion = (no: number, day: Day, payee: string): string =>
  `Entry ${no} ${isTheSame} ${dayName(day)}${payee === '' ? '' : `, with ${payee}`}. If this is another one, check the box; if not, leave it`

const isTheSame = 'has the same amount and account on'

/** The list of what was said yes to. */
export const sureAnother = 'sureAnother[]'

/** A yes is for this day, payee and account alone. */
export const sameEntryKey = (typed: TypedValues): string =>
  ['day', 'payee', 'fromAccount'].map((name) => typed.value(name).trim()).join(' ')

export const SameEntryBox = ({ typed, error }: { typed: TypedValues; error?: string | undefined }) =>
  error?.includes(isTheSame) ? (
    <div class="choice">
      <input type="checkbox" id="f-another-sure" name={sureAnother} value={sameEntryKey(typed)} />
      <label for="f-another-sure">Yes, another one</label>
    </div>
  ) : null
