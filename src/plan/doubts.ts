// What a plan can hold and a life cannot, or hardly: refused or asked about where it is typed. A plan that has it already is read
// and run all the same.
import { type Month, monthName, monthText, parseMonth } from '#calendar/month.ts'
import type { Doubt } from './doubt.ts'
import { accountDoubts } from './doubting/account-doubts.ts'
import { herdDoubts } from './doubting/herd-doubts.ts'
import { peopleDoubts } from './doubting/people-doubts.ts'
import type { Path } from './form/shape.ts'
import { eventDoubts } from './life/event-doubts.ts'
import { placeDoubts } from './place/place-doubts.ts'
import type { Plan } from './plan.ts'
import { ownedKinds } from './savings-plan.ts'

/** `today` is a day like `2026-11-25`. */
export const doubtsOf = (plan: Plan, today: string): Doubt[] => [
  ...peopleDoubts(plan, today),
  ...eventDoubts(plan),
  ...placeDoubts(plan),
  ...ownerless(plan),
  ...accountDoubts(plan),
  ...herdDoubts(plan),
  ...baseYears(plan),
  ...drawSteps(plan),
  ...phaseMonths(plan),
  ...pastStorms(plan, today),
  ...sameNames(plan),
]

/** Doubts that were not there before; all of them for a first plan. */
export const newDoubts = (plan: Plan, before: Plan | null, today: string): Doubt[] => {
  const had = new Set((before ? doubtsOf(before, today) : []).map(({ message }) => message))
  return doubtsOf(plan, today).filter(({ message }) => !had.has(message))
}

/** Places of a couple's retirement and health savings accounts that are nobody's yet: the owner's age decides the addition for early withdrawals and the required distributions. */
export const ownerlessAccounts = ({ household, savings }: Plan): number[] =>
  household.people.length < 2
    ? []
    : savings.accounts.flatMap(({ kind, owner }, place) =>
        owner === undefined && ownedKinds.includes(kind) ? [place] : [],
      )

const ownerless = (plan: Plan): Doubt[] =>
  ownerlessAccounts(plan).map((place) => ({
    path: ['savings', 'accounts', place, 'owner'],
    message: `${plan.savings.accounts[place]!.name}: this kind of account is one person’s. Choose whose`,
  }))

/** An averaging over years without income would save tax that is not saved. */
const baseYears = ({ tax }: Plan): Doubt[] => {
  const { taxableIncome, taxableIncomeTwoYearsBack, taxableIncomeThreeYearsBack } = tax.lastYear
  const all = { taxableIncome, taxableIncomeTwoYearsBack, taxableIncomeThreeYearsBack }
  if (!tax.averageFarmIncome) return []
  return Object.entries(all).flatMap(([name, amount]): Doubt[] =>
    amount > 0
      ? []
      : [
          {
            path: ['tax', 'lastYear', name],
            message: 'Farm income is averaged over this year. Was its taxable income 0?',
            asks: true,
          },
        ],
  )
}

/** Steps begun this long before the plan are more likely a slip of the year than a draw so old. */
const oldStepYears = 10

const drawSteps = ({ draw, startMonth }: Plan): Doubt[] => {
  if (draw.policy !== 'steps') return []
  const start = parseMonth(startMonth)!
  return draw.steps.flatMap(({ from }, place): Doubt[] => {
    const path = ['draw', 'steps', place, 'from']
    if (draw.steps.findIndex((one) => one.from === from) !== place)
      return [{ path, message: `Another step begins in ${nameOf(from)}. Choose another month` }]
    return start - (parseMonth(from) ?? start) > oldStepYears * 12
      ? [{ path, message: `${nameOf(from)} is long before the plan begins. Is that the month?`, asks: true }]
      : []
  })
}

const phaseMonths = ({ farm, startMonth }: Plan): Doubt[] =>
  farm.phases.flatMap(({ name, from }, place): Doubt[] => {
    const path = ['farm', 'phases', place, 'from']
    const other = farm.phases.findIndex((one) => one.from === from)
    const called = `${name}, ${nameOf(from)}`
    if (other !== place)
      return [
        { path, message: `${called}: “${farm.phases[other]!.name}” begins in that month. Choose another` },
      ]
    if (from >= startMonth) return []
    if (farm.phases.some((one) => one.from > from && one.from <= startMonth))
      return [{ path, message: `${called}: over before the plan begins. Choose a later month, or remove it` }]
    return [
      {
        path,
        message: `${called}: begins before the plan does, so the whole plan is in it`,
        asks: true as const,
      },
    ]
  })

const pastStorms = ({ storms, startMonth }: Plan, today: string): Doubt[] => {
  const [start, now] = [parseMonth(startMonth), parseMonth(today.slice(0, 7))]
  const first = Math.max(start ?? 0, now ?? 0) as Month
  return storms.flatMap(({ name, from, months }, place) => {
    const begins = parseMonth(from)
    return begins === null || begins + months > first
      ? []
      : [
          {
            path: ['storms', place, 'from'],
            message: `${name}, ${nameOf(from)}: over by ${monthName(first)}. Choose a month to come`,
          },
        ]
  })
}

/** Pages and answers call these by their names alone. */
const sameNames = ({ household, savings, farm, storms }: Plan): Doubt[] => [
  ...sameIn(household.people, ['household', 'people']),
  ...sameIn(farm.enterprises, ['farm', 'enterprises']),
  ...sameIn(farm.markets, ['farm', 'markets']),
  ...sameIn(farm.herds, ['farm', 'herds']),
  ...sameIn(farm.phases, ['farm', 'phases']),
  ...sameIn(household.sideVentures, ['household', 'sideVentures']),
  ...sameIn(savings.accounts, ['savings', 'accounts']),
  ...sameIn(storms, ['storms']),
]

const sameIn = (list: readonly { name: string }[], path: Path): Doubt[] =>
  list.flatMap(({ name }, place) =>
    list.findIndex((one) => plain(one.name) === plain(name)) < place
      ? [{ path: [...path, place, 'name'], message: `“${name}” is here already. Choose another name` }]
      : [],
  )

const plain = (name: string): string => name.trim().toLowerCase()

const nameOf = (month: string): string => {
  const read = parseMonth(month)
  return read === null ? month : `${monthName(read)} (${monthText(read)})`
}
