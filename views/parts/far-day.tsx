// The question at a day or month that lies far from today, and the box that answers it. Without script too: it comes with the form shown again.
/** What a form says at the field, until the box below it is ticked. */
export const farDayQuestion = (text: string): string =>
  `${text} is far from today. If it is right, check the box; if not, change it`

const isFarDayQuestion = (error: string | undefined): boolean =>
  error !== undefined && /^\d{4}-\d\d(-\d\d)? is far from today\./.test(error)

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
      <label for={id}>Yes, {value.trim()} is right</label>
    </div>
  ) : null
