// The question where money moved would leave less than nothing in the account it comes from, and the box that answers it.
import { type Day, dayName } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { parseMoney } from '#money/parse.ts'

interface TypedValues {
  value(name: string): string
}

/** What a form says at the amount, until the box below it is ticked. */
export const overdrawQuestion = (account: string, day: Day, held: Cents, left: Cents): string =>
  `“${account}” holds ${formatCents(held)} on ${dayName(day)}, so that this ${leaves} ${formatCents(left)}. If it is right, check the box; if not, change it`

const leaves = 'would leave it at'

/** The list of what was said yes to. */
export const sureOverdraws = 'sureOverdraws[]'

/** A yes is for this account, day and amount alone. */
export const overdrawKey = (typed: TypedValues): string =>
  ['fromAccount', 'day', 'amount'].map((name) => typed.value(name).trim()).join(' ')

/** As pages write it, whatever commas it was typed with. */
const amountSaid = (text: string): string => {
  const read = parseMoney(text)
  return read.ok ? formatCents(read.value) : text.trim()
}

export const OverdrawBox = ({ typed, error }: { typed: TypedValues; error?: string | undefined }) =>
  error?.includes(leaves) ? (
    <div class="choice">
      <input type="checkbox" id="f-amount-sure" name={sureOverdraws} value={overdrawKey(typed)} />
      <label for="f-amount-sure">Yes, {amountSaid(typed.value('amount'))} is right</label>
    </div>
  ) : null
