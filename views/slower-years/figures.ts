// What the Slower years page shows, as plain figures. Money is in the plan's first prices unless a name says otherwise.
import type { MixAnswer, MixFound } from '#farm/mix.ts'
import type { ClaimChoice, ExpectedCushion, OneAlone, SlowerYear } from '#solve/slower-years.ts'

export interface SlowerFigures {
  planName: string
  planId: string
  revisionNo: number
  years: SlowerYear[]
  phases: PhaseFigures[]
  people: PersonFigures[]
  split: SplitFigures
  firstSlower: string | null
  reserveMonths: number
}

export interface PhaseFigures {
  index: number
  from: string
  name: string
  weeklyHours: { name: string; hours: number }[]
  /** Hours a week the phase's farm asks for in its busiest month, and what its people can give then. */
  busiest: { month: string; needed: number; available: number }
  net: number
  netBefore: number
  hours: number
  hoursBefore: number
  scales: { name: string; unit: string; before: number; value: number }[]
  trips: { name: string; before: number; value: number }[]
  landLeasedOut: number
  leaseAYear: number
  sales: { name: string; price: number; basis: number }[]
  wound: { name: string; heads: number }[]
}

export interface PersonFigures {
  name: string
  born: string
  claim: string
  medicareFrom: string
  distributionsFrom: string
}

export interface SplitFigures {
  year: number
  basis: 'enacted' | 'projected'
  ventures: { id: string; name: string; net: number; setAsideShare: number; toRetirement: number }[]
  toRetirement: number
  toRainyDay: number
  rainyDayTarget: number
  limits: {
    name: string
    age: number
    ira: number
    sep: number
    soloPlan: number
    hsaSelfOnly: number
    hsaFamily: number
  }[]
  aboveLimits: number
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
