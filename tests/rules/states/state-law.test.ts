// The states' laws as data: every one is read, moves with prices as it says, and behaves as a tax does on random households.
import { describe, expect, test } from 'vitest'
import { noCarryforwards } from '#rules/carryforwards.ts'
import { steadyIndexing } from '#rules/dated.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { type StateCode, stateCodes } from '#rules/places/state-names.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { emptyReturnLines, workReturn } from '#rules/return/return-lines.ts'
import { fillStateReturn } from '#rules/states/fill-return.ts'
import { compileRules, sectionNames } from '#rules/states/program.ts'
import { derived, places, type ReturnForm } from '#rules/states/return-form.ts'
import { stateData } from '#rules/states/state-data.ts'
import { allMoved, programOf, rulesOf, stateLawFor, stateTaxOf } from '#rules/states/state-law.ts'
import type { StateLaw } from '#rules/states/state-year.ts'
import { wayTaken, workProgram } from '#rules/states/work-return.ts'
import { drawnLimit, eachDrawn } from '../drawn-households.ts'
import { randomHousehold, seeded } from '../random-household.ts'
import { still } from './given-figures.ts'

/** Each in all states; ample for a busy machine. */
const [scaledRuns, fallRuns] = [10, 50]
const law = lawFor(2026, still)

const taxOf = (state: StateCode, household: HouseholdYear, year = 2026): number =>
  fileReturn(lawFor(year, still), { ...household, state: stateLawFor(state, year, still) }).figures
    .stateIncomeTax

describe.each(stateCodes)('the law of %s', (state) => {
  const data = stateData(state)

  test('has every year from the first of the federal law, sources, and what it leaves out', () => {
    expect(data.years.slice(0, 3).map(({ year }) => year)).toEqual([2024, 2025, 2026])
    for (const { year, lastPublished } of data.years) expect(lastPublished).toBeLessThanOrEqual(year)
    const taxes = data.years.some(({ rules }) => JSON.stringify(rules.brackets) !== '[[0,0]]')
    if (taxes) expect(data.sources.length).toBeGreaterThan(0)
    if (data.hasIncomeTax) expect(data.leftOut.length).toBeGreaterThan(0)
    for (const { address } of data.sources) expect(address).toMatch(/^https?:\/\//)
  })

  test('names what moves with prices as the rules do', () => {
    const words = new Set<string>(['brackets', 'gains', 'spouses', ...sectionNames])
    for (const { rules } of data.years)
      for (const section of sectionNames) for (const { what } of rules[section] ?? []) words.add(what ?? '')
    for (const word of Object.keys(data.indexed ?? {})) expect(words).toContain(word)
    for (const { carried } of data.years)
      for (const word of carried) expect(data.indexed).toHaveProperty([word])
  })

  test('gives a finite tax in every year, the same each time', () => {
    const random = seeded(7)
    for (let n = 0; n < 20; n += 1) {
      const household = randomHousehold(random)
      for (const year of [2024, 2025, 2026, 2031]) {
        const tax = taxOf(state, household, year)
        expect(Number.isFinite(tax)).toBe(true)
        expect(taxOf(state, household, year)).toBe(tax)
      }
    }
  })
})

test('a year before the data names state and year', () => {
  expect(() => stateLawFor('VT', 2019, still)).toThrow(
    'No figure for “income tax of Vermont” in 2019: figures start in 2024',
  )
})

const figuresIn = new Set<string>(['coupleAgedCount', ...Object.keys(derived)])

/** A return with every dollar multiplied; figures that are worked from others follow. */
const scaled = (form: ReturnForm, factor: number): void => {
  for (const [name, place] of Object.entries(places))
    if (!figuresIn.has(name)) for (let k = 0; k < 3; k += 1) form.v[place + k] = form.v[place + k]! * factor
}

test('twice the money under law of twice the dollars is twice the tax, in every state', {
  timeout: drawnLimit(scaledRuns, 200),
}, () => {
  const lines = emptyReturnLines()
  const programs = stateCodes.map(
    (state) => [state, compileRules(rulesOf(stateData(state), 2026).rules, allMoved)] as const,
  )
  eachDrawn(11, scaledRuns, (random, n) => {
    const household = randomHousehold(random)
    workReturn(law, household, lines, false)
    for (const [state, program] of programs) {
      const taxAt = (factor: number) => {
        program.form.index[1] = factor
        fillStateReturn(law, household, lines, program.form)
        scaled(program.form, factor)
        return workProgram(program)
      }
      const once = taxAt(1)
      expect(Math.abs(taxAt(4) - 4 * once), `${state} household ${n}`).toBeLessThan(
        0.001 + 1e-9 * Math.abs(once),
      )
    }
  })
})

/**
 * Where a state's own steps let tax fall: Arkansas reads the tax of small incomes in tables; New Jersey excludes other income from 62
 * by steps of all income. Elsewhere tax before credits falls only where what is left after credits does not: spouses may be taxed
 * apart in Arkansas, Delaware (Form PIT-RES, filing status 4: a column each, with its own personal credit) and Kentucky, and take
 * the way that leaves less after credits, whichever has the lower tax before them. States that deduct the federal tax (Alabama,
 * Oregon) pass on its steps, as those of the saver’s credit (26 USC 25B(b)): at most a tenth of what it rises beyond the income.
 */
const ownSteps: Partial<Record<StateCode, number>> = { AR: 40, NJ: 5 }

/** The federal return once for all states. */
const federalOf = (household: HouseholdYear) => {
  const lines = emptyReturnLines()
  workReturn(law, household, lines, false)
  return { household, lines, federal: fileReturn(law, household).figures.totalTax }
}

const toCents = (dollars: number): number => Math.round(dollars * 100) / 100

const taxesOf = (state: StateLaw, { household, lines }: ReturnType<typeof federalOf>) => {
  const after = toCents(stateTaxOf(law, { ...household, state }, lines))
  return { before: toCents(wayTaken(programOf(state)).form.v[places.taxBefore]!), after }
}

test('tax never falls as income rises, but at the steps of two states', {
  timeout: drawnLimit(fallRuns, 200),
}, () => {
  const laws = stateCodes.map((code) => [code, stateLawFor(code, 2026, still)] as const)
  eachDrawn(6, fallRuns, (random, n) => {
    const household = { ...randomHousehold(random), coverMonths: 0, carried: noCarryforwards() }
    const first = federalOf(household)
    const more = federalOf({ ...household, otherIncome: household.otherIncome + 100 })
    const passedOn = Math.max(0, more.federal - first.federal - 100) / 10
    for (const [code, state] of laws) {
      const here = taxesOf(state, first)
      const there = taxesOf(state, more)
      const fall = Math.min(here.before - there.before, here.after - there.after)
      expect(fall, `${code} household ${n}`).toBeLessThan((ownSteps[code] ?? 0.02) + passedOn)
    }
  })
})

test('amounts that a state indexes rise with prices, others stay', () => {
  const household = { ...emptyHouseholdYear(), wages: [70_000, 0] }
  const later = (state: StateCode, inflation: number) => {
    const indexing = steadyIndexing(inflation)
    return fileReturn(law, { ...household, state: stateLawFor(state, 2029, indexing) }).figures.stateIncomeTax
  }
  // Pennsylvania and Virginia index nothing; Minnesota its brackets, Nebraska them and the deduction.
  expect(later('PA', 0.1)).toBe(later('PA', 0))
  expect(later('VA', 0.1)).toBe(later('VA', 0))
  expect(later('MN', 0.1)).toBeLessThan(later('MN', 0))
  expect(later('NE', 0.1)).toBeLessThan(later('NE', 0))
  // Mississippi's rate falls by act: 4 percent in 2026, 3.25 percent in 2029 (27-7-5, from memory).
  expect(later('MS', 0) / taxOf('MS', household)).toBeCloseTo(3.25 / 4, 9)
})

test('Pennsylvania says what it leaves out of inherited money', () => {
  const household = { ...emptyHouseholdYear(), wages: [30_000, 0], state: stateLawFor('PA', 2026, still) }
  const said = fileReturn(law, household).state!.cautions.join(' ')
  expect(said).toContain('Inheritance tax on what is inherited')
})
