// A year's rules of one state made ready once: from then on a return is filled and worked, any number of times, with nothing made anew.
import {
  type Holds,
  type NameTable,
  nameTable,
  type Read,
  type ReadFor,
  readAmount,
  readCondition,
  readSum,
  type Scale,
  unscaled,
} from './amounts.ts'
import { derivedFigures, workingOrder } from './derived-figures.ts'
import { readItem } from './item.ts'
import { emptyReturnForm, type ReturnForm, step } from './return-form.ts'
import type { Item, YearRules } from './rule-form.ts'
import { readSchedule, type Schedule } from './schedule.ts'
import type { StateData } from './state-data.ts'

/** Parts of a year's rules that are lists of items. */
export const sectionNames = [
  'add',
  'subtract',
  'deduct',
  'exempt',
  'alsoTax',
  'taxAtMost',
  'taxAtLeast',
  'ownCredits',
  'credits',
  'flatTax',
] as const
export type SectionName = (typeof sectionNames)[number]

/** An item and what it came to in the last return worked: of a credit, what was used of it. */
export interface Line {
  section: SectionName
  item: Item
  value: ReadFor
  /** Place under which later rules find it; −1 where none asks. */
  place: number
  /** Among those of which only the largest counts; −1 for none. */
  pick: number
  used: number
}

export interface Program {
  lines: Readonly<Record<SectionName, Line[]>>
  /** Works what the rules name of other figures. */
  derive: (form: ReturnForm) => void
  start: readonly ReadFor[]
  floorEach: boolean
  schedule: Schedule
  noTaxWhen: readonly Holds[]
  taxAtMostWhen: readonly (readonly Holds[])[]
  spouses: CompiledSpouses | null
  /** Dollars a dependent that may go to either column. */
  ownUnit: Read
  /** The return, and each spouse's own. */
  form: ReturnForm
  ones: [ReturnForm, ReturnForm]
  /** Other ways to work the same return, of which the lowest tax counts. */
  others: readonly Program[]
  local: LocalBase
}

/** What local tax is a share of, and whether it is paid with the state's return. */
export interface LocalBase {
  place: number
  withState: boolean
}

export interface CompiledSpouses {
  method: 'own' | 'byShare' | 'split'
  when: readonly Holds[]
  whole: boolean
  /** Status of the tables; −1 for the return's. */
  column: number
  income: ReadFor
  lessAmount: Read
  lessExemptions: boolean
  most: Read
  asCredit: boolean
}

/** By what each part of the rules moves with prices: sections, `brackets`, `gains`, `spouses`, or an item by its own words. */
export type Scales = (
  part: SectionName | 'brackets' | 'gains' | 'spouses' | 'start' | 'noTaxWhen',
  what?: string,
) => Scale

/** `local` says what local tax in the state is a share of, where that is not the state's taxable income. */
export const compileRules = (rules: YearRules, scales: Scales, local?: StateData['local']): Program => {
  const table = nameTable()
  const localBase: LocalBase = {
    place: local === undefined ? step.taxable : table.placeOf(local.on),
    withState: local?.withState === true,
  }
  const main = partsOf(rules, table, scales)
  const others = (rules.or ?? []).map((or) =>
    partsOf(
      {
        ...rules,
        subtract: [...(rules.subtract ?? []), ...(or.subtract ?? [])],
        ...(or.noCredits ? { credits: [] } : {}),
      },
      table,
      scales,
    ),
  )
  const finish = (parts: Parts): Omit<Program, 'others'> => ({
    ...parts,
    derive: derivationOf(table),
    local: localBase,
    form: emptyReturnForm(table.length()),
    ones: [emptyReturnForm(table.length()), emptyReturnForm(table.length())],
  })
  return { ...finish(main), others: others.map((parts) => ({ ...finish(parts), others: [] })) }
}

type Parts = Omit<Program, 'others' | 'derive' | 'local' | 'form' | 'ones'>

const partsOf = (rules: YearRules, table: NameTable, scales: Scales): Parts => {
  nameWhatAmountsNeed(rules, table)
  const sections = sectionNames.map((section): [SectionName, Line[]] => [
    section,
    linesOf(section, rules[section] ?? [], table, scales),
  ])
  return {
    lines: Object.fromEntries(sections) as Record<SectionName, Line[]>,
    start: rules.start.of.map((name) => readSum([name], table, unscaled)),
    floorEach: rules.start.floorEach === true,
    schedule: readSchedule(rules, table, { brackets: scales('brackets'), gains: scales('gains') }),
    noTaxWhen: (rules.noTaxWhen ?? []).map((one) => readCondition(one, table, scales('noTaxWhen'))),
    taxAtMostWhen: (rules.taxAtMost ?? []).map(({ what, when = [] }) =>
      when.map((one) => readCondition(one, table, scales('taxAtMost', what))),
    ),
    spouses: rules.spouses ? spousesOf(rules.spouses, table, scales('spouses')) : null,
    ownUnit: readAmount(rules.ownUnit ?? 0, scales('ownCredits').values),
  }
}

/** Amounts and rows that vary with the poverty line or with the people read figures that no rule names. */
const nameWhatAmountsNeed = (rules: YearRules, table: NameTable): void => {
  const text = JSON.stringify(rules)
  if (text.includes('"timesPoverty"')) table.placeOf('povertyLine')
  if (text.includes('"bySize"')) {
    table.placeOf('size')
    table.placeOf('agedCount')
  }
  if (rules.spouses) table.placeOf('gross')
}

const linesOf = (section: SectionName, items: readonly Item[], table: NameTable, scales: Scales): Line[] => {
  const picks = [...new Set(items.flatMap(({ pick }) => (pick === undefined ? [] : [pick])))]
  return items.map((item) => ({
    section,
    item,
    value: readItem(item, table, scales(section, item.what)),
    place: item.id === undefined ? -1 : table.placeOf(section === 'credits' ? `credit.${item.id}` : item.id),
    pick: item.pick === undefined ? -1 : picks.indexOf(item.pick),
    used: 0,
  }))
}

const derivationOf = (table: NameTable): ((form: ReturnForm) => void) => {
  const work = workingOrder(table.named).map((name) => derivedFigures[name].work)
  return (form) => {
    for (let k = 0; k < work.length; k += 1) work[k]!(form)
  }
}

const spousesOf = (
  rule: NonNullable<YearRules['spouses']>,
  table: NameTable,
  scale: Scale,
): CompiledSpouses => ({
  method: rule.method,
  when: (rule.when ?? []).map((one) => readCondition(one, table, scale)),
  whole: rule.whole === true,
  column: rule.column === 'single' ? 0 : -1,
  income: readSum(rule.income ?? 'stateAgi', table, scale),
  lessAmount: readAmount(rule.lessAmount ?? 0, scale.values),
  lessExemptions: rule.lessExemptions === true,
  most: readAmount(rule.most ?? Number.POSITIVE_INFINITY, scale.values),
  asCredit: rule.asCredit === true,
})
