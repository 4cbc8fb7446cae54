// The question at a day or month that lies far from today, and the box that answers it. Without script too: it comes with the form shown again.
import { dayName, parseDay } from '#calendar/day.ts'
import { monthName, parseMonth } from '#calendar/month.ts'

/** What a form says at the field, until the box below it is ticked. */
export const farDayQuestion = (text: string): string =>
  `${inWords(text)} is far from today. If it is right, check the box; if not, change it`

const isFarDayQuestion = (error: string | undefined): boolean =>
  error?.includes(' is far from today. If it is right,') ?? false

/** A day or a month as a field has it, by its name. */
const inWords = (text: string): string => {
  const day = parseDay(text)
  const month = parseMonth(text)
  return day ? dayName(day) : month === null ? text : monthName(month)
}

/** The list of days that were ticked. */
export const sureDays = 'sureDays[]'

export const FarDayBox = ({
  id,
  value,
  error,
}: {
  id: string
  value?: string | undefined
  error?: string | undefined
}) =>
  isFarDayQuestion(error) && value ? (
    <div class="choice">
      <input type="checkbox" id={id} name={sureDays} value={value.trim()} />
      <label for={id}>Yes, {inWords(value.trim())} is right</label>
    </div>
  ) : null
