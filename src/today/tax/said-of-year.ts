// What people said of a year for the forms of farm and ventures: kept as a setting a side, by year; what is no amount holds on.
import { z } from 'zod'
import { parseDay } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import { farmSide, type SideId } from '#ledger/account.ts'
import {
  type BusinessSaid,
  type FarmSaid,
  nothingOfFarm,
  nothingOfVenture,
  ownerships,
  partlyUntaxedLines,
  prepaidLines,
  type VentureSaid,
} from '#ledger/tax/form-said.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'

const amount = z
  .number()
  .int()
  .transform((value): Cents => cents(value))
const yesNo = z.enum(['yes', 'no']).nullable().default(null)
const count = z.number().min(0).nullable().default(null)

const dayOrNull = z
  .string()
  .transform((text) => parseDay(text))
  .nullable()
  .default(null)

const vehicle = z.object({
  by: z.enum(['costs', 'miles']).default('costs'),
  booked: z.enum(['whole', 'part']).nullable().default(null),
  inUseSince: dayOrNull,
  businessMiles: count,
  commutingMiles: count,
  otherMiles: count,
  evidence: z.enum(['written', 'unwritten', 'none']).nullable().default(null),
})

const business = {
  product: z.string().default(''),
  code: z.string().default(''),
  hasEmployerId: yesNo,
  takesPart: yesNo,
  owes1099: yesNo,
  files1099: yesNo,
  atRisk: z.enum(['all', 'some']).nullable().default(null),
  vehicle: vehicle.prefault({}),
  homeSquareFeet: count,
  homeFrom: dayOrNull,
  homeUntil: dayOrNull,
  beganOn: dayOrNull,
  startUpBeforeCents: amount.default(zeroCents),
}

const amountsOf = <const Lines extends readonly string[]>(lines: Lines) =>
  z.object(
    Object.fromEntries(lines.map((line) => [line, amount.default(zeroCents)])) as Record<
      Lines[number],
      z.ZodDefault<typeof amount>
    >,
  )

const farmYear = z.object({
  ...business,
  ownership: z.enum(ownerships).nullable().default(null),
  owner: z.string().nullable().default(null),
  firstShare: z.number().min(0).max(1).nullable().default(null),
  untaxed: amountsOf(partlyUntaxedLines).prefault({}),
  loansAsIncome: yesNo,
  loansReceivedCents: amount.default(zeroCents),
  cropPutOffCents: amount.default(zeroCents),
  weatherSales: z
    .array(
      z.object({
        what: z.string(),
        origin: z.enum(['raised', 'bought']),
        sold: z.number().min(0),
        usual: z.number().min(0),
        incomeCents: amount,
      }),
    )
    .default([]),
  prepaid: amountsOf(prepaidLines).prefault({}),
  prepaidExempt: z.boolean().default(false),
  conservationBeforeCents: amount.default(zeroCents),
  replaced: z.record(z.string(), amount).default({}),
  weatherArea: yesNo,
  fuel: z.object({ gasolineGallons: count, dieselGallons: count }).prefault({}),
})

const ventureYear = z.object({ ...business, person: z.string().nullable().default(null), began: yesNo })

const yearsOf = <Year extends z.ZodType>(year: Year) =>
  z.object({ years: z.record(z.string().regex(/^\d{4}$/), year).default({}) })

const shapes = { farm: yearsOf(farmYear), venture: yearsOf(ventureYear) }

/** The setting that keeps what was said of a side. */
export const saidSetting = (sideId: SideId): string =>
  sideId === farmSide ? 'schedule-f' : `schedule-c ${sideId}`

export interface SaidOfYear<Said> {
  said: Said
  revision: number
  /** False where it is what an earlier year said, without its amounts. */
  isOwn: boolean
}

export const farmSaid = (books: Books, year: number): SaidOfYear<FarmSaid> =>
  saidOf<FarmSaid>(books, farmSide, shapes.farm, year, nothingOfFarm, (earlier) => ({
    ...nothingOfFarm,
    ...holdingOn(earlier),
    ownership: earlier.ownership,
    owner: earlier.owner,
    firstShare: earlier.firstShare,
    loansAsIncome: earlier.loansAsIncome,
  }))

export const ventureSaid = (books: Books, sideId: SideId, year: number): SaidOfYear<VentureSaid> =>
  saidOf<VentureSaid>(books, sideId, shapes.venture, year, nothingOfVenture, (earlier) => ({
    ...nothingOfVenture,
    ...holdingOn(earlier),
    person: earlier.person,
  }))

/** Whether anything was said of a side in an earlier year. */
export const isSaidBefore = (books: Books, sideId: SideId, year: number): boolean => {
  const { value } = readSettingAs(books, saidSetting(sideId), yearsOf(z.unknown()))
  return Object.keys(value?.years ?? {}).some((key) => Number(key) < year)
}

/** Saves one year over the revision the form was opened with; what is saved already, word for word, is saved. */
export const saveSaidOf = (
  books: Books,
  act: { at: string; actor: string },
  sideId: SideId,
  year: number,
  said: FarmSaid | VentureSaid,
  basedOn: number,
): ReturnType<typeof writeSetting> => {
  const shape: z.ZodType<{ years: Record<string, unknown> }> =
    sideId === farmSide ? shapes.farm : shapes.venture
  const { value, revision } = readSettingAs(books, saidSetting(sideId), shape)
  const years = value?.years ?? {}
  const key = String(year)
  const written = JSON.stringify(shape.parse({ years: { [key]: said } }).years[key])
  if (revision !== basedOn && JSON.stringify(years[key]) === written) return { ok: true, revision }
  const all = { ...years, [key]: said }
  return writeSetting(
    books,
    act,
    saidSetting(sideId),
    { years: withOneBeginning(all, said.beganOn) },
    basedOn,
  )
}

const withOneBeginning = (
  years: Readonly<Record<string, unknown>>,
  beganOn: BusinessSaid['beganOn'],
): Record<string, unknown> =>
  Object.fromEntries(Object.entries(years).map(([year, said]) => [year, { ...(said as object), beganOn }]))

/** The day a business began is one for all years, the one said last: costs before it are those of years before, too. */
const saidOf = <Said extends BusinessSaid>(
  books: Books,
  sideId: SideId,
  shape: z.ZodType<{ years: Record<string, Said> }>,
  year: number,
  nothing: Said,
  laterOf: (earlier: Said) => Said,
): SaidOfYear<Said> => {
  const { value, revision } = readSettingAs(books, saidSetting(sideId), shape)
  const years = value?.years ?? {}
  const beganOn = Object.values(years).find((one) => one.beganOn !== null)?.beganOn ?? null
  const own = years[String(year)]
  if (own) return { said: { ...own, beganOn }, revision, isOwn: true }
  const earlier = Object.keys(years)
    .filter((key) => Number(key) < year)
    .sort()
    .at(-1)
  const said = earlier ? laterOf(years[earlier]!) : nothing
  return { said: { ...said, beganOn }, revision, isOwn: false }
}

/** Of both forms alike: what one year says and the next one need not be asked again. */
const holdingOn = ({
  product,
  code,
  hasEmployerId,
  takesPart,
  atRisk,
  vehicle: { by, booked, inUseSince, evidence },
  homeSquareFeet,
  homeFrom,
  homeUntil,
}: FarmSaid | VentureSaid) => ({
  product,
  code,
  hasEmployerId,
  takesPart,
  atRisk,
  homeSquareFeet,
  homeFrom,
  homeUntil,
  vehicle: { ...nothingOfFarm.vehicle, by, booked, inUseSince, evidence },
})
