// What the Cover page is given: all figures worked out, in dollars a year unless the name says otherwise.
import type { Month } from '#calendar/month.ts'
import type { CoverageLimit, CoveredBy } from '#rules/coverage/coverage-steps.ts'
import type { FilingStatus } from '#rules/filing-status.ts'
import type { CostlySpan, CreditPoint, KeptPoint } from '#rules/marketplace/credit-curve.ts'
import type { IncomeRoom, Room } from '#rules/marketplace/income-room.ts'
import type { MedicaidByWork, Work, WorkInSight } from './cover-work.ts'
import type { CoverSpan, YearPart } from './cover-year.ts'
import type { LeftWithout } from './left-without.ts'
import type { PaidInMonths } from './paid-in-months.ts'

export interface CoverYearRow {
  year: number
  /** The months that its sums stand for, where the plan knows no whole year. */
  part: YearPart | null
  isProjectedLaw: boolean
  people: {
    name: string
    /** Whole years on January 1, the age premiums follow, and what the person turns in the year. */
    age: number
    turns: number
    cover: CoverSpan[]
    premiumMonthly: number
    /** For an adult on Medicaid from 2027 on: how the work requirement stands; null where it is not asked yet. */
    work: Work | null
  }[]
  premiumMonthly: number
  benchmarkMonthly: number
  marketplaceMonths: number
  householdIncome: number
  povertyPercent: number
  credit: number
  /** Marketplace premiums of the year less the credit. */
  marketplacePaid: number
  /** All premiums a month: marketplace after the credit, in advance or with the return, Medicare, other plans, and those told among living costs. */
  paidMonthly: number
  paidInMonths: PaidInMonths | null
  filing: FilingStatus
}

/** Who is covered by what up to a household income; null for the last. */
export interface CoverageBand {
  toIncome: number | null
  /** The program's limit in percent of the poverty level of so many people. */
  limit: CoverageLimit | null
  people: Omit<CoveredBy, 'kinds'>[]
  premiumMonthly: number
}

export interface YearInSight {
  /** The same year and income in an address. */
  query: string
  year: number
  part: YearPart | null
  goesOnFrom: string | null
  /** The same of what coverage costs: the year's where months that are over count. */
  costPart: YearPart | null
  isProjectedLaw: boolean
  projectedRules: number
  householdSize: number
  povertyLine: number
  /** Household income the plan expects; the page may look at another, which was typed. */
  plannedIncome: number
  lookedAtIncome: number
  /** The income was typed to be tried. */
  isTried: boolean
  /** Household income of the plan's year that January expected, where the year's own would have found other cover: the limits of programs stand as far above theirs. */
  expectedIncome: number | null
  months: number
  premiumMonthly: number
  benchmarkMonthly: number
  /** The first month ahead, 1 to 12: from then on programs look at the income of a year that has begun. */
  runFrom: number
  /** What of the year each month is charged, where the months differ: from the first to the last month of 1 to 12, dollars a month. */
  charges: { from: number; to: number; monthly: number }[]
  /** The months that its household income costs a month of premium is told for: all that could be on the marketplace. */
  monthsAtMost: number
  paidInMonths: PaidInMonths | null
  applicablePercent: number
  method: string
  room: IncomeRoom
  /** The line up to which the answer counts room, as the question of income room does; null where none is costly. */
  cliff: Room | null
  /** Beside each line of `room`: who would be without coverage beyond it. */
  leftWithout: LeftWithout[][]
  /** What of the extra income the room is counted in. */
  extraIs: 'farm profit' | 'other income'
  /** What of it the year has as it is looked at, before any more or less. */
  extraNow: number
  credit: CreditPoint[]
  /** The highest household income with a credit, as the line of it in `room`; null where none has one, or none is the last. */
  creditEndsAt: number | null
  kept: KeptPoint[]
  costly: CostlySpan[]
  careMonthly: number
  bands: CoverageBand[]
  /** Medicaid's work requirement at the income looked at; null where it asks nobody. */
  work: WorkInSight | null
  /** The state's Medicaid for adults who work, which the plan does not count; null where none is open at that income. */
  medicaidByWork: MedicaidByWork | null
  /** Whether what the marketplace charges is known; without it there is no credit to tell, only who is covered by what. */
  knowsPremiums: boolean
  /** Place among the bands at the income looked at. */
  standsOn: number
  sources: { percentage: string; poverty: string; costSharing: string; medicaid: string }
}

/** Null parts are not known for the place. Premiums are for one person of `age`, dollars a month. */
export interface PlaceFigures {
  name: string
  ratingArea: number | null
  age: number
  history: { year: number; monthly: number }[]
  /** The lowest-cost one; `isDearer` where it costs more than the year's benchmark plan. */
  bronze: { year: number; monthly: number; isDearer: boolean } | null
  /** The plan's own premiums are used in place of the county's. */
  premiumsTyped: boolean
  historyGrowth: number | null
  growth: { rate: number; until: number | null }
  suggested: number
  growthSource: string
  year: number
  limits: { who: string; percent: number; typed: boolean }[]
  /** By which year’s guidelines the basic health program goes; null where the state has none. */
  basicLevel: { ofYearBefore: boolean; checked: boolean; source: string } | null
  sources: { premiums: string; limits: string }
}

export interface MedicareStart {
  name: string
  month: Month
  /** First and last month to sign up around the start: three months before to three after. */
  signUpFrom: Month
  signUpTo: Month
  partBMonthly: number
  year: number
}

export interface TaxSoFarFigures {
  year: number
  through: string
  /** What was said to have come before books that begin within the year is in it. */
  withEarlier: boolean
  farmGross: number
  farmExpenses: number
  farmProfit: number
  otherSelfEmployment: number
  wages: number
  interest: number
  /** Breeding stock and equipment sold, as taxed. */
  stockSold: number
  /** What else came in on lines of its own, as received: dividends, pensions, what was taken from IRAs, benefits. Without zeros. */
  besides: readonly { label: string; dollars: number }[]
  paid: number
  /** What the year before still owes by its worksheet; null from May on, and where that year cannot be worked. In the set-aside. */
  owedForLastYear: number | null
  selfEmploymentTax: number
  incomeTax: number
  total: number
  /** What the state asks for so far and was paid of it, with local tax; null where the plan counts no state tax. In the set-aside. */
  state: { tax: number; paid: number; name: string } | null
  setAside: number
  mayComeBack: number
  /** With the returns, by the year’s worksheet after all that was paid; taken off nothing above. */
  comesBack: Record<'federal' | 'state' | 'local', number>
  isFarmer: boolean
  dates: { day: string; says: string; stillAhead: number | null }[]
  basis: 'enacted' | 'projected'
}

export type CoverFigures =
  | { status: 'none'; tax: null }
  | { status: 'no-years'; tax: TaxSoFarFigures | null }
  | { status: 'unreadable'; says: string; tax: TaxSoFarFigures | null }
  | {
      status: 'read'
      planName: string
      /** This month: what changes before it is behind. */
      month: Month
      /** The state, where it sells its children's program at full cost above its limit; null where the data know of none. */
      childrenAtFullCost: { state: string; source: string } | null
      rows: CoverYearRow[]
      /** Missing when nobody is on the marketplace in the year looked at and no program of a state is known. */
      inSight: YearInSight | null
      year: number
      /** Months of it before the plan of which nothing is told, like “January to August 2026”: counted as if nothing came in. */
      untold: string | null
      /** `federal`, or the two letters of a state that rates ages in its own way. */
      ageRating: string
      premiumByAge: { age: number; plan: number; benchmark: number }[]
      /** Null while no state is chosen. */
      place: PlaceFigures | null
      medicare: MedicareStart[]
      tax: TaxSoFarFigures | null
    }
