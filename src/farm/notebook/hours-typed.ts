// Hours as people type them: 1.5, 1:30, 1h 40, 1 h 40 min, 100 min, 2 hours.
import { parseQuantity } from '#money/parse.ts'

/** Whole minutes; null for what is no length of time. */
export const minutesTyped = (text: string): number | null => {
  const typed = text.trim().toLowerCase()
  const clock = /^(\d{1,2}):([0-5]\d)(?: ?(?:h|hrs?|hours?))?$/.exec(typed)
  if (clock) return Number(clock[1]) * 60 + Number(clock[2])
  const [, hours, minutes] =
    /^(?:(.+?) ?(?:h|hrs?|hours?)\.?)?(?:,? ?(\d+) ?(?:m|mins?|minutes?)?\.?)?$/.exec(typed) ?? []
  const isInWords = /[a-z]/.test(typed)
  if (!isInWords || (hours === undefined && minutes === undefined)) return hoursOf(typed)
  const whole = hours === undefined ? 0 : hoursOf(hours)
  // Minutes beside hours are a part of an hour: 1h 75 is a slip.
  if (whole === null || (hours !== undefined && Number(minutes ?? 0) > 59)) return null
  return whole + Number(minutes ?? 0)
}

const hoursOf = (text: string): number | null => {
  const read = parseQuantity(text)
  return read.ok ? Math.round(read.value * 60) : null
}
