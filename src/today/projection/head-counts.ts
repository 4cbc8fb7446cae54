// Herds and flocks go on from the heads that were counted last, in place of those that the plan expected by then.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, monthText } from '#calendar/month.ts'
import type { HeadCount } from '#db/notebook/counted-heads.ts'
import type { Herd } from '#farm/herd/herd-document.ts'
import type { HeadClass } from '#farm/notebook/kinds.ts'

/** `headCounts` oldest first. A herd whose breeding females were never counted stays as the plan has it. */
export const countedHerds = (herds: readonly Herd[], headCounts: readonly HeadCount[]): Herd[] =>
  herds.map((herd) => {
    const own = headCounts.filter((one) => one.herd === herd.id)
    const females = own.findLast(({ kind }) => kind === 'females')
    if (!females) return herd
    const at = monthCounted(females.day)
    const alike = (kind: HeadClass) =>
      own.findLast((one) => one.kind === kind && monthCounted(one.day) === at)?.heads
    const [young, males] = [alike('young'), alike('males')]
    const count = {
      month: monthText(at),
      breedingFemales: females.heads,
      ...(young === undefined ? {} : { young }),
      ...(males === undefined ? {} : { males }),
    }
    return { ...herd, counts: [...herd.counts.filter(({ month }) => month !== count.month), count] }
  })

const lastDayOfFirstHalf = 15

/** The month whose beginning lies nearer: a count stands as a month begins. */
const monthCounted = (day: Day): Month =>
  Number(day.slice(8)) <= lastDayOfFirstHalf ? monthOfDay(day) : addMonths(monthOfDay(day), 1)
