// A state's return from figures given by their names, as published examples give them, in place of a federal return.

import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { type StateCode, stateNames } from '#rules/places/state-names.ts'
import type { Program } from '#rules/states/program.ts'
import { person, places, type ReturnForm, setEach, setFigure, whole } from '#rules/states/return-form.ts'
import { programOf, setLaw, stateLawFor } from '#rules/states/state-law.ts'
import { wayTaken, workProgram } from '#rules/states/work-return.ts'

type PersonName = keyof typeof person

const statuses = ['single', 'joint', 'head', 'separate'] as const

/** Dollars by the names of `return-form.ts`; lists hold one amount for each filer. */
export interface GivenFigures {
  status: (typeof statuses)[number]
  ages: readonly number[]
  blind?: readonly boolean[]
  dependents?: readonly number[]
  /** Children for the federal earned income credit; else those under 19. */
  children?: number
  figures: Readonly<Record<string, number | readonly number[]>>
}

export const still = steadyIndexing(0)

/** The tax, and the way it was worked. */
export const workGiven = (
  state: StateCode,
  year: number,
  given: GivenFigures,
): { tax: number; way: Program } => {
  const law = stateLawFor(state, year, still)
  const program = programOf(law)
  fillGiven(state, year, given, program.form)
  setLaw(law, program)
  const tax = workProgram(program)
  return { tax, way: wayTaken(program) }
}

const fillGiven = (state: StateCode, year: number, given: GivenFigures, form: ReturnForm): void => {
  const { figures, dependents = [] } = given
  form.status = statuses.indexOf(given.status)
  form.filers = given.status === 'joint' ? 2 : 1
  for (let filer = 0; filer < 2; filer += 1) {
    form.age[filer] = given.ages[filer] ?? given.ages[0]!
    form.blind[filer] = given.blind?.[filer] ? 1 : 0
  }
  form.dependents = dependents.length
  dependents.forEach((age, k) => {
    form.dependentAge[k] = age
  })
  form.children = given.children ?? dependents.filter((age) => age < 19).length
  for (const name of Object.keys(person) as PersonName[]) setPerson(form, name, figures[name] ?? 0)
  for (const [name, place] of Object.entries(whole)) setFigure(form, place, Number(figures[name] ?? 0))
  addFederal(state, year, form)
  for (const name of Object.keys(figures))
    if (!Object.hasOwn(places, name)) throw new Error(`No figure is called ${name} (${stateNames[state]})`)
}

/** One number for a couple is halved where a couple's return has one sum. */
const halved = new Set<string>([
  'interest',
  'dividends',
  'qualifiedDividends',
  'longTermGains',
  'shortTermGains',
  'usInterest',
  'exemptInterest',
  'rental',
  'farmGains',
])

const setPerson = (form: ReturnForm, name: PersonName, value: number | readonly number[]) => {
  const two = form.filers === 2
  if (typeof value !== 'number') setEach(form, places[name], value[0]!, two ? (value[1] ?? 0) : 0)
  else if (name === 'socialSecurityTaxable' && form.v[places.socialSecurity]! > 0) {
    const part = value / form.v[places.socialSecurity]!
    const own = places.socialSecurity + 1
    setEach(form, places[name], form.v[own]! * part, two ? form.v[own + 1]! * part : 0)
  } else {
    const second = two && halved.has(name) ? value / 2 : 0
    setEach(form, places[name], value - second, second)
  }
}

const addFederal = (state: StateCode, year: number, form: ReturnForm): void => {
  const law = lawFor(year, still)
  const region = state === 'AK' ? 1 : state === 'HI' ? 2 : 0
  setFigure(form, places.federalBasicDeduction, law.standardDeduction[form.status]!)
  setFigure(form, places.federalAgedAddition, law.agedOrBlindAddition[form.status]!)
  setFigure(form, places.povertyFirst, law.medicaidPovertyFirst[region]!)
  setFigure(form, places.povertyEach, law.medicaidPovertyAdditional[region]!)
  setFigure(form, places.capitalLossLimit, law.capitalLossLimit[form.status]!)
  const aged = form.age.filter((age, filer) => filer < form.filers && age >= 65).length
  setFigure(form, places.coupleAgedCount, aged)
  setFigure(
    form,
    places.coupleAgiLessSocialSecurity,
    form.v[places.federalAgi]! - form.v[places.socialSecurityTaxable]!,
  )
}
