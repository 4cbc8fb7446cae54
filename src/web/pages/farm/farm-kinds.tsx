// What the farm is made of, as its forms add and change it. Their fields come from the schema.
import type { Farm } from '#farm/farm-document.ts'
import { unitBudget } from '#farm/line-document.ts'
import { purchaseDoes } from '#farm/purchase-document.ts'
import { herdTold, marketTold } from '#farm/told/thing-told.ts'
import { Caution } from '#views/parts/message.tsx'
import { type ThingList, toCome } from '#web/forms/plan-thing.tsx'
import { herdWords } from './herd-words.ts'

export type FarmKind =
  | 'enterprises'
  | 'markets'
  | 'herds'
  | 'purchases'
  | 'overheads'
  | 'loans'
  | 'facilities'

type Words = Pick<
  ThingList,
  'one' | 'add' | 'purpose' | 'help' | 'opening' | 'caution' | 'usual' | 'words' | 'sums' | 'told'
>

const afterCosts = { under: unitBudget, plus: ['salesPerUnit'], minus: ['costsPerUnit'] } as const

const kinds: Readonly<Record<FarmKind, Words>> = {
  enterprises: {
    usual: 'enterprises',
    one: 'enterprise',
    add: 'Add an enterprise',
    help: 'enterpriseForm',
    purpose: 'A budget by the unit (bed, hive, share, bird), by month, at today’s prices.',
    opening: () => ({ unit: 'bed' }),
    sums: [
      { ...afterCosts, label: 'One unit leaves in a year, after direct costs' },
      { ...afterCosts, label: 'All units leave', times: 'scale' },
      { ...afterCosts, label: 'An hour at it leaves', per: 'hoursPerUnit' },
    ],
  },
  markets: {
    usual: 'markets',
    one: 'market',
    add: 'Add a market',
    help: 'marketForm',
    purpose: 'A market day, a stand, a pick-up: how often you go, what it can take, what it costs.',
    opening: () => ({ trips: 4, salesPerTrip: 500 }),
    told: marketTold,
  },
  herds: {
    usual: 'herds',
    one: 'herd or flock',
    add: 'Add a herd or flock',
    purpose: 'Animals at the start, rates, prices and what the land carries; the build-up follows.',
    words: herdWords,
    told: herdTold,
    opening: (plan, thisMonth) => ({ start: toCome(plan, thisMonth) }),
  },
  purchases: {
    one: 'purchase',
    add: 'Add a purchase',
    help: 'purchaseForm',
    purpose:
      'Bought out of the farm’s own cash: on a date, or as soon as cash allows with the reserve intact.',
    sums: [
      {
        label: 'Cost of a year of use',
        under: purchaseDoes,
        plus: ['cost'],
        minus: ['valueAtEnd'],
        per: 'usefulYears',
      },
      {
        label: 'Cash it adds in all its years',
        under: purchaseDoes,
        plus: ['addsCash'],
        minus: [],
        times: 'usefulYears',
      },
    ],
    opening: (plan, thisMonth) => ({ timing: 'when cash allows', month: toCome(plan, thisMonth) }),
    caution: (
      <Caution askWhom="a licensed tax preparer">
        What may be written off at once has limits and phases out; the depreciation class decides the rest.
      </Caution>
    ),
  },
  overheads: {
    one: 'overhead',
    add: 'Add an overhead',
    purpose: 'Costs and hours that fall whatever is grown: insurance, repairs, accounts.',
    opening: () => ({}),
  },
  loans: {
    one: 'loan',
    add: 'Add a loan',
    purpose: 'Paid in level monthly payments. The farm borrows only what is entered here.',
    opening: (plan, thisMonth) => ({ start: toCome(plan, thisMonth), months: 60, yearlyRate: 0.07 }),
  },
  facilities: {
    one: 'facility',
    add: 'Add a facility',
    purpose: 'Something that holds only so much: a propagation bench, a cooler, hive stands.',
    opening: () => ({}),
  },
}

export const farmList = (kind: string): ThingList | null =>
  Object.hasOwn(kinds, kind) ? { ...kinds[kind as FarmKind], path: ['farm', kind], back: roomOf(kind) } : null

const ownRooms: readonly string[] = ['enterprises', 'markets', 'herds']

/** The page that shows things of a kind, which a form about one of them leads back to. */
export const roomOf = (kind: string): string => {
  if (ownRooms.includes(kind)) return `/farm/${kind}`
  return kind === 'purchases' ? '/farm/buying' : `/farm/fit#${kind}`
}

/** Short names of everything on the farm. */
export const namesOnFarm = (farm: Farm): Set<string> =>
  new Set((Object.keys(kinds) as FarmKind[]).flatMap((kind) => farm[kind].map(({ id }) => id)))
