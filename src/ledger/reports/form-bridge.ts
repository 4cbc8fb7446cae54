// From the net income of the books, on the cash basis, to the profit of a business form: what is left out of it, and what each line holds otherwise.
import { type Cents, cents, negateCents, sumCents, zeroCents } from '#money/cents.ts'
import {
  type AccountYear,
  accountLine,
  type BookYear,
  changeOf,
  filled,
  isResult,
  type ReportLine,
} from './book-year.ts'
import { countedOf, type FormLine } from './form-lines.ts'

export interface FormBridge {
  booksCents: Cents
  /** In the books and on no line of the form; as it moves profit: income left out lowers it. */
  leftOut: readonly ReportLine[]
  /** Lines that hold other than their accounts, in the order of the form. */
  changed: readonly ChangedLine[]
  /** Line 34 of Schedule F, line 31 of Schedule C: the sum of all above. */
  formCents: Cents
}

export interface ChangedLine {
  line: string
  label: string
  says: string
  /** As it moves profit. */
  amountCents: Cents
}

/** A line as its accounts have it and as the form counts it; `sign` is how it moves profit. */
export interface BridgedLine {
  booked: FormLine | null
  counted: FormLine
  sign: 1 | -1
}

/** `lines` are all of the form that hold an amount, `notOnForm` all accounts of income and cost on none of them: so the parts come to its profit. */
export const formBridge = (
  books: BookYear,
  notOnForm: readonly AccountYear[],
  lines: readonly BridgedLine[],
  formCents: Cents,
): FormBridge => ({
  booksCents: negateCents(sumCents(books.accounts.filter(isResult).map(changeOf))),
  leftOut: filled(notOnForm.map((row) => accountLine(row, changeOf(row)))),
  changed: changedLines(lines),
  formCents,
})

export const changedLines = (lines: readonly BridgedLine[]): ChangedLine[] =>
  lines.flatMap(({ booked, counted, sign }) => {
    const amountCents = cents(sign * (countedOf(counted) - (booked?.amountCents ?? zeroCents)))
    const { label, note, taxed, line } = counted
    const says = note ?? `${label}: part that is not taxed, or put off`
    return amountCents === 0 ? [] : [{ line: taxed?.line ?? line, label, says, amountCents }]
  })

/** Each line of the form beside the one of its accounts. */
export const bridged = (
  counted: readonly FormLine[],
  booked: readonly FormLine[],
  signOf: (line: string) => 1 | -1,
): BridgedLine[] =>
  counted.map((line) => ({
    booked: booked.find((one) => one.line === line.line) ?? null,
    counted: line,
    sign: signOf(line.line),
  }))
