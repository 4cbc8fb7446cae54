// What the yearly forms of a farm or venture ask and the books do not know. Amounts are of one year; the rest holds until said anew.
import type { Day } from '#calendar/day.ts'
import { type Cents, zeroCents } from '#money/cents.ts'

export type YesNo = 'yes' | 'no' | null

/** A car or van of the business: deducted by its costs as booked, or by its miles in place of them. */
export interface VehicleSaid {
  by: 'costs' | 'miles'
  /** Of costs: the whole of them is booked, or the business's part alone; null where nobody said. */
  booked: 'whole' | 'part' | null
  inUseSince: Day | null
  businessMiles: number | null
  commutingMiles: number | null
  otherMiles: number | null
  evidence: 'written' | 'unwritten' | 'none' | null
}

/** What both forms ask alike. */
export interface BusinessSaid {
  product: string
  /** Principal activity by the six digits of the form's own list. */
  code: string
  hasEmployerId: YesNo
  takesPart: YesNo
  /** Whether payments called for Forms 1099; null where the books' payees tell it. */
  owes1099: YesNo
  files1099: YesNo
  atRisk: 'all' | 'some' | null
  vehicle: VehicleSaid
  /** Of the home, used for the business alone; null deducts nothing. */
  homeSquareFeet: number | null
  /** First and last day of that use; null where it has no beginning or no end that counts: then all of the year. */
  homeFrom: Day | null
  homeUntil: Day | null
  /** The day it began as a business; null where that was before these books, or is not said. */
  beganOn: Day | null
  /** Paid before that day in years that the books do not have. */
  startUpBeforeCents: Cents
}

export const partlyUntaxedLines = ['3a', '4a', '5b', '6a'] as const
export type PartlyUntaxed = (typeof partlyUntaxedLines)[number]

/** Lines of supplies that can be paid ahead. */
export const prepaidLines = ['11', '16', '17', '26', '28'] as const
export type PrepaidLine = (typeof prepaidLines)[number]

/** More stock sold than usual because of weather, one kind of animal (26 USC 451(g)). */
export interface WeatherSale {
  what: string
  origin: 'raised' | 'bought'
  sold: number
  usual: number
  /** Income from all of the kind sold in the year. */
  incomeCents: Cents
}

/** one: one person's farm. joint: two married people who elect a qualified joint venture (26 USC 761(f)). partnership: Form 1065. */
export const ownerships = ['one', 'joint', 'partnership'] as const

/** Gallons burned on the farm for farming in the year, of fuel that was bought with its tax; null claims nothing back. */
export interface FarmFuel {
  gasolineGallons: number | null
  /** Undyed: dyed diesel is sold without the tax. */
  dieselGallons: number | null
}

export interface FarmSaid extends BusinessSaid {
  ownership: (typeof ownerships)[number] | null
  /** Of one owner: the plan's person. */
  owner: string | null
  /** Of two owners: what belongs to the plan's first person; null follows the plan. */
  firstShare: number | null
  untaxed: Readonly<Record<PartlyUntaxed, Cents>>
  /** Commodity loans count as income when they are received (26 USC 77). */
  loansAsIncome: YesNo
  loansReceivedCents: Cents
  /** Of line 6a, put off to the next year (26 USC 451(f)). */
  cropPutOffCents: Cents
  weatherSales: readonly WeatherSale[]
  prepaid: Readonly<Record<PrepaidLine, Cents>>
  /** The limit on supplies paid ahead does not hold: mostly used up in the three years before, or an unusual year. */
  prepaidExempt: boolean
  /** Left by years that the books do not have. */
  conservationBeforeCents: Cents
  /** Breeding stock sold because of weather: by its place on the inventory, what stock in its place costs (26 USC 1033(e)). */
  replaced: Readonly<Record<string, Cents>>
  /** The area was declared eligible for federal help because of that weather: four years to replace what was sold, not two. */
  weatherArea: YesNo
  fuel: FarmFuel
}

export interface VentureSaid extends BusinessSaid {
  /** Who runs it; null where the plan tells. */
  person: string | null
  /** Whether it began in this year, where no day is said. */
  began: YesNo
}

/** What a farm's year leaves to the next one. */
export interface FarmCarried {
  cropInsuranceCents: Cents
  weatherSalesCents: Readonly<Record<WeatherSale['origin'], Cents>>
  conservationCents: Cents
  /** Credit for tax on fuel: income of the next year. */
  fuelCreditCents: Cents
  prepaid: Readonly<Record<PrepaidLine, Cents>>
}

const perLine = <Line extends string>(lines: readonly Line[]): Record<Line, Cents> =>
  Object.fromEntries(lines.map((line) => [line, zeroCents])) as Record<Line, Cents>

export const noFarmCarried: FarmCarried = {
  cropInsuranceCents: zeroCents,
  weatherSalesCents: { raised: zeroCents, bought: zeroCents },
  conservationCents: zeroCents,
  fuelCreditCents: zeroCents,
  prepaid: perLine(prepaidLines),
}

const noVehicle: VehicleSaid = {
  by: 'costs',
  booked: null,
  inUseSince: null,
  businessMiles: null,
  commutingMiles: null,
  otherMiles: null,
  evidence: null,
}

const nothingOfBusiness: BusinessSaid = {
  product: '',
  code: '',
  hasEmployerId: null,
  takesPart: null,
  owes1099: null,
  files1099: null,
  atRisk: null,
  vehicle: noVehicle,
  homeSquareFeet: null,
  homeFrom: null,
  homeUntil: null,
  beganOn: null,
  startUpBeforeCents: zeroCents,
}

export const nothingOfVenture: VentureSaid = { ...nothingOfBusiness, person: null, began: null }

export const nothingOfFarm: FarmSaid = {
  ...nothingOfBusiness,
  ownership: null,
  owner: null,
  firstShare: null,
  untaxed: perLine(partlyUntaxedLines),
  loansAsIncome: null,
  loansReceivedCents: zeroCents,
  cropPutOffCents: zeroCents,
  weatherSales: [],
  prepaid: perLine(prepaidLines),
  prepaidExempt: false,
  conservationBeforeCents: zeroCents,
  replaced: {},
  weatherArea: null,
  fuel: { gasolineGallons: null, dieselGallons: null },
}
