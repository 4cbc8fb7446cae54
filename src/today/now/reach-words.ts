// What the headline of Now rests on, in sentences: how far the books reach, whose savings are counted, and from when what is booked counts.
import { dayName, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, monthName } from '#calendar/month.ts'
import type { BooksGap } from '#db/reconcile/books-gaps.ts'
import { allOf } from '#money/lists.ts'
import type { AccountKind } from '#plan/savings-plan.ts'
import type { SavingsFrom } from '#today/projection/continued-plan.ts'
import type { NowFigures } from './figures.ts'

type Told = Pick<NowFigures, 'reach' | 'month' | 'plan' | 'spendable' | 'farmGaps' | 'behind' | 'loansUntold'>

export const reachWords = (told: Told): string[] => {
  const { reach, month, plan } = told
  const counted = [
    ...(plan.status === 'read' ? savingsWords(plan.savingsFrom) : []),
    ...loanWords(told.loansUntold),
  ]
  if (reach === null) return counted
  const isUnderWay = plan.status === 'read' && monthOfDay(reach.day) === month
  return [
    reach.isByHand
      ? `The books reach ${dayName(reach.day)}, as they were entered by hand.`
      : `The books reach ${dayName(reach.day)}.`,
    ...(reach.laterByHand === null
      ? []
      : [
          `An entry by hand of ${dayName(reach.laterByHand)} does not count here: how far the books reach comes from bank files, finished reconciliations and closed months.`,
        ]),
    ...(reach.missingMonths === 0
      ? []
      : [missingWords(reach, month, plan), behindWords(reach, told.spendable.waiting)]),
    ...waitingWords(told.spendable.waiting),
    ...gapWords(reach.gaps),
    ...farmGapWords(told.farmGaps),
    ...filesEndWords(told.behind),
    ...counted,
    ...(isUnderWay
      ? [
          `Months left are counted from the first of ${monthName(month)}, with this month as planned: what is booked in it moves them from ${monthName(addMonths(month, 1))} on.`,
        ]
      : []),
  ]
}

/** Months that no book holds are projected as far as the plan has begun, and so stand before this month. */
const missingWords = (
  { day, missingMonths }: NonNullable<Told['reach']>,
  month: Month,
  plan: Told['plan'],
): string => {
  const missing = `${missingMonths === 1 ? 'A month is' : `${missingMonths} months are`} missing since then`
  if (plan.status !== 'read') return `${missing}.`
  const from = plan.projectedFromMonth
  if (from === monthOfDay(day) + 1)
    return `${missing} and counted here as planned: the projection begins with ${monthName(from)}.`
  const [them, they] = missingMonths === 1 ? ['it', 'It is'] : ['them', 'They are']
  const unseen = 'is in no figure until the books hold it'
  return from < month
    ? `${missing}. ${they} counted here as planned from ${monthName(from)} on, where the plan begins; what was spent before ${unseen}.`
    : `${missing}. What was spent in ${them} ${unseen}: the plan begins in ${monthName(from)}.`
}

/** Whose money nobody has said anything of since, and how that is mended. */
const behindWords = (
  { accounts, isByHand, missingMonths }: NonNullable<Told['reach']>,
  { lines }: Told['spendable']['waiting'],
): string => {
  const names = accountsNamed(accounts.map((name) => `“${name}”`))
  // What was read in and waits to be sorted is said by the sentence after.
  const known = isByHand ? 'entered or closed' : `${lines > 0 ? 'sorted' : 'read'}, reconciled or closed`
  const [close, month] = missingMonths === 1 ? ['close it', 'it'] : ['close them', 'them']
  return `Of ${names} nothing is ${known} in ${month}. Where nothing happened, ${close}.`
}

/** Months may be missing only since nobody has sorted what the bank wrote of them. */
const waitingWords = ({ lines }: Told['spendable']['waiting']): string[] =>
  lines === 0
    ? []
    : [
        `${lines === 1 ? '1 transaction of the household is read in and waits' : `${lines} transactions of the household are read in and wait`} to be sorted: until then no figure counts ${lines === 1 ? 'it' : 'them'}.`,
      ]

/** Without its payments the plan spends too little. */
const loanWords = (loans: Told['loansUntold']): string[] =>
  loans.length === 0
    ? []
    : [
        `${together(
          loans.map(({ name }) => `“${name}”`),
          'loans',
        )} ${loans.length === 1 ? 'is' : 'are'} owed in the books, and the plan pays nothing on ${loans.length === 1 ? 'it' : 'them'}: unless other costs hold the payments, months left are too many.`,
      ]

const farmGapWords = (gaps: Told['farmGaps']): string[] => {
  const whole = gaps.filter(({ accounts }) => accounts.length === 0).map(({ month }) => monthName(month))
  return whole.length === 0
    ? []
    : [
        `Nothing is booked for the farm in ${together(whole)}, though its books go on after. Close a month in which nothing happened there.`,
      ]
}

/** Others are read further: the books as a whole reach beyond it. */
const filesEndWords = (behind: Told['behind']): string[] => {
  if (behind.length === 0) return []
  const [it, close] = behind.length === 1 ? ['it', 'nothing moved on it'] : ['them', 'nothing moved on them']
  const each = behind.map(({ name, through }) => `“${name}” (to ${dayName(through)})`)
  return [
    `The bank’s files of ${accountsNamed(each)} end before those of other accounts: what happened on ${it} since then is in no figure. Where ${close}, close those months.`,
  ]
}

/** Months passed over count in what savings are, with nothing in them. */
const gapWords = (gaps: readonly BooksGap[]): string[] => {
  if (gaps.length === 0) return []
  const whole = gaps.filter(({ accounts }) => accounts.length === 0).map(({ month }) => monthName(month))
  const parts = new Map<string, string[]>()
  for (const { month, accounts } of gaps)
    for (const name of accounts) parts.set(name, [...(parts.get(name) ?? []), monthName(month)])
  return [
    ...(whole.length === 0 ? [] : [`Nothing is booked in ${together(whole)}, though the books go on after.`]),
    ...[...parts].map(
      ([name, months]) =>
        `No bank file of “${name}” speaks of ${together(months)}, between those that were read.`,
    ),
    'Savings and months left count as if nothing had been spent or had come in then.',
  ]
}

/** By name up to three, then two and how many more. */
const accountsNamed = (names: readonly string[]): string =>
  names.length > 3 ? `${names[0]}, ${names[1]} and ${names.length - 2} more accounts` : together(names)

/** By name up to three, then the first and how many. */
const together = (names: readonly string[], what = 'months'): string =>
  names.length > 3 ? `${names.length} ${what}, the first ${names[0]}` : allOf(names)

const kindWords: Record<AccountKind, string> = {
  cash: 'cash',
  taxable: 'taxable accounts',
  traditional: 'traditional accounts',
  roth: 'Roth accounts',
  health: 'health savings',
}

const savingsWords = ({ books, plan, apart }: SavingsFrom): string[] => {
  if (books.length === 0) return ['Savings are counted as the plan has them: the books do not hold them yet.']
  const missing = [...plan.map((kind) => kindWords[kind]), ...apart.map((name) => `“${name}”`)]
  return missing.length === 0 ? [] : [`The books do not hold ${allOf(missing)}: counted as planned.`]
}
