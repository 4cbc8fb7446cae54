// What the sample family did at their desk beside sorting: held accounts against the bank, closed years, listed what the farm owns.
import { type Day, day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { changeTicks, finishReconciliation, startReconciliation } from '#db/reconcile/reconcile-store.ts'
import { saveHolding } from '#db/year-store.ts'
import type { Outcome } from '#ledger/problem.ts'
import type { HoldingDepreciation, HoldingKind } from '#ledger/reports/stock-inventory.ts'
import { cents } from '#money/cents.ts'
import { makeMovements } from './movements.ts'
import { type BankAccountName, openingCents } from './sample-bank.ts'

export interface YearEndGround {
  books: Books
  act(on: string): Act
  account(side: string, name: string): number
}

const reconciledOn = ['2024-04-30', '2024-10-31', '2025-04-30', '2025-10-31', '2026-04-30'].map(day)

/** Every half-year's statement but the last one, which waits to be done. */
export const reconcileAccounts = (ground: YearEndGround): void => {
  const names: [BankAccountName, string, string][] = [
    ['farm', 'farm', 'Farm checking'],
    ['household', 'household', 'Household checking'],
    ['savings', 'household', 'Savings'],
  ]
  const movements = makeMovements()
  const balanceOn = (bank: BankAccountName, on: Day): number =>
    movements
      .filter((each) => each.account === bank && each.day <= on)
      .reduce((sum, each) => sum + each.cents, openingCents[bank])
  for (const [bank, side, name] of names) {
    const accountId = ground.account(side, name)
    const opening = ground.books.sqlite
      .prepare(
        "SELECT p.id FROM postings AS p JOIN entries AS e ON e.no = p.entry_no WHERE p.account_id = ? AND e.source = 'opening'",
      )
      .pluck()
      .get(accountId) as number
    for (const [index, on] of reconciledOn.entries()) {
      const act = ground.act(booksDoneOn)
      const { reconciliationId } = done(
        startReconciliation(ground.books, act, {
          accountId,
          statementDay: on,
          statementBalanceCents: cents(balanceOn(bank, on)),
        }),
      )
      if (index === 0) done(changeTicks(ground.books, reconciliationId, { tick: [opening], untick: [] }))
      done(finishReconciliation(ground.books, ground.act(booksDoneOn), reconciliationId))
    }
  }
}

/** The day on which the family, having sorted three years of lines, shut what was done. */
const booksDoneOn = day('2026-11-03')
/** The values stand in the papers of 2025. */
const valuedOn = day('2025-12-31')

/** Both sides are shut through 2025. */
export const closeYears = (ground: YearEndGround): void => {
  for (const through of [month(2024, 12), month(2025, 12)])
    for (const sideId of ['farm', 'household'])
      done(
        closeMonth(ground.books, ground.act(booksDoneOn), { sideId, month: through, note: '' }, booksDoneOn),
      )
}

type Owned = readonly [
  name: string,
  kind: HoldingKind,
  account: string,
  bought: string,
  dollars: number,
  worthNow: number,
  assetClass: HoldingDepreciation['assetClass'],
  section179?: boolean,
]

const owned: readonly Owned[] = [
  [
    'Second propagation house',
    'building',
    'Buildings and fences',
    '2024-02-20',
    3980,
    2600,
    'single-purpose-structure',
  ],
  ['Walking tractor', 'equipment', 'Machinery and equipment', '2024-03-12', 4250, 3300, 'machinery-used'],
  ['Pasture fence, 9 acres', 'fence', 'Buildings and fences', '2024-04-15', 5400, 4200, 'fence-or-grain-bin'],
  [
    'Wash and pack shed',
    'building',
    'Buildings and fences',
    '2024-09-12',
    4600,
    3900,
    'single-purpose-structure',
  ],
  [
    'Lambing shelter',
    'building',
    'Buildings and fences',
    '2024-11-14',
    2150,
    1700,
    'single-purpose-structure',
  ],
  ['Walk-in cooler', 'equipment', 'Machinery and equipment', '2025-03-19', 4850, 3800, 'machinery-new', true],
  [
    'Hives and extractor',
    'equipment',
    'Machinery and equipment',
    '2025-04-10',
    1450,
    1100,
    'machinery-new',
    true,
  ],
  [
    'Handling pens and gates',
    'fence',
    'Buildings and fences',
    '2025-05-08',
    1900,
    1600,
    'fence-or-grain-bin',
  ],
  ['High tunnel', 'building', 'Buildings and fences', '2025-10-09', 7900, 6900, 'single-purpose-structure'],
  ['Delivery van, used', 'equipment', 'Machinery and equipment', '2026-03-20', 8600, 7700, 'vehicle'],
  [
    'Well pump and irrigation',
    'equipment',
    'Machinery and equipment',
    '2026-09-15',
    4970,
    4700,
    'machinery-new',
  ],
]

/** Things bought, as the books show them, and the flock: eight ewes bought, six raised. */
export const listOwned = (ground: YearEndGround): void => {
  for (const [name, kind, account, bought, dollars, worthNow, assetClass, section179] of owned)
    hold(ground, {
      name,
      kind,
      account,
      bought,
      dollars,
      worthNow,
      quantity: 1,
      unit: '',
      raised: false,
      assetClass,
      section179: section179 ? dollars : 0,
    })
  hold(ground, {
    name: 'Bred ewes bought',
    kind: 'breeding_stock',
    account: 'Breeding stock',
    bought: '2024-05-15',
    dollars: 3000,
    worthNow: 2200,
    quantity: 8,
    unit: 'head',
    raised: false,
    assetClass: 'sheep-or-goats',
    section179: 0,
  })
  hold(ground, {
    name: 'Ewes raised',
    kind: 'breeding_stock',
    account: 'Breeding stock',
    bought: '2025-10-01',
    dollars: 0,
    worthNow: 1750,
    quantity: 6,
    unit: 'head',
    raised: true,
    assetClass: null,
    section179: 0,
  })
}

interface Held {
  name: string
  kind: HoldingKind
  account: string
  bought: string
  dollars: number
  worthNow: number
  quantity: number
  unit: string
  raised: boolean
  assetClass: HoldingDepreciation['assetClass'] | null
  section179: number
}

const hold = (ground: YearEndGround, held: Held): void => {
  done(
    saveHolding(ground.books, ground.act(booksDoneOn), 'farm', {
      kind: held.kind,
      name: held.name,
      quantity: held.quantity,
      unit: held.unit,
      accountId: ground.account('farm', held.account),
      acquiredDay: day(held.bought),
      inServiceDay: held.raised ? null : day(held.bought),
      raised: held.raised,
      costCents: cents(held.dollars * 100),
      depreciation:
        held.assetClass === null
          ? null
          : { assetClass: held.assetClass, section179Cents: cents(held.section179 * 100), bonus: false },
      marketValueCents: cents(held.worthNow * 100),
      valuedDay: valuedOn,
    }),
  )
}

const done = <Result>(outcome: Outcome<Result>): Result => {
  if (!outcome.ok)
    throw new Error(`The sample’s year’s ends do not work out: ${JSON.stringify(outcome.problems)}`)
  return outcome.result
}
