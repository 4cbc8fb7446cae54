// What the Slower years page shows, as plain figures, in the dollars that were asked for.
import type { MixAnswer, MixFound } from '#farm/mix/mix.ts'
import type { PhaseBeside } from '#farm/phase-years.ts'
import type { SideIncomeSplit } from '#runway/side-income-split.ts'
import type { ClaimChoice, ExpectedCushion, OneAlone, SlowerYear } from '#solve/slower-years.ts'
import type { InheritedPayout } from './inherited-payouts.ts'

export interface SlowerFigures {
  planName: string
  planId: string
  revisionNo: number
  years: SlowerYear[]
  phases: PhaseBeside[]
  people: PersonFigures[]
  inherited: InheritedPayout[]
  split: SideIncomeSplit
  firstSlower: string | null
  reserveMonths: number
  /** All savings when the plan ends, by the projection. */
  savingsAtEnd: number
}

export interface PersonFigures {
  /** Among the people of the plan. */
  place: number
  name: string
  born: string
  claim: string
  /** Where the quarters of coverage do not suffice as the year of the claim begins; null where they do. */
  lacksQuarters: LacksQuarters | null
  medicareFrom: string
  distributionsFrom: string
}

export interface LacksQuarters {
  /** `March 2038`. */
  claims: string
  quarters: number
  needed: number
  /** The first year that begins with enough; null where none does. */
  from: number | null
}

/** What is kept back, as the first month of the projection ends; dollars. */
export interface KeptMoney {
  month: string
  /** Spendable savings, taxes owed taken off. */
  savings: number
  floor: number
  emergencyMonths: number
  /** So many months of household costs, the floor in it. */
  emergency: number
  farmCash: number
  reserve: number
  /** What must be ready as the first slower year begins, and what the plan has then; null without one. */
  cushion: { month: string; needed: number; savings: number } | null
}

/** What takes a moment to work out: shown when it is ready. */
export interface SlowerAnswers {
  aim: 'most net' | 'fewest hours'
  pinned: string[]
  largestChange: number | null
  mixes: {
    index: number
    phase: string
    from: string
    answer: MixAnswer
    /** What the plan has in the phase's settled year, hours that are worked. */
    there: { net: number; hours: number }
    netKept: number | null
    alone: { name: string; net: number | null }[]
  }[]
  /** Year by year from today's farm to the first phase's hours, no line changing faster than asked. */
  path: {
    year: number
    net: number | null
    hours: number | null
    because: string | null
    lines: MixFound['lines']
  }[]
  cushion: ExpectedCushion | null
  claims: ClaimChoice[]
  alone: OneAlone[]
}
