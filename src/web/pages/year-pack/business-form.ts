// What the forms of farm and ventures ask alike: its fields, and how they are read and shown.
import { z } from 'zod'
import type { FieldProblem } from '#ledger/problem.ts'
import type { BusinessSaid, YesNo } from '#ledger/tax/form-said.ts'
import { type Cents, cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import {
  bookedDayOrNull,
  moneyZeroOrMoreOrNull,
  optionalText,
  quantityOrNull,
  wholeNumber,
} from '#web/forms/fields.ts'

const oneOf = <const Words extends readonly [string, ...string[]]>(words: Words) =>
  z
    .union([z.literal(''), z.enum(words)], { error: 'Choose one of those offered, or nothing' })
    .default('')
    .transform((word) => (word === '' ? null : word))

export const yesNo = () => oneOf(['yes', 'no'])

const atLeast0 = (message: string) =>
  quantityOrNull().refine((value) => value === null || value >= 0, { error: message })

export const businessFields = {
  basedOn: wholeNumber(0, 1_000_000_000),
  product: optionalText(80),
  code: z
    .string()
    .default('')
    .transform((text) => text.trim())
    .pipe(
      z.string().regex(/^(\d{6})?$/, { error: 'Enter the six digits of the form’s own list, or nothing' }),
    ),
  hasEmployerId: yesNo(),
  takesPart: yesNo(),
  owes1099: yesNo(),
  files1099: yesNo(),
  atRisk: oneOf(['all', 'some']),
  vehicleBy: z.enum(['costs', 'miles'], { error: 'Choose how the vehicle is deducted' }).default('costs'),
  vehicleBooked: oneOf(['whole', 'part']),
  inUseSince: bookedDayOrNull(),
  businessMiles: atLeast0('Enter miles, 0 or more'),
  commutingMiles: atLeast0('Enter miles, 0 or more'),
  otherMiles: atLeast0('Enter miles, 0 or more'),
  evidence: oneOf(['written', 'unwritten', 'none']),
  homeSquareFeet: atLeast0('Enter square feet, 0 or more'),
  homeFrom: bookedDayOrNull(),
  homeUntil: bookedDayOrNull(),
  beganOn: bookedDayOrNull(),
  startUpBefore: moneyZeroOrMoreOrNull(),
}

const businessShape = z.object(businessFields)
type Read = z.output<typeof businessShape>

export const businessOf = ({
  vehicleBy,
  vehicleBooked,
  inUseSince,
  businessMiles,
  commutingMiles,
  otherMiles,
  evidence,
  ...read
}: Read): BusinessSaid => ({
  product: read.product,
  code: read.code,
  hasEmployerId: read.hasEmployerId,
  takesPart: read.takesPart,
  owes1099: read.owes1099,
  files1099: read.files1099,
  atRisk: read.atRisk,
  homeSquareFeet: read.homeSquareFeet,
  homeFrom: read.homeFrom,
  homeUntil: read.homeUntil,
  beganOn: read.beganOn,
  startUpBeforeCents: amountOf(read.startUpBefore),
  vehicle: {
    by: vehicleBy,
    booked: vehicleBooked,
    inUseSince,
    businessMiles,
    commutingMiles,
    otherMiles,
    evidence,
  },
})

/**
 * What cannot be said of any business: miles in place of costs without miles, days of the home without a part of it or with an end before
 * the beginning, costs before a day that is not said. `what`: the farm, the business.
 */
export const businessProblems = (
  { vehicleBy, businessMiles, homeSquareFeet, homeFrom, homeUntil, beganOn, startUpBefore }: Read,
  what: string,
): FieldProblem[] => [
  ...(vehicleBy === 'miles' && businessMiles === null
    ? [{ path: 'businessMiles', message: `Enter the miles for ${what}, or choose costs as booked` }]
    : []),
  ...(beganOn === null && amountOf(startUpBefore) > 0
    ? [{ path: 'beganOn', message: `Enter the day ${what} began, or empty the costs before it` }]
    : []),
  ...(homeSquareFeet === null && (homeFrom !== null || homeUntil !== null)
    ? [{ path: 'homeSquareFeet', message: 'Enter the square feet used from that day, or empty the days' }]
    : []),
  ...(homeFrom !== null && homeUntil !== null && homeUntil < homeFrom
    ? [{ path: 'homeUntil', message: 'Enter a day on or after the first one' }]
    : []),
]

export const businessText = ({ vehicle, ...said }: BusinessSaid): Record<string, string> => ({
  product: said.product,
  code: said.code,
  hasEmployerId: wordOf(said.hasEmployerId),
  takesPart: wordOf(said.takesPart),
  owes1099: wordOf(said.owes1099),
  files1099: wordOf(said.files1099),
  atRisk: said.atRisk ?? '',
  vehicleBy: vehicle.by,
  vehicleBooked: vehicle.booked ?? '',
  inUseSince: vehicle.inUseSince ?? '',
  businessMiles: numberText(vehicle.businessMiles),
  commutingMiles: numberText(vehicle.commutingMiles),
  otherMiles: numberText(vehicle.otherMiles),
  evidence: vehicle.evidence ?? '',
  homeSquareFeet: numberText(said.homeSquareFeet),
  homeFrom: said.homeFrom ?? '',
  homeUntil: said.homeUntil ?? '',
  beganOn: said.beganOn ?? '',
  startUpBefore: amountText(said.startUpBeforeCents),
})

export const wordOf = (word: YesNo): string => word ?? ''
export const amountText = (amount: Cents): string => (amount === 0 ? '' : centsToDecimalText(amount))
export const amountOf = (amount: Cents | null): Cents => amount ?? cents(0)

export const numberText = (value: number | null): string => (value === null ? '' : String(value))
