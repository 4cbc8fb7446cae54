// What a year of the projection says of cover: who is under what, premiums, and the steps of the income map.
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'
import type { CoverageStep } from '#rules/coverage/coverage-steps.ts'
import type { CoverByMonth } from '#rules/household-year.ts'
import type { ProjectedYear } from '#runway/project.ts'

export interface CoverYear {
  year: number
  people: CoveredPerson[]
  /** Months with anyone on the marketplace, those before the projection too, and its premium and benchmark a month on average over them. */
  marketplaceMonths: number
  /** Of these, months of the projection. */
  marketplaceMonthsRun: number
  premiumMonthly: number
  benchmarkMonthly: number
  /** Each month's premium and benchmark where the months differ; null where they are alike. */
  byMonth: CoverByMonth | null
  /** The plan sends people to a program of the state this year. */
  byProgram: boolean
  /** Marketplace cover over household income. */
  steps: CoverageStep[]
  /** Household income that January expected, where the year's own would have found other cover: lines of programs stand as far above them as the year is above it. */
  expectedIncome: number | null
  /** Months of the projection in the year, and dollars of it: all premiums net of credit taken in advance; and premiums that stand among living costs. */
  monthsRun: number
  /** The first of them, 1 to 12. */
  runFrom: number
  /** The same by its name, where months of the plan before it lie in the year: these are as the books have them. */
  goesOnFrom: string | null
  /** The months that the plan knows, where these are not the whole year. */
  part: YearPart | null
  premiumsPaid: number
  /** Of the months that are over, and of those of the projection. */
  paidIn: { over: MonthsPaid; ahead: MonthsPaid }
  amongLivingCosts: number
  /** Of the projection: dollars of the year. */
  projected: ProjectedYear
}

/** Months on the marketplace, and dollars of all of them: what it charged, and what of that came in advance. */
export interface MonthsPaid {
  months: number
  charged: number
  advance: number
}

/** The same before the map of its incomes is drawn. */
export type CoverAsRun = Omit<CoverYear, 'steps' | 'expectedIncome'>

export interface CoveredPerson {
  id: string
  name: string
  isChild: boolean
  /** Whole years on January 1, the age premiums follow. */
  age: number
  /** The age reached within the year. */
  turns: number
  /** What covers the person from month to month, one span after the other; a child counts while at home. */
  cover: CoverSpan[]
  /** Dollars a month this person adds to the marketplace premium, in dollars of the year; 0 when not counted. */
  premiumMonthly: number
}

/** Months of a year under one kind of coverage, from the first of them (1 to 12) on. */
export interface CoverSpan {
  kind: CoverageKind
  from: number
  months: number
}

/** In all spans together. */
export const monthsUnder = (cover: readonly CoverSpan[], kind: CoverageKind): number =>
  cover.reduce((sum, one) => sum + (one.kind === kind ? one.months : 0), 0)

/** The months of a year that a plan covers, and how figures of that year are marked that are no whole year's. */
export interface YearPart {
  months: number
  says: string
  /** Of costs that months before the part make the whole year's. */
  isYear?: true
}

/** The months that costs and credits of the marketplace stand for: where months before the plan's part of the year count, all of the year's. */
export const partOfCosts = (cover: CoverYear): YearPart | null =>
  cover.part !== null && countsBefore(cover, cover.part)
    ? { ...cover.part, says: `for ${cover.year}`, isYear: true }
    : cover.part

const countsBefore = (cover: CoverYear, part: YearPart): boolean =>
  cover.steps.at(-1)!.coverMonths > part.months ||
  (cover.monthsRun === part.months && cover.marketplaceMonths > cover.marketplaceMonthsRun)
