// A state's return just worked, step by step with what each step used, and what has to be said beside it.
import { stateNames } from '../places/state-names.ts'
import type { Trace, TraceLine } from '../return/trace.ts'
import type { CompiledSpouses, Program, SectionName } from './program.ts'
import { type FigureName, places } from './return-form.ts'
import { type RulesOfYear, secondHand, stateData, uncheckedItems } from './state-data.ts'
import { localTaxOf, programOf, rulesOf } from './state-law.ts'
import type { StateLaw } from './state-year.ts'
import { wayTaken } from './work-return.ts'

export interface StateReturn {
  /** Dollars with local tax, refundable credits taken off: below zero the state pays. */
  tax: number
  trace: Trace
  /** How the figures were obtained, what of them is unchecked, and the rules of the state that are left out. */
  cautions: string[]
}

/** Reads the lines of the last return worked by this law. */
export const readStateReturn = (law: StateLaw, tax: number): StateReturn => ({
  tax: toCents(tax),
  trace: traceOf(law, tax),
  cautions: stateCautions(law, homeOf(law)),
})

/** As the return just worked has it. */
const homeOf = (law: StateLaw): HomeCosts => {
  const { v } = programOf(law).form
  return { propertyTax: v[places.propertyTax]!, rent: v[places.rent]! }
}

/** Property tax and rent of the home in a year, dollars. */
export interface HomeCosts {
  propertyTax: number
  rent: number
}

const toCents = (amount: number): number => Math.round(amount * 100) / 100

const traceOf = (law: StateLaw, tax: number): Trace => {
  const program = wayTaken(programOf(law))
  const { local, rule, source } = wordsOf(law)
  const figure = (name: FigureName) => toCents(program.form.v[places[name]]!)
  const line = (name: string, amount: number, inputs: TraceLine['inputs']): TraceLine => ({
    figure: name,
    amount: toCents(amount),
    rule,
    source,
    inputs,
  })
  const localTax = localTaxOf(law)
  return [
    line('stateAdjustedGrossIncome', figure('stateAgi'), adjusted(program, figure('stateGross'))),
    line('stateTaxableIncome', figure('taxable'), used(program, ['deduct', 'exempt'])),
    line('stateTaxBeforeCredits', figure('taxBefore'), {
      bySchedule: figure('scheduleTax'),
      ...used(program, ['alsoTax', 'taxAtMost', 'taxAtLeast']),
      ...ofSpouses(program, figure('taxBefore') - figure('taxOfWhole')),
    }),
    ...(localTax === 0 ? [] : [line('localIncomeTax', localTax, { rate: law.localRate, usual: local })]),
    // What goes to a local office is in it, too.
    line('stateIncomeTax', tax, {
      ...used(program, ['ownCredits', 'credits', 'flatTax']),
      ...ofSpouses(program, figure('spousesCredit')),
      ...(localTax === 0 ? {} : { 'with local income tax': toCents(localTax) }),
    }),
  ]
}

/** From the income that the state starts with, in whose figure its additions are already, to what is left after what it takes off. */
const adjusted = (program: Program, gross: number): Record<string, number> => {
  const [added, takenOff] = [used(program, ['add']), used(program, ['subtract'])]
  const all = Object.values(added).reduce((sum, amount) => sum + amount, 0)
  const said = (words: string, items: Record<string, number>) =>
    Object.fromEntries(Object.entries(items).map(([what, amount]) => [`${words} ${what}`, amount]))
  return {
    'income the state starts from': toCents(gross - all),
    ...said('added to it:', added),
    ...said('taken off it:', takenOff),
  }
}

/** What each item of the sections came to, by its words. */
const used = (program: Program, sections: readonly SectionName[]): Record<string, number> => {
  const found: Record<string, number> = {}
  for (const section of sections)
    for (const { item, used: amount } of program.lines[section]) {
      if (toCents(amount) === 0) continue
      const words = `${item.what ?? section}${item.refundable ? ', paid out' : ''}${item.mark ? ' (unchecked)' : ''}`
      found[words] = toCents((found[words] ?? 0) + amount)
    }
  return found
}

/** What a couple's two incomes make of the tax of the whole, below zero where less. */
const ofSpouses = ({ spouses }: Program, amount: number): Record<string, number> =>
  spouses === null || toCents(amount) === 0 ? {} : { [spousesWords[spouses.method]]: toCents(amount) }

const spousesWords: Record<CompiledSpouses['method'], string> = {
  own: 'each spouse’s income on a column of its own',
  byShare: 'divided by each spouse’s share of the income',
  split: 'two incomes in parts on the schedule',
}

const wordsOf = (law: StateLaw): { rule: string; source: string; local: string } => {
  if (law.state === null) return { rule: 'state income tax by typed rates', source: 'the plan', local: '' }
  const data = stateData(law.state)
  return {
    rule: `income tax of ${stateNames[law.state]}${law.basis === 'projected' ? ', carried forward' : ''}`,
    source: `statutes and returns of ${stateNames[law.state]}, ${rulesOf(data, law.year).year}, second hand`,
    local: data.local?.says ?? 'none',
  }
}

/** What has to be said wherever a tax by this law is shown; nothing of typed rates. */
export const stateCautions = (law: StateLaw, home: HomeCosts): string[] => {
  if (law.state === null) return []
  const data = stateData(law.state)
  const name = stateNames[data.code]
  const rules = rulesOf(data, law.year)
  const unchecked = uncheckedItems(rules)
  const lacks = data.leftOut.map(({ rule, usually }) =>
    usually === undefined ? rule : `${rule}: ${usually}`,
  )
  return [
    `${name} income tax is ${secondHand}.`,
    ...(law.basis === 'projected'
      ? [
          `The amounts of ${name} for ${law.year} are carried forward from ${Math.min(rules.year, rules.lastPublished)}${data.indexing ? `: ${lowerFirst(data.indexing)}` : '.'}`,
        ]
      : []),
    ...(unchecked.length > 0
      ? [`Written from memory and unchecked in ${name}: ${unchecked.join('; ')}.`]
      : []),
    ...(home.propertyTax + home.rent === 0 && asksForHome(rules)
      ? [
          `${name} has a credit or deduction for property tax or rent of the home, and neither is entered: enter them with the place where you live.`,
        ]
      : []),
    ...(lacks.length > 0 ? [`Left out in ${name}: ${lacks.join('. ')}.`] : []),
    ...(data.hasIncomeTax ? [leftOutEverywhere] : []),
    ...(data.local !== undefined && law.localRate === 0
      ? [`No local income tax is counted; usual in ${name}: ${data.local.says}.`]
      : []),
  ]
}

const asksForHome = ({ rules }: RulesOfYear): boolean => /"(propertyTax|rent)"/.test(JSON.stringify(rules))

/** What no state's rules here have, or what this program does not ask for. */
const leftOutEverywhere =
  'Left out in every state: itemized deductions, rules of their own for public and military pensions, credits for college savings, disability, energy and gifts, write-off rules of the state’s own, losses carried over by its rules, a part of a year and income in another state.'

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)
