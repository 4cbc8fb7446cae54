// Tax by a state's brackets, gains on top at rates of their own where the state has them.
import {
  type NameTable,
  type Pairs,
  pairsOf,
  type ReadFor,
  readSum,
  type Scale,
  unscaled,
} from './amounts.ts'
import type { ReturnForm } from './return-form.ts'
import type { Brackets, Gains, YearRules } from './rule-form.ts'

/** Tax of a taxable income, by the return's status or by another column of the tables. */
export type Schedule = (form: ReturnForm, taxable: number, status: number) => number

/** `brackets` and `gains` say by what each moves with prices. */
export const readSchedule = (
  rules: YearRules,
  table: NameTable,
  scales: { brackets: Scale; gains: Scale },
): Schedule => {
  const columns = columnsOf(rules.brackets)
  const moved = scales.brackets.bands
  const none = rules.eachNoTaxUpTo ?? 0
  const ordinary: Schedule = (form, taxable, status) => {
    const by = form.index[moved]!
    return byBrackets(columns[status]!, taxable / by) * by
  }
  const tax = rules.gains ? withGains(rules.gains, ordinary, table, scales.gains) : ordinary
  return (form, taxable, status) => (taxable <= none * form.index[moved]! ? 0 : tax(form, taxable, status))
}

const withGains = (gains: Gains, ordinary: Schedule, table: NameTable, scale: Scale): Schedule => {
  const of = readSum(gains.of, table, unscaled)
  if (gains.brackets !== undefined) return stacked(of, columnsOf(gains.brackets), ordinary, scale.bands)
  const upTo = perStatus(gains.upTo ?? 0)
  const rate = gains.rate ?? 0
  return (form, taxable, status) => {
    const others = Math.max(
      taxable - gainWithin(of, form, taxable),
      Math.min(taxable, upTo[status]! * form.index[scale.bands]!),
    )
    return Math.min(
      ordinary(form, taxable, status),
      ordinary(form, others, status) + (taxable - others) * rate,
    )
  }
}

const stacked =
  (of: ReadFor, columns: readonly Pairs[], ordinary: Schedule, moved: number): Schedule =>
  (form, taxable, status) => {
    const others = taxable - gainWithin(of, form, taxable)
    const by = form.index[moved]!
    const column = columns[status]!
    return (
      ordinary(form, others, status) +
      (byBrackets(column, taxable / by) - byBrackets(column, others / by)) * by
    )
  }

const gainWithin = (of: ReadFor, form: ReturnForm, taxable: number): number =>
  Math.min(Math.max(0, of(form, -1)), taxable)

const perStatus = <T>(of: T | { single: T; joint: T; head: T; separate: T }): T[] =>
  typeof of === 'object' && of !== null && 'single' in of
    ? [of.single, of.joint, of.head, of.separate]
    : [of, of, of, of]

const columnsOf = (brackets: Brackets): Pairs[] => perStatus<[number, number][]>(brackets).map(pairsOf)

const byBrackets = ({ starts, values }: Pairs, taxable: number): number => {
  let tax = 0
  for (let k = 0; k < starts.length && taxable > starts[k]!; k += 1) {
    const end = k + 1 < starts.length ? starts[k + 1]! : Number.POSITIVE_INFINITY
    tax += (Math.min(taxable, end) - starts[k]!) * values[k]!
  }
  return tax
}
