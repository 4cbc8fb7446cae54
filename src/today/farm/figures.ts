// What the Farm page shows, as plain figures: in the dollars that were asked for unless a name says cents.

import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import type { EnterpriseBudget } from '#farm/budgets.ts'
import type { Market } from '#farm/farm-document.ts'
import type { FarmYear } from '#farm/farm-year.ts'
import type { FitRow } from '#farm/fit/fit-years.ts'
import type { HerdKind } from '#farm/herd/herd-document.ts'
import type { HiredYear } from '#farm/hired-help.ts'
import type { StepCheck } from '#farm/in-step.ts'
import type { HeadClass } from '#farm/notebook/kinds.ts'
import type { PurchaseDepreciation } from '#farm/purchase-depreciation.ts'
import type { QueuedPurchase } from '#farm/purchases.ts'
import type { SoldWhere } from '#farm/selling/where-sold.ts'
import type { Cents } from '#money/cents.ts'
import type { Dollars } from '#runway/dollars/dollars.ts'

export interface FarmFigures {
  planName: string
  planId: string
  revisionNo: number
  year: number
  years: number[]
  summary: FarmYear
  lines: (EnterpriseBudget & { actual: ActualFigures | null })[]
  /** Of the last twelve months those that the books hold. */
  actualsSpan: { from: string; to: string; months: number } | null
  markets: MarketFigures[]
  soldWhere: SoldFigures[]
  inStep: StepCheck[]
  /** The same over the years, with what the plan buys by then. */
  fit: FitRow[]
  herds: HerdFigures[]
  purchases: PurchaseFigures
  hired: HiredYear
  overheads: { id: string; name: string; costs: number; hours: number }[]
  facilities: { id: string; name: string; unit: string; uses: string[] }[]
  loans: { id: string; name: string; principal: number; yearlyRate: number; owedAtYearEnd: number }[]
  basics: {
    cash: number
    reserve: number
    land: number
    landUsed: number
    winterFeed: number | null
    crew: { who: string; weeklyHours: string }[]
    hiredHourlyCost: number
  }
}

export interface ActualFigures {
  salesCents: Cents
  costsCents: Cents
  assetsCents: Cents
}

/** By the plan in dollars of the year; noted in the last twelve months. */
export interface SoldFigures extends SoldWhere {
  noted: {
    atMarketsCents: Cents
    /** At home and bartered, at what it sells for; `unpriced` have no price yet. */
    usedCents: Cents
    unpriced: number
    batches: {
      unit: string
      raised: number
      sold: number
      used: number
      lost: number
      kept: number
      left: number
      untold: number
    }[]
  }
}

export interface MarketFigures {
  id: string
  name: string
  trips: number
  capacity: number
  sold: number
  costs: number
  hours: number
  /** Dollars sold an hour of market work, after its costs. */
  perHour: number | null
  followShare: number
  growth: Market['growth'] | null
  seat: Market['seat'] | null
  /** Simulations do not draw this seat: too many are uncertain. */
  seatIsByChance: boolean
  /** What the farm's net of the year loses with it: sales not made up by customers who follow, less fees, miles and hired hours saved. Below zero where dropping it brings money. */
  netLostIfDropped: number
  /** What the other markets then sell beyond what they sell now: of customers who follow, and of goods left over. */
  thenSoldElsewhere: number
  tripsLaterChange: boolean
  /** An enterprise or a herd sells there. Without one it costs and brings nothing. */
  isNamed: boolean
}

export interface HerdFigures {
  id: string
  name: string
  kind: HerdKind
  /** Its young are sold as meat. */
  isMeat: boolean
  /** By the notebook as today ends; null where nothing was noted. `isOfPlan`: its females were counted, so that the plan goes on from it; `plansFrom`: the month that the plan goes on in, where that lies before every such count. */
  noted: {
    heads: Partial<Record<HeadClass, number>>
    countedOn: Day | null
    isOfPlan: boolean
    plansFrom: string | null
  } | null
  /** Females kept to breed that join next by the plan, from this month on: expected heads. */
  joinNext: { month: string; heads: number } | null
  years: {
    year: number
    breedingFemales: number
    /** Growing at the year's end: kept to breed, and young of before weaning and for sale. */
    kept: number
    forSale: number
    sold: number
    culled: number
    sales: number
    costs: number
    stockCapital: number
    hours: number
    /** Most young that waited for a market at a month’s end, and those that went to auction: heads. */
    waiting: number
    atAuction: number
    /** What they brought there. */
    auctionSales: number
    /** Packaged pounds at the year’s end. */
    freezer: number
  }[]
  payback: PaybackFigures | null
  tax: { raised: StockTax; bought: StockTax }
}

export interface StockTax {
  form: string
  gain: number
  ordinary: number
  section1231: number
  selfEmploymentIncome: number
  source: string
}

/** All of it at one price level: today's. */
export interface PaybackFigures {
  dollars: Dollars
  firstMonth: string
  moneyIn: number
  /** Else nothing was put in that could come back. */
  isPutIn: boolean
  deepest: number
  deepestMonth: string
  paidBack: string | null
  monthsToPayBack: number | null
  presentWorth: number
  yearlyReturn: number | null
  /** Breeding stock at what such stock costs, in the month it has paid itself back, or the last one looked at. */
  stockWorth: number
  stockWorthMonth: string
  hours: number
  /** Running sum at each December. */
  running: { month: number; dollars: number }[]
}

export interface PurchaseFigures {
  queue: (QueuedPurchase & {
    payback: { months: number | null; yearlyReturn: number | null }
    /** In the dollars of the month it is bought in, whichever are shown. */
    costThen: number
    /** In a year at the plan's first prices, and room it adds. */
    gives: { cash: number; hours: number; room: string | null }
    /** It lies behind: nothing ahead is judged of it. */
    isBought: boolean
    /** Names of those that come later in the list and are bought later. */
    behind: string[]
  })[]
  /** Most that could be spent in the queue's first month; what that month brings by the plan is in it. */
  affordableNow: number
  firstMonth: Month
  reserveNow: number
  /** Farm cash that the queue begins with, as that day ends: by the books where they know it, else by the plan. */
  cashNow: { dollars: number; isFromBooks: boolean; asOf: Day }
  next: { name: string; month: string; cost: number } | null
  depreciation: PurchaseDepreciation
  cash: { month: number; dollars: number }[]
}
