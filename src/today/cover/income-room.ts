// Income room: for each planned year with marketplace cover, the dollars of farm profit left before a line of cover is crossed,
// and what crossing it costs. Read off the expected course; nothing is drawn, so nothing strays.
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import {
  costlyLine,
  type ExtraName,
  extraNames,
  extraOf,
  type IncomeRoom,
  incomeRoom,
  type Room,
  type RoomLine,
  roomBefore,
} from '#rules/marketplace/income-room.ts'
import type { Projection } from '#runway/project.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { householdOfYear } from '#today/cover/cover-household.ts'
import { partOfCosts, type YearPart } from '#today/cover/cover-year.ts'
import { coverYears } from '#today/cover/cover-years.ts'

export interface IncomeRooms {
  question: 'income-room'
  answer: { kind: 'reached' } | { kind: 'cannot be reached'; because: string }
  years: RoomYear[]
  sentence: string
}

export interface RoomYear extends IncomeRoom {
  year: number
  /** The months that its sums stand for, where the plan knows no whole year. */
  part: YearPart | null
  goesOnFrom: string | null
  /** The same of what crossing a line costs. */
  costPart: YearPart | null
  /** What of more income the room is counted in. */
  extraIs: ExtraName
  /** The nearest costly line; null when none is. */
  cliff: Room | null
}

export function solveIncomeRoom(plan: Plan, rules: RunwayRules, projection: Projection): IncomeRooms {
  const years = coverYears(plan, rules, projection)
    .filter((cover) => cover.steps.at(-1)!.coverMonths > 0)
    .map((cover): RoomYear => {
      const law = rules.lawFor(cover.year)
      const household = householdOfYear(plan, law, cover)
      const extra = extraOf(household)
      const found = incomeRoom(law, household, extra, cover.steps)
      return {
        year: cover.year,
        part: cover.part,
        goesOnFrom: cover.goesOnFrom,
        costPart: partOfCosts(cover),
        extraIs: extraNames[extra],
        ...found,
        cliff: costlyLine(found, cover.steps),
      }
    })
  if (years.length === 0) {
    const because =
      'This cannot be reached, because nobody in the plan is on the marketplace: list who is, and from when, on the Health page.'
    return {
      question: 'income-room',
      answer: { kind: 'cannot be reached', because },
      years,
      sentence: because,
    }
  }
  return { question: 'income-room', answer: { kind: 'reached' }, years, sentence: say(years) }
}

/** What each line is called. */
export const lineNames: Readonly<Record<RoomLine, string>> = {
  'federal poverty level': 'the federal poverty level, where the credit begins',
  'Medicaid line': 'the Medicaid line',
  'children’s program line': 'the line of the children’s program',
  'basic program line': 'the line of the basic health program',
  'next percent': 'the next percent of the federal poverty level',
  'cost sharing': 'the end of a cost-sharing band',
  'credit line': 'the line where the credit ends',
  'credit gone': 'the income at which no credit is left',
}

/** What crossing the cliff costs, and of how many months where that is no whole year; nothing where it leaves somebody without coverage alone. */
const costOfYear = ({ cliff, costPart }: RoomYear, says: string): string =>
  cliff!.costOfCrossing < 1
    ? ', beyond which somebody has no coverage that the plan pays'
    : `${says}${[formatDollars(cliff!.costOfCrossing), costPart?.isYear ? '' : costPart?.says].filter(Boolean).join(' ')}`

function say(years: readonly RoomYear[]): string {
  const tight = years.filter((year) => year.cliff !== null)
  const first = tight[0]
  if (first?.cliff == null)
    return `In none of the plan’s years does one more dollar of ${years[0]!.extraIs} cost more than a hundred in premiums and tax.`
  const { cliff } = first
  const closest = tight.reduce((near, year) => (year.cliff!.extraLeft < near.cliff!.extraLeft ? year : near))
  const start = `In ${first.year} there is room for ${formatDollars(roomBefore(cliff))} more of ${first.extraIs} before ${lineNames[cliff.line]}${costOfYear(first, '; going over it costs ')}.`
  if (closest.year === first.year) return `${start} No later year is closer to such a line.`
  return `${start} Closest is ${closest.year}: ${formatDollars(roomBefore(closest.cliff!))} before ${lineNames[closest.cliff!.line]}${costOfYear(closest, ', which costs ')}.`
}
