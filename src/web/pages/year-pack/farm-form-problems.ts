// What cannot be said of a farm's year: more taken off a line than stands on it, fewer sold than usual put off, a joint venture of one.
import type { FieldProblem } from '#ledger/problem.ts'
import type { ScheduleF } from '#ledger/reports/schedule-f.ts'
import { partlyUntaxedLines, prepaidLines, type WeatherSale } from '#ledger/tax/form-said.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { BooksYear } from '#today/tax/books-year.ts'

interface Read {
  ownership: string | null
  untaxed: Readonly<Record<string, Cents | null>>
  prepaid: Readonly<Record<string, Cents | null>>
  cropPutOff: Cents | null
  weatherArea: 'yes' | 'no' | null
  weather: readonly {
    what: string
    origin: WeatherSale['origin']
    sold: number | null
    usual: number | null
    income: Cents | null
  }[]
}

export const farmSaidProblems = ({ farm }: BooksYear, read: Read): FieldProblem[] => {
  if (!farm) return []
  const { income, expenses } = farm.form
  return [
    ...partlyUntaxedLines.flatMap((line) =>
      over(`untaxed.line${line}`, amountOf(read.untaxed[`line${line}`]), bookedOn(income, line)),
    ),
    ...over(
      'cropPutOff',
      cents(amountOf(read.cropPutOff) + amountOf(read.untaxed.line6a)),
      bookedOn(income, '6a'),
    ),
    ...prepaidLines.flatMap((line) =>
      over(`prepaid.line${line}`, amountOf(read.prepaid[`line${line}`]), bookedOn(expenses, line)),
    ),
    ...read.weather.flatMap(weatherProblems),
    // Without that there is nothing to put off (26 USC 451(g)(1)): what was typed stays, and one of the two is taken back.
    ...(read.weatherArea === 'no' && read.weather.some((row) => !isEmptyRow(row))
      ? [
          {
            path: 'weatherArea',
            message: 'With “No” nothing of these sales can be put off: empty the rows, or say “Yes”',
          },
        ]
      : []),
    ...weatherBeyond(read.weather, { raised: bookedOn(income, '2'), bought: bookedOn(income, '1a') }),
  ]
}

const amountOf = (amount: Cents | null | undefined): Cents => amount ?? cents(0)

/** What the accounts of the line hold, whatever was said of it before. */
const bookedOn = (lines: ScheduleF['income'], line: string): Cents => {
  const found = lines.find((one) => one.line === line)
  return cents(found?.accounts.reduce((sum, { amountCents }) => sum + amountCents, 0) ?? 0)
}

const over = (path: string, amount: Cents, booked: Cents): FieldProblem[] =>
  amount === 0 || amount <= booked
    ? []
    : [{ path, message: `The books hold ${formatCents(booked)} on that line. Enter no more` }]

/** Rows of one origin share its line: the one with which they pass it is named. */
const weatherBeyond = (
  rows: Read['weather'],
  booked: Readonly<Record<WeatherSale['origin'], Cents>>,
): FieldProblem[] => {
  const left: Record<WeatherSale['origin'], number> = { ...booked }
  return rows.flatMap(({ origin, income }, i) => {
    const most = cents(Math.max(0, left[origin]))
    left[origin] -= amountOf(income)
    return over(`weather.${i}.income`, amountOf(income), most)
  })
}

const isEmptyRow = ({
  what,
  sold,
  usual,
  income,
}: Pick<Read['weather'][number], 'what' | 'sold' | 'usual' | 'income'>): boolean =>
  what === '' && sold === null && usual === null && income === null

const weatherProblems = (
  { what, sold, usual, income }: Read['weather'][number],
  i: number,
): FieldProblem[] => {
  if (isEmptyRow({ what, sold, usual, income })) return []
  const at = (name: string, message: string): FieldProblem => ({ path: `weather.${i}.${name}`, message })
  return [
    ...(what === '' ? [at('what', 'Say which animals, like cattle or sheep')] : []),
    ...(sold === null || sold === 0 ? [at('sold', 'Enter how many were sold in the year')] : []),
    ...(usual === null ? [at('usual', 'Enter how many are sold in a usual year')] : []),
    ...(sold !== null && usual !== null && usual > sold
      ? [at('usual', 'No more than usual were sold: nothing can be put off. Leave the row empty')]
      : []),
    ...(income === null ? [at('income', 'Enter the income from all of them')] : []),
  ]
}
