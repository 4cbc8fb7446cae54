// What the notebook says of a herd's heads today, and which of those kept to breed the plan lets join it next.
import type { Day } from '#calendar/day.ts'
import { type Month, monthText } from '#calendar/month.ts'
import type { HerdMonths } from '#farm/herd/herd-months.ts'
import { countedLast, type HeadMove, headsOn } from '#farm/notebook/heads.ts'
import { monthCounted } from '#today/projection/head-counts.ts'
import type { HerdFigures } from './figures.ts'

/** Null where nothing was noted of it. `startMonth`: the month that the plan goes on in, where the books end. */
export const herdNoted = (
  moves: readonly HeadMove[],
  herdId: string,
  today: Day,
  startMonth: Month,
): HerdFigures['noted'] => {
  const heads = headsOn(moves, herdId, today)
  if (heads === null) return null
  const own = moves.filter((one) => one.herdId === herdId && one.day <= today)
  const females = own.filter(({ kind, headClass }) => kind === 'counted' && headClass === 'females')
  return {
    heads,
    countedOn: countedLast(own, herdId),
    isOfPlan: females.length > 0,
    plansFrom:
      females.length > 0 && females.every(({ day }) => monthCounted(day) > startMonth + 1)
        ? monthText(startMonth)
        : null,
  }
}

/** The first heads that join from a month on; null where none do in the months looked at. */
export const joiningNext = ({ firstMonth, joined }: HerdMonths, from: Month): HerdFigures['joinNext'] => {
  const at = joined.findIndex((heads, m) => firstMonth + m >= from && heads >= least)
  return at < 0 ? null : { month: monthText((firstMonth + at) as Month), heads: joined[at]! }
}

/** Heads are expected ones: less than this is said as none. */
const least = 0.05
