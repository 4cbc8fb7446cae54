// The income tax law of a state in one year, and the tax of a household by it.

import { keeper } from '#kept/keeper.ts'
import { type Indexing, RuleYearError } from '../dated.ts'
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { type StateCode, stateNames } from '../places/state-names.ts'
import type { ReturnLines } from '../return/return-lines.ts'
import type { Scale } from './amounts.ts'
import { fillStateReturn } from './fill-return.ts'
import { compileRules, type Program, type Scales } from './program.ts'
import type { YearRules } from './rule-form.ts'
import { type Moved, type RulesOfYear, type StateData, stateData } from './state-data.ts'
import type { StateLaw } from './state-year.ts'
import { wayTaken, workProgram } from './work-return.ts'

/** The law of a year: that of the newest rules, with what the state indexes moved by prices. */
export const stateLawFor = (state: StateCode, year: number, indexing: Indexing, localRate = 0): StateLaw =>
  keptLaw(indexing, `${state} ${year} ${localRate}`, () => findLaw(state, year, indexing, localRate))

/** Each plan asks for all of its years, and each lever for the same ones. */
const keptLaw = keeper(200)

const findLaw = (state: StateCode, year: number, indexing: Indexing, localRate: number): StateLaw => {
  const rules = rulesOf(stateData(state), year)
  const since = (from: number) => (year <= from ? 1 : indexing.prices(year) / indexing.prices(from))
  return {
    state,
    year,
    basis:
      year > rules.year || (rules.carried.length > 0 && year > rules.lastPublished) ? 'projected' : 'enacted',
    rules: rules.year,
    index: [1, since(rules.year), since(rules.lastPublished)],
    localRate,
  }
}

/** The newest rules that hold in the year. */
export const rulesOf = (data: StateData, year: number): RulesOfYear => {
  const rules = data.years.findLast((one) => one.year <= year)
  if (rules) return rules
  throw new RuleYearError(
    `income tax of ${stateNames[data.code]}`,
    year,
    `figures start in ${data.years[0]!.year}`,
  )
}

/**
 * What the household owes its state on the federal return just worked, in dollars, refundable credits taken off: below zero the state
 * pays. With local tax at the typed rate.
 */
export const stateTaxOf = (federal: LawYear, household: HouseholdYear, lines: ReturnLines): number => {
  const law = household.state
  if (law === null) return 0
  const program = programOf(law)
  const { form } = program
  fillStateReturn(federal, household, lines, form)
  setLaw(law, program)
  return workProgram(program) + localTaxOf(law)
}

/** Local tax of the return just worked. */
export const localTaxOf = (law: StateLaw): number => {
  if (law.localRate === 0 || law.state === null) return 0
  const program = programOf(law)
  return law.localRate * Math.max(0, wayTaken(program).form.v[program.local.place]!)
}

/** Of it, what goes to an office of its own rather than with the state's return. */
export const localTaxApart = (law: StateLaw): number =>
  law.localRate === 0 || programOf(law).local.withState ? 0 : localTaxOf(law)

/** Whether a state's local tax is paid with its own return. */
export const isLocalWithState = (state: StateLaw['state']): boolean =>
  state !== null && stateData(state).local?.withState === true

/** Puts a year’s price factors and the years since its rules into the form that the program works. */
export const setLaw = ({ index, rules, year }: StateLaw, { form }: Program): void => {
  for (let k = 0; k < 3; k += 1) form.index[k] = index[k]!
  form.yearsOn = typeof rules === 'number' ? year - rules : 0
}

/** Kept by state and year of rules, and with the law itself, for as long as it lives. */
const programs = new Map<string, Program>()
const programsOfLaws = new WeakMap<StateLaw, Program>()
const typedPrograms = new WeakMap<YearRules, Program>()

/** The law’s rules made ready to work, once. The same program is used again by every household: its form is filled anew. */
export const programOf = (law: StateLaw): Program => {
  if (law !== lastAsked.law) lastAsked = { law, program: keptProgram(law) }
  return lastAsked.program!
}

/** A return asks for its program several times over. */
let lastAsked: { law: StateLaw | null; program: Program | null } = { law: null, program: null }

const keptProgram = (law: StateLaw): Program => {
  const kept = programsOfLaws.get(law)
  if (kept !== undefined) return kept
  const program =
    law.state === null ? typedProgram(law.rules as YearRules) : publishedProgram(law.state, law.year)
  programsOfLaws.set(law, program)
  return program
}

const publishedProgram = (state: StateCode, year: number): Program => {
  const data = stateData(state)
  const rules = rulesOf(data, year)
  const key = `${state} ${rules.year}`
  const program =
    programs.get(key) ?? compileRules(rules.rules, scalesOf(data.indexed ?? {}, rules.carried), data.local)
  programs.set(key, program)
  return program
}

const typedProgram = (rules: YearRules): Program => {
  const program = typedPrograms.get(rules) ?? compileRules(rules, allMoved)
  typedPrograms.set(rules, program)
  return program
}

/** Every amount of dollars moves with prices. */
export const allMoved: Scales = () => ({ bands: 1, values: 1 })

const scalesOf = (indexed: Moved, carried: readonly string[]): Scales => {
  const scaleOf = (word: string): Scale | null => {
    const how = indexed[word]
    if (how === undefined) return null
    const by = carried.includes(word) ? 2 : 1
    return { bands: how === 'values' ? 0 : by, values: how === 'bands' ? 0 : by }
  }
  return (part, what) => scaleOf(part) ?? scaleOf(what ?? '') ?? { bands: 0, values: 0 }
}
