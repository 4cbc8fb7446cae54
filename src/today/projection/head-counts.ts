// Herds and flocks go on from the heads that were counted last, in place of those that the plan expected by then.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, monthText } from '#calendar/month.ts'
import type { Herd } from '#farm/herd/herd-document.ts'
import type { HeadMove } from '#farm/notebook/heads.ts'
import type { HeadClass } from '#farm/notebook/kinds.ts'

/** `tallies` oldest first. A herd whose breeding females were never counted stays as the plan has it. */
export const countedHerds = (herds: readonly Herd[], tallies: readonly HeadMove[]): Herd[] =>
  herds.map((herd) => {
    const own = tallies.filter(({ herdId, kind }) => herdId === herd.id && kind === 'counted')
    const females = own.findLast(({ headClass }) => headClass === 'females')
    if (!females) return herd
    const at = monthCounted(females.day)
    const alike = (headClass: HeadClass) =>
      own.findLast((one) => one.headClass === headClass && monthCounted(one.day) === at)?.count
    const [young, males] = [alike('young'), alike('males')]
    const count = {
      month: monthText(at),
      breedingFemales: females.count,
      ...(young === undefined ? {} : { young }),
      ...(males === undefined ? {} : { males }),
    }
    return { ...herd, counts: [...herd.counts.filter(({ month }) => month !== count.month), count] }
  })

const lastDayOfFirstHalf = 15

/** The month whose beginning lies nearer: a count stands as a month begins. */
const monthCounted = (day: Day): Month =>
  Number(day.slice(8)) <= lastDayOfFirstHalf ? monthOfDay(day) : addMonths(monthOfDay(day), 1)
