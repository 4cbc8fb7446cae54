// Lines of a business form made from its accounts: what the summaries of Schedule F and Schedule C share.
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { LineCaption } from '../schedule-f-lines.ts'
import { type AccountYear, accountLine, changeOf, movedOf, type ReportLine, takenIn } from './book-year.ts'

export interface FormLine extends ReportLine {
  line: string
  /** What of it is taxed, on a line of its own beside it. */
  taxed?: { line: string; amountCents: Cents }
}

/** Accounts by the line they count on. */
export const rowsByLine = (
  rows: readonly AccountYear[],
  lineOf: (row: AccountYear) => string | null,
): Map<string, AccountYear[]> => {
  const byLine = new Map<string, AccountYear[]>()
  for (const row of rows) {
    const line = lineOf(row)
    if (line !== null) byLine.set(line, [...(byLine.get(line) ?? []), row])
  }
  return byLine
}

/** Every line of the list, also those without an amount. `isListed`: it is named by its accounts. */
export const linesOf = (
  captions: readonly LineCaption[],
  byLine: ReadonlyMap<string, readonly AccountYear[]>,
  signOf: (caption: LineCaption) => 1 | -1,
  isListed: (line: string) => boolean,
): FormLine[] =>
  captions.map((caption) => {
    const { line, says } = caption
    const parts = (byLine.get(line) ?? []).map((row) => accountLine(row, changeOf(row), signOf(caption)))
    return {
      line,
      label: isListed(line) && parts[0] ? parts.map((part) => part.label).join(', ') : says,
      amountCents: sumCents(parts.map((part) => part.amountCents)),
      accounts: parts.flatMap((part) => part.accounts).filter((part) => part.amountCents !== 0),
    }
  })

/** The line with more or less on it than is booked, and why. */
export const changedBy = (line: FormLine, change: number, why: string): FormLine =>
  change === 0
    ? line
    : {
        ...line,
        amountCents: cents(line.amountCents + change),
        note: `${line.note ? `${line.note}; ` : `Booked ${formatCents(line.amountCents)}, `}${why}`,
      }

/** On the line for other income of the form that deducted it (Form 4797, Part IV). */
export const fallsBackWhy = (amountCents: Cents): string =>
  `with ${formatCents(amountCents)} deducted before that is income again, since business use fell to half or less (Form 4797, Part IV)`

/** The employer's part of payroll taxes is deducted when it is paid (cash method: 26 USC 461(a), 26 CFR 1.461-1(a)(1)). */
export const asPaid = (line: FormLine, rows: readonly AccountYear[] = []): FormLine => {
  const at = (end: 'begin' | 'end') => sumCents(rows.map((row) => row.unpaidCents?.[end] ?? cents(0)))
  const [begin, end] = [at('begin'), at('end')]
  const ofBefore = begin === 0 ? '' : `with ${formatCents(begin)} of payroll taxes of the year before`
  const ofNext = end === 0 ? '' : `without ${formatCents(end)} of payroll taxes not paid by the end`
  return changedBy(line, begin - end, [ofBefore, ofNext].filter(Boolean).join(', '))
}

/** The amount stands in place of what the books hold. */
export const inPlaceOf = (line: FormLine, amountCents: Cents, note: string): FormLine => ({
  ...line,
  amountCents,
  accounts: [],
  note,
})

/** What counts of a line. */
export const countedOf = ({ taxed, amountCents }: FormLine): Cents => taxed?.amountCents ?? amountCents

/** Only lines that say something. */
export const filledLines = (lines: readonly FormLine[]): FormLine[] =>
  lines.filter(({ amountCents, taxed }) => amountCents !== 0 || (taxed?.amountCents ?? 0) !== 0)

/** Where miles are deducted, what the vehicle cost is not (Rev. Proc. 2019-46); nor is the private part of its costs. */
export const vehicleBeside = (
  line: string,
  booked: readonly FormLine[],
  counted: readonly FormLine[],
): ReportLine[] => {
  const [before, now] = [booked, counted].map((lines) => lines.find((one) => one.line === line)!)
  if (before!.amountCents === 0) return []
  if (now!.accounts.length === 0)
    return [{ ...before!, label: 'Car and truck costs, for which miles are deducted' }]
  const privateCents = cents(before!.amountCents - now!.amountCents)
  return privateCents === 0
    ? []
    : [{ label: 'Car and truck costs, private part', amountCents: privateCents, accounts: [] }]
}

/** What stands in the books beside the form, positive as its account reads. */
export const besideLine = (row: AccountYear): ReportLine =>
  row.account.kind === 'income' ? accountLine(row, takenIn(row)) : accountLine(row, movedOf(row))

export interface OwnerForm {
  /** By line, in the order of the whole form. */
  amounts: ReadonlyMap<string, Cents>
  grossIncomeCents: Cents
  totalExpensesCents: Cents
  netProfitCents: Cents
}

interface WholeForm {
  income: readonly FormLine[]
  expenses: readonly FormLine[]
  netProfitCents: Cents
}

/**
 * One form for each of two owners: `firstShare` of each line, so cut that lines of both add up to the whole form's, and the first
 * one's profit is that share of the whole profit to the cent: cents are given out as the sum of lines passes them.
 */
export const formsOfTwo = (form: WholeForm, firstShare: number): readonly [OwnerForm, OwnerForm] => {
  const first = new Map<string, Cents>()
  const second = new Map<string, Cents>()
  let [sum, given, gross] = [0, 0, 0]
  const cut = (line: FormLine, sign: 1 | -1) => {
    sum += sign * countedOf(line)
    const upTo = firstOf(sum, firstShare)
    const part = sign * (upTo - given)
    given = upTo
    const keep = (at: string, whole: Cents, ofFirst: number) => {
      first.set(at, cents(ofFirst))
      second.set(at, cents(whole - ofFirst))
    }
    if (line.taxed) {
      keep(line.line, line.amountCents, firstOf(line.amountCents, firstShare))
      keep(line.taxed.line, line.taxed.amountCents, part)
    } else keep(line.line, line.amountCents, part)
  }
  for (const line of form.income) cut(line, line.line === '1b' ? -1 : 1)
  gross = given
  const wholeGross = sum
  for (const line of form.expenses) cut(line, -1)
  const ownerForm = (amounts: Map<string, Cents>, income: number, profit: number): OwnerForm => ({
    amounts,
    grossIncomeCents: cents(income),
    totalExpensesCents: cents(income - profit),
    netProfitCents: cents(profit),
  })
  return [ownerForm(first, gross, given), ownerForm(second, wholeGross - gross, form.netProfitCents - given)]
}

/** The first owner's part in cents of an amount in cents; the second has the rest. */
export const firstOf = (amount: number, firstShare: number): number => Math.round(amount * firstShare)
