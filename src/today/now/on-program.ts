// Adults whom the plan's income leaves to a program of the state: months left then count on premiums that nobody pays.
import { addMonths, type Month, monthName, parseMonth } from '#calendar/month.ts'
import { allOf } from '#money/lists.ts'
import { type CoverageKind, statePrograms } from '#rules/coverage/coverage-kinds.ts'
import type { Projection } from '#runway/project.ts'

/** From the first of the months told on; `months` in which any of the adults is so covered. */
export interface OnProgram {
  fromMonth: Month
  months: number
  says: string
}

type Told = Pick<Projection, 'coverage' | 'months'>

/** Null where none is, from `countedFrom` on. */
export const onProgram = ({ coverage, months }: Told, countedFrom: Month): OnProgram | null => {
  const first = parseMonth(months[0]?.month ?? '')
  if (first === null) return null
  const skipped = Math.max(0, countedFrom - first)
  const adults = coverage.flatMap((one) => {
    const told = one.months.slice(skipped, months.length)
    const at = told.findIndex((kind) => statePrograms.has(kind))
    return one.isChild || at < 0 ? [] : [{ ...one, told, at }]
  })
  if (adults.length === 0) return null
  const start = Math.min(...adults.map(({ at }) => at))
  const fromMonth = addMonths(first, skipped + start)
  const count = months
    .slice(skipped)
    .filter((_, m) => adults.some(({ told }) => statePrograms.has(told[m]!))).length
  const kinds = allOf([...new Set(adults.map(({ told, at }) => kindWords[told[at]!] ?? told[at]!))])
  const names = allOf(adults.map(({ name }) => name))
  return {
    fromMonth,
    months: count,
    says: `By expected income ${kinds} covers ${names} from ${monthName(fromMonth)}, ${count === 1 ? 'in one month' : `in ${count} months`} of the plan. Where the agency decides otherwise, premiums come off savings and months left are fewer.`,
  }
}

const kindWords: Partial<Record<CoverageKind, string>> = {
  'basic health program': 'the basic health program',
}
