// What the bank of the sample farm sees, three years of it: invented payees, amounts by season, the dates the story tells.
import { addDays, type Day, dateOfDay, day, monthOfDay } from '#calendar/day.ts'
import { type Month, month, monthOfYear, yearOf } from '#calendar/month.ts'
import { farmMovements } from './farm-movements.ts'
import { householdMovements } from './household-movements.ts'
import {
  type BankAccountName,
  type Movement,
  openingCents,
  postedInMonth,
  postedOn,
  sampleMonths,
} from './sample-bank.ts'
import { throwDice } from './sample-dice.ts'

/** In order of day; within a day money in first, as most banks post. */
export const makeMovements = (): Movement[] => {
  const made = [...farmMovements(throwDice(41)), ...householdMovements(throwDice(42)), ...movementsBetween()]
  const all = [...made, ...savingsInterest(made)]
  return all
    .filter((each) => each.day >= '2023-11-01' && each.day <= '2026-10-31')
    .map((each, at) => ({ each, at }))
    .sort((one, other) =>
      one.each.day < other.each.day
        ? -1
        : one.each.day > other.each.day
          ? 1
          : other.each.cents - one.each.cents || one.at - other.at,
    )
    .map(({ each }) => each)
}

/** Draws from the farm by month: none, then the steps of the story. */
export const drawDollars = (inMonth: Month): number => {
  if (inMonth < month(2025, 4)) return 0
  if (inMonth < month(2025, 7)) return 800
  if (inMonth < month(2026, 1)) return 1200
  if (inMonth < month(2026, 6)) return 1600
  return inMonth < month(2026, 9) ? 600 : 1700
}

/** The standing top-up of household checking from savings. */
export const topUpDollars = (inMonth: Month): number => {
  if (inMonth < month(2025, 4)) return 3000
  if (inMonth < month(2026, 1)) return 2400
  return inMonth >= month(2026, 6) && inMonth <= month(2026, 8) ? 2600 : 1900
}

export const contributions: readonly { day: Day; dollars: number; what: string }[] = [
  { day: day('2024-02-12'), dollars: 4000, what: 'Second propagation house' },
  { day: day('2024-04-08'), dollars: 5000, what: 'Pasture fence' },
  { day: day('2024-05-13'), dollars: 3000, what: 'Eight bred ewes' },
  { day: day('2026-06-15'), dollars: 2500, what: 'Replanting after frost and hail' },
]

export const reimbursements: readonly { day: Day; cents: number }[] = [
  { day: day('2024-09-20'), cents: 412_60 },
  { day: day('2025-03-18'), cents: 268_35 },
  { day: day('2026-04-09'), cents: 334_90 },
]

/** Each is seen twice: once in either account's statement, the second a day or two later. */
const movementsBetween = (): Movement[] => [
  ...sampleMonths.flatMap((inMonth) =>
    both('savings', 'household', postedInMonth(inMonth, 1), topUpDollars(inMonth) * 100, 'STANDING TRANSFER'),
  ),
  ...sampleMonths
    .filter((inMonth) => drawDollars(inMonth) > 0)
    .flatMap((inMonth) =>
      both('farm', 'household', postedInMonth(inMonth, 5), drawDollars(inMonth) * 100, 'OWNERS DRAW'),
    ),
  ...contributions.flatMap((each) => both('savings', 'farm', each.day, each.dollars * 100, 'TO FARM')),
  ...reimbursements.flatMap((each) => both('farm', 'household', each.day, each.cents, 'REIMBURSE SUPPLIES')),
]

const both = (
  from: BankAccountName,
  to: BankAccountName,
  on: Day,
  amount: number,
  words: string,
): Movement[] => {
  // The receiving account posts one working day later in every second month, so that matching has to look around.
  const arrives = monthOfDay(on) % 2 === 0 && dateOfDay(on) < 25 ? postedOn(addDays(on, 1)) : on
  return [
    { account: from, day: on, cents: -amount, payee: `ONLINE TRANSFER ${words}`, memo: `To ${shown[to]}` },
    {
      account: to,
      day: arrives,
      cents: amount,
      payee: `ONLINE TRANSFER ${words}`,
      memo: `From ${shown[from]}`,
    },
  ]
}

const shown: Record<BankAccountName, string> = {
  farm: 'account ending 2207',
  household: 'account ending 1180',
  savings: 'account ending 4419',
}

/** Yearly rate paid on savings, falling over the years; credited on the last working day. */
const savingsRate = (inMonth: Month): number =>
  yearOf(inMonth) < 2025 ? 0.042 : yearOf(inMonth) === 2025 ? 0.038 : 0.034

const savingsInterest = (made: readonly Movement[]): Movement[] => {
  const interest: Movement[] = []
  let balance = openingCents.savings
  for (const inMonth of sampleMonths) {
    for (const each of made) {
      if (each.account === 'savings' && monthOfDay(each.day) === inMonth) balance += each.cents
    }
    const earned = Math.round((balance * savingsRate(inMonth)) / 12)
    balance += earned
    interest.push({
      account: 'savings',
      day: postedInMonth(inMonth, 31),
      cents: earned,
      payee: 'INTEREST PAID',
      memo: `Month ${monthOfYear(inMonth)}`,
    })
  }
  return interest
}
