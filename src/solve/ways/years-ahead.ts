// How far ahead of the plan a way is at the end of each year, on the same courses, and how sure that is.
import { addMonths, type Month, monthsToNextJanuary, yearOf } from '#calendar/month.ts'
import { yearEndWidth } from '#chance/by-path/year-ends.ts'
import { chanceModel } from '#chance/chance-model.ts'
import { percentiles, type Share, shareOf } from '#chance/percentiles.ts'
import type { Plan } from '#plan/plan.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { type Asking, type AskOptions, partOf, shownAt } from '../question.ts'

export interface YearAhead {
  /** All savings with it less all savings as planned at the year's end: in the middle course, and in eight courses of ten between. */
  middle: number
  low: number
  high: number
  /** Courses in which it is ahead then, of those that come to that year. */
  ahead: Share
}

/** Courses on which years are compared: enough to say in how many of them it is ahead to a twelfth. */
const mostPaths = 150

/** By year; what is left untaxed counts less the later rate. A year that no course comes to is left out. */
export async function yearsAhead(
  asking: Asking,
  other: Plan,
  laterRate: number,
  options: AskOptions,
): Promise<Map<number, YearAhead>> {
  const compiled = asking.compile(asking.plan)
  const ends = yearEndsOf(compiled)
  const own = await endsOf(asking, asking.plan, compiled, ends, laterRate, partOf(options, 0, 0.5))
  const then = await endsOf(asking, other, asking.compile(other), ends, laterRate, partOf(options, 0.5, 1))
  const found = new Map<number, YearAhead>()
  for (const [place, month] of ends.entries()) {
    const more = then[place]!.map((each, path) => each - own[place]![path]!).filter(
      (each) => !Number.isNaN(each),
    )
    if (more.length === 0) continue
    const ahead = shareOf(more.filter((each) => each > 1).length, more.length)
    const [low, middle, high] = percentiles(more, [0.1, 0.5, 0.9])
    found.set(yearOf(addMonths(compiled.firstMonth as Month, month)), {
      middle: middle!,
      low: low!,
      high: high!,
      ahead,
    })
  }
  return found
}

/** Every December of the plan, and its last month. */
function yearEndsOf({ firstMonth, months }: CompiledPlan): number[] {
  const ends: number[] = []
  for (let month = monthsToNextJanuary(firstMonth as Month) - 1; month < months - 1; month += 12)
    ends.push(month)
  return [...ends, months - 1]
}

/** For each of the months, what each course has then in the dollars told; NaN for one that does not come to it. */
async function endsOf(
  asking: Asking,
  plan: Plan,
  compiled: CompiledPlan,
  months: readonly number[],
  laterRate: number,
  options: AskOptions,
): Promise<Float64Array[]> {
  const paths = Math.min(asking.paths, mostPaths)
  const model = chanceModel(plan, compiled.shape)
  const run = { plan: compiled, model, seed: asking.seed, paths, from: 'chance', keepsMonths: false } as const
  const rows = await asking.courses.yearEnds(run, { months }, options)
  const width = yearEndWidth({ months })
  const first = shownAt(asking, 0)
  return months.map((_, place) =>
    Float64Array.from({ length: paths }, (_, path) => {
      const [savings, untaxed, level] = rows.subarray(path * width + 3 * place)
      return (savings! - laterRate * untaxed!) * (asking.dollars.of === 'year' ? level! : first)
    }),
  )
}
