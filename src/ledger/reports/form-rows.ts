// Schedule F and Schedule C row by row as they print, with the lines that the forms work out.
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { otherCostsSum } from '../form-editions.ts'
import type { FormLine, OwnerForm } from './form-lines.ts'
import type { ScheduleC } from './schedule-c.ts'
import type { ScheduleF } from './schedule-f.ts'

export interface FormRow {
  line: string
  label: string
  amountCents: Cents
  note?: string
  accounts: FormLine['accounts']
  /** Worked out by the form. */
  isTotal: boolean
  /** Of the two owners, where there are two forms. */
  owners?: readonly [Cents, Cents]
}

/** `owners` are the forms of two owners. */
export const scheduleFRows = (form: ScheduleF, owners: readonly [OwnerForm, OwnerForm] | null): FormRow[] => {
  const each = (amountOf: (owner: OwnerForm) => number) =>
    owners ? { owners: [cents(amountOf(owners[0])), cents(amountOf(owners[1]))] as const } : {}
  const amount = (line: string) => (owner: OwnerForm) => owner.amounts.get(line) ?? 0
  const resold = form.income.filter(({ line }) => line === '1a' || line === '1b')
  const net = (amounts: (line: string) => number) => cents(amounts('1a') - amounts('1b'))
  const whole = (line: string) => form.income.find((one) => one.line === line)?.amountCents ?? 0
  return [
    ...resold.flatMap((line) => rowsOf(line, (at) => each(amount(at)))),
    ...(resold.length === 0
      ? []
      : [
          {
            ...total('1c', 'Line 1a less line 1b', net(whole)),
            ...each((owner) => net((line) => amount(line)(owner))),
          },
        ]),
    ...form.income
      .filter((line) => !resold.includes(line))
      .flatMap((line) => rowsOf(line, (at) => each(amount(at)))),
    { ...total('9', 'Gross income', form.grossIncomeCents), ...each((one) => one.grossIncomeCents) },
    ...form.expenses.flatMap((line) => rowsOf(line, (at) => each(amount(at)))),
    { ...total('33', 'Total expenses', form.totalExpensesCents), ...each((one) => one.totalExpensesCents) },
    { ...total('34', 'Net farm profit or loss', form.netProfitCents), ...each((one) => one.netProfitCents) },
  ]
}

/** Parts I to III, then the other costs of Part V one by one, whose sum is on line 27. */
export const scheduleCRows = (form: ScheduleC): FormRow[] => {
  const taken = sumCents(
    form.income.map(({ line, amountCents }) => cents(line === '2' ? -amountCents : amountCents)),
  )
  const others = form.income.filter(({ line }) => line === '6')
  const sales = form.income.filter(({ line }) => line !== '6')
  const other = sumCents(others.map(({ amountCents }) => amountCents))
  const net = cents(taken - other)
  const listed = form.expenses.filter(({ line }) => line.startsWith(otherCostsLine))
  const listedCents = sumCents(listed.map(({ amountCents }) => amountCents))
  return [
    ...sales.flatMap((line) => rowsOf(line)),
    total('3', 'Line 1 less line 2', net),
    ...(form.goodsSold.length === 0 ? [] : [total('4', 'Cost of goods sold, line 42', form.goodsSoldCents)]),
    total('5', 'Gross profit', cents(net - form.goodsSoldCents)),
    ...others.flatMap((line) => rowsOf(line)),
    total('7', 'Gross income', form.grossIncomeCents),
    ...form.expenses.filter((line) => !listed.includes(line)).flatMap((line) => rowsOf(line)),
    ...(listed.length === 0 ? [] : [total(otherCostsSum(form.year), 'Other costs, line 48', listedCents)]),
    total('28', 'Total expenses', form.totalExpensesCents),
    total('29', 'Profit before use of the home', cents(form.grossIncomeCents - form.totalExpensesCents)),
    ...(form.homeCents === 0
      ? []
      : [{ ...total('30', 'Business use of the home, by area', form.homeCents), note: form.homeNote }]),
    total('31', 'Net profit or loss', form.netProfitCents),
    ...form.goodsSold.filter(({ line }) => line !== '41').flatMap((line) => rowsOf(line)),
    ...(form.goodsSold.length === 0
      ? []
      : [
          total(
            '40',
            'Lines 35 to 39 together',
            sumCents(form.goodsSold.flatMap(({ line, amountCents }) => (line === '41' ? [] : [amountCents]))),
          ),
          ...form.goodsSold.filter(({ line }) => line === '41').flatMap((line) => rowsOf(line)),
          total('42', 'Cost of goods sold', form.goodsSoldCents),
        ]),
    ...listed.flatMap(partV),
    ...(listed.length === 0 ? [] : [total(otherCostsLine, 'Total other costs, to line 27', listedCents)]),
  ]
}

const otherCostsLine = '48'

/** An account a line, where what they hold is what is deducted. */
const partV = (line: FormLine): FormRow[] =>
  sumCents(line.accounts.map(({ amountCents }) => amountCents)) === line.amountCents
    ? line.accounts.flatMap((one) =>
        rowsOf({ line: 'Part V', label: one.name, amountCents: one.amountCents, accounts: [one] }),
      )
    : rowsOf({ ...line, line: 'Part V' })

const total = (line: string, label: string, amountCents: Cents): FormRow => ({
  line,
  label,
  amountCents,
  accounts: [],
  isTotal: true,
})

const rowsOf = (line: FormLine, more: (at: string) => Pick<FormRow, 'owners'> = () => ({})): FormRow[] => {
  const { label, amountCents, note, accounts, taxed } = line
  const row: FormRow = {
    line: line.line,
    label,
    amountCents,
    accounts,
    isTotal: false,
    ...(note ? { note } : {}),
    ...more(line.line),
  }
  return taxed
    ? [row, { ...total(taxed.line, 'Taxed of it', taxed.amountCents), isTotal: false, ...more(taxed.line) }]
    : [row]
}
