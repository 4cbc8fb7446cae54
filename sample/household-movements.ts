// The household's account at the bank: what a family of three lives on, the premium, taxes, and Teo's bench money.
import { addDays, type Day, day, monthOfDay, weekdayOf } from '#calendar/day.ts'
import { type Month, monthOfYear, yearOf } from '#calendar/month.ts'
import { type Movement, postedInMonth, sampleMonths } from './sample-bank.ts'
import { type Dice, throwDice } from './sample-dice.ts'

export const householdMovements = (dice: Dice): Movement[] => [
  ...sampleMonths.flatMap((inMonth) => [...monthly(inMonth, dice), ...yearly(inMonth, dice)]),
  ...everyWeek().flatMap((on) => weekly(on, dice)),
  ...benchMonths().map(({ handedOver, inMonth }) =>
    line(postedInMonth(inMonth, 28), handedOver, 'BRANCH CASH DEPOSIT', 'Bench money'),
  ),
  ...taxes,
  ...mixedBills,
]

export interface BenchMonth {
  inMonth: Month
  /** Cents taken in, spent on parts and handed to the household. */
  takings: number
  parts: number
  handedOver: number
}

/** Teo's repair bench, kept by hand in a cash box: busier in winter and spring. */
export const benchMonths = (): BenchMonth[] => {
  const dice = throwDice(43)
  return sampleMonths.map((inMonth) => {
    const base = { 2023: 590, 2024: 620, 2025: 780, 2026: 930 }[yearOf(inMonth)] ?? 0
    const season = [1.15, 1.25, 1.35, 1.3, 1.1, 0.85, 0.7, 0.7, 0.8, 0.9, 0.9, 1][monthOfYear(inMonth) - 1]!
    const takings = Math.round(dice.around(base * season, 0.14) / 500) * 500
    const parts = Math.round((takings * dice.whole(17, 23)) / 100)
    return { inMonth, takings, parts, handedOver: Math.floor((takings - parts) / 1000) * 1000 }
  })
}

const line = (on: Day, cents: number, payee: string, memo = ''): Movement => ({
  account: 'household',
  day: on,
  cents,
  payee,
  memo,
})

/** Prices against 2024, rising some three per cent a year. */
const prices = (on: Month): number => 1.03 ** ((on - (2024 * 12 + 6)) / 12)

const premium: Readonly<Record<number, number>> = { 2023: 0, 2024: 142_18, 2025: 151_40, 2026: 268_90 }

const monthly = (inMonth: Month, dice: Dice): Movement[] => {
  const rise = prices(inMonth)
  const at = monthOfYear(inMonth)
  const isCold = at <= 3 || at >= 11
  const spend = (date: number, dollars: number, spread: number, payee: string, memo = '') =>
    line(postedInMonth(inMonth, date), -dice.around(dollars * rise, spread), payee, memo)
  const owed = premium[yearOf(inMonth)]!
  return [
    ...(owed > 0
      ? [line(postedInMonth(inMonth, 3), -owed, 'KEYSTEM HEALTH PLAN PREMIUM', 'Silver plan')]
      : []),
    spend(8, isCold ? 172 : 118, 0.12, 'VALLEY ELECTRIC COOP', 'House meter'),
    ...(isCold ? [spend(17, 265, 0.18, 'HIGH SPUR PROPANE', 'House tank')] : []),
    spend(6, 68, 0, 'TARN VALLEY FIBER'),
    spend(11, 76, 0, 'COPPERLINE MOBILE'),
    spend(13, 121, 0, 'LANTERN INSURANCE', 'Cars'),
    spend(16, 122, 0.5, 'THREAD AND SOLE', 'Clothes and shoes'),
    spend(19, 165, 0.5, 'HARBORLIGHT HOUSEWARES'),
    spend(21, 205, 0.35, 'TARN HOLLOW SCHOOL', 'Lunches, band, trips'),
    spend(24, 88, 0.8, 'HOLLOW FAMILY CLINIC', 'Copays'),
    spend(23, 84, 0.45, 'OAK GAP ANIMAL CARE', 'Dog and cats'),
    spend(25, 90, 0.1, 'TARN HOLLOW FOOD PANTRY', 'Giving'),
  ]
}

const yearly = (inMonth: Month, dice: Dice): Movement[] => {
  const rise = prices(inMonth)
  const spend = (date: number, dollars: number, payee: string, memo = '') =>
    line(postedInMonth(inMonth, date), -dice.around(dollars * rise, 0.08), payee, memo)
  const table: Record<number, Movement[]> = {
    1: [spend(20, 260, 'BRIGHT RIDGE DENTAL', 'Cleanings')],
    2: [spend(15, 560, 'HOLLOW AUTO SERVICE', 'Car service')],
    3: [spend(9, 380, 'NORTH GAP PLUMBING', 'Pump')],
    4: [spend(12, 1450, 'TARN COUNTY TREASURER', 'Property tax, first half')],
    5: [spend(14, 230, 'OAK GAP LUMBER', 'Porch boards')],
    6: [
      line(postedInMonth(inMonth, 10), -1260_00, 'LANTERN INSURANCE', 'House, yearly'),
      spend(18, 340, 'TARN LAKE CAMP', 'Junie, two weeks'),
    ],
    7: [spend(19, 260, 'BRIGHT RIDGE DENTAL', 'Cleanings')],
    8: [
      spend(21, 880, 'DUNE COTTAGE RENTALS', 'Five days away'),
      spend(28, 310, 'TARN HOLLOW SCHOOL', 'Supplies and fees'),
    ],
    9: [spend(13, 1450, 'TARN COUNTY TREASURER', 'Property tax, second half')],
    10: [spend(17, 520, 'HOLLOW AUTO SERVICE', 'Tires')],
    11: [spend(20, 340, 'OAK GAP LUMBER', 'Stove pipe and cord wood')],
    12: [spend(12, 520, 'HARBORLIGHT HOUSEWARES', 'Presents')],
  }
  return table[monthOfYear(inMonth)]!
}

const everyWeek = (): Day[] => Array.from({ length: 157 }, (_, week) => addDays(day('2023-11-01'), week * 7))

const weekly = (on: Day, dice: Dice): Movement[] => {
  const rise = prices(monthOfDay(on))
  const at = monthOfYear(monthOfDay(on))
  // From June to October the table is half the farm's.
  const groceries = (at >= 6 && at <= 10 ? 224 : 292) * rise
  const friday = addDays(on, (5 - weekdayOf(on) + 7) % 7)
  return [
    line(friday, -dice.around(groceries, 0.2), 'MILLSTONE MARKET', 'Groceries'),
    line(addDays(friday, -2), -dice.around(57 * rise, 0.3), 'CROSSROADS FUEL', 'Cars'),
    ...(dice.whole(0, 1) === 0
      ? [
          line(
            addDays(friday, -1),
            -dice.around(88 * rise, 0.5),
            dice.pick(['COVERED BRIDGE DINER', 'LANTERN CINEMA', 'RIVER SPOKE BOOKS']),
          ),
        ]
      : []),
    ...(dice.whole(0, 3) === 0
      ? [
          line(
            addDays(friday, -3),
            -dice.around(140 * rise, 0.6),
            'PENNYROYAL GENERAL STORE',
            'Odds and ends',
          ),
        ]
      : []),
  ]
}

const taxes: Movement[] = [
  line(day('2024-03-14'), 1840_00, 'US TREASURY TAX REFUND', 'Tax year 2023'),
  line(day('2024-04-10'), -212_00, 'STATE INCOME TAX', 'Tax year 2023'),
  line(day('2025-03-12'), 1690_00, 'US TREASURY TAX REFUND', 'Tax year 2024'),
  line(day('2025-04-09'), -164_00, 'STATE INCOME TAX', 'Tax year 2024'),
  line(day('2026-03-11'), 1120_00, 'US TREASURY TAX REFUND', 'Tax year 2025'),
  line(day('2026-04-08'), -418_00, 'STATE INCOME TAX', 'Tax year 2025'),
]

export interface MixedBill {
  day: Day
  payee: string
  /** The household's part and the farm's, in cents. */
  household: number
  farm: number
  farmAccount: 'Supplies' | 'Seeds and plants' | 'Feed' | 'Repairs and upkeep'
}

/** Farm and household goods on one bill, paid by the household. */
export const mixedReceipts: readonly MixedBill[] = [
  {
    day: day('2024-03-22'),
    payee: 'OAK GAP FARM SUPPLY',
    household: 48_75,
    farm: 86_40,
    farmAccount: 'Supplies',
  },
  {
    day: day('2024-06-14'),
    payee: 'OAK GAP FARM SUPPLY',
    household: 61_20,
    farm: 132_15,
    farmAccount: 'Supplies',
  },
  {
    day: day('2024-10-04'),
    payee: 'HOLLOW FEED AND GRAIN',
    household: 39_90,
    farm: 74_60,
    farmAccount: 'Feed',
  },
  {
    day: day('2025-04-25'),
    payee: 'OAK GAP FARM SUPPLY',
    household: 55_10,
    farm: 148_80,
    farmAccount: 'Supplies',
  },
  {
    day: day('2025-07-11'),
    payee: 'NORTH SPUR REPAIR',
    household: 92_00,
    farm: 118_50,
    farmAccount: 'Repairs and upkeep',
  },
  {
    day: day('2025-11-07'),
    payee: 'HOLLOW FEED AND GRAIN',
    household: 41_35,
    farm: 96_25,
    farmAccount: 'Feed',
  },
  {
    day: day('2026-02-13'),
    payee: 'ROOT AND RIDGE SEED',
    household: 36_00,
    farm: 124_50,
    farmAccount: 'Seeds and plants',
  },
  {
    day: day('2026-05-29'),
    payee: 'OAK GAP FARM SUPPLY',
    household: 58_40,
    farm: 171_95,
    farmAccount: 'Supplies',
  },
  {
    day: day('2026-09-25'),
    payee: 'HOLLOW FEED AND GRAIN',
    household: 44_10,
    farm: 88_70,
    farmAccount: 'Feed',
  },
]

const mixedBills: Movement[] = mixedReceipts.map((bill) =>
  line(bill.day, -(bill.household + bill.farm), bill.payee, 'House and farm goods'),
)
