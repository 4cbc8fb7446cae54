// Things, pay and what is said once a year of random households, booked as the program's forms book them.
import { type Day, day } from '#calendar/day.ts'
import { sayPayees } from '#db/tax/payees.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { disposeOf } from '#db/year/holding-parts.ts'
import { saveHolding } from '#db/year-store.ts'
import { nothingOfFarm, nothingOfVenture, prepaidLines } from '#ledger/tax/form-said.ts'
import { cents } from '#money/cents.ts'
import { saveSaidOf } from '#today/tax/said-of-year.ts'
import { act, done } from '../db/fresh-books.ts'
import { type HouseholdGround, isBank } from './household-ground.ts'
import type { RandomHousehold, Thing } from './random-households.ts'

/** On the inventory, bought by the books unless it was there before, and sold by the books. */
export const holdThing = (ground: HouseholdGround, one: Thing, i: number): void => {
  const { side, kind, bought, cost, sold, values } = one
  const since = one.isOpened ? day('2024-05-01') : ground.on(bought)
  const account = accountOf(one) ? ground.named(side, accountOf(one)!) : null
  const until =
    sold === null || sold.year < Number(since.slice(0, 4))
      ? null
      : ground.on({ year: sold.year, month: 12, date: 20 })
  const gone = until !== null && until >= since ? until : null
  const { holdingId } = done(
    saveHolding(ground.books, act(), side, {
      name: `${kind} ${i}`,
      kind: kind === 'pickup' ? 'equipment' : kind === 'raised' ? 'breeding_stock' : kind,
      quantity: 8,
      unit: '',
      accountId: account?.id ?? null,
      acquiredDay: since,
      inServiceDay: null,
      raised: kind === 'raised' || kind === 'produce',
      costCents: cents(kind === 'raised' || kind === 'produce' ? 0 : cost),
      depreciation: writtenOff(one),
      marketValueCents: null,
      disposedDay: null,
      disposedForCents: null,
      ...(values[0]
        ? { marketValueCents: cents(values[0].amount), valuedDay: day(`${values[0].year}-12-31`) }
        : {}),
    }),
  )
  const bank = ground.of(side, isBank)[0]!
  const resale = side === 'farm' ? 'Cost of livestock bought for resale' : 'Goods bought to sell'
  if (!one.isOpened && account)
    ground.post(side, since, [
      [account, cost],
      [bank, -cost],
    ])
  if (!one.isOpened && kind === 'market_stock')
    ground.post(side, since, [
      [ground.named(side, resale), cost],
      [bank, -cost],
    ])
  const sales =
    side === 'farm'
      ? kind === 'market_stock'
        ? 'Livestock bought for resale, sold'
        : kind === 'produce'
          ? 'Vegetables and fruit sold'
          : 'Breeding stock and equipment sold'
      : kind === 'market_stock' || kind === 'produce'
        ? 'Sales and fees earned'
        : 'Equipment sold'
  const sell = (on: Day, quantity: number, price: number) => {
    const disposal = { quantity, disposedDay: on, disposedForCents: cents(price) }
    const { partId } = done(disposeOf(ground.books, act(), side, holdingId, disposal))
    ground.post(side, on, [
      [bank, price],
      [ground.named(side, sales), -price],
    ])
    if (!one.isTakenOff || !account || ground.named(side, sales).scheduleLine !== '4797') return
    const own = listHoldings(ground.books, side).find(({ id }) => id === (partId ?? holdingId))!
    // An eighth of a cent is no amount to book.
    if (own.costCents === 0) return
    ground.post(side, on, [
      [ground.named(side, sales), own.costCents],
      [account, -own.costCents],
    ])
  }
  let left = 8
  for (const { year, month, count, price } of kind === 'pickup' ? [] : one.parts) {
    const on = ground.on({ year, month, date: 15 })
    if (on < since || (gone !== null && on > gone)) continue
    left -= count
    sell(on, count, price)
  }
  if (gone) sell(gone, left, sold!.price)
}

/** Wages of one worker, tax on them owed, and paid over or not. */
export const payWages = (ground: HouseholdGround, pays: RandomHousehold['pays']): void => {
  if (pays.length > 0)
    done(sayPayees(ground.books, act(), [{ name: 'Ada', kind: 'worker', sameAs: null, formOnFile: true }]))
  const [wages, owed, own] = [
    'Hired labor',
    'Social Security and Medicare owed',
    'Employer’s payroll taxes',
  ].map((name) => ground.named('farm', name))
  const bank = ground.of('farm', isBank)[0]!
  for (const { on, gross, isDeposited } of pays) {
    const tax = Math.round(gross * 0.0765)
    ground.post(
      'farm',
      ground.on(on),
      [
        [wages!, gross],
        [own!, tax],
        [owed!, -2 * tax],
        [bank, tax - gross],
      ],
      'Ada',
    )
    if (isDeposited)
      ground.post('farm', ground.on(on), [
        [owed!, 2 * tax],
        [bank, -2 * tax],
      ])
  }
}

export const sayOfYear = (
  ground: HouseholdGround,
  {
    untaxed,
    cropPutOff,
    prepaid,
    weather,
    loansReceived,
    by,
    miles,
    home,
  }: NonNullable<RandomHousehold['said']>,
): void => {
  const vehicle = {
    ...nothingOfFarm.vehicle,
    by,
    businessMiles: miles,
    otherMiles: miles === null ? null : 500,
  }
  const farm = {
    ...nothingOfFarm,
    untaxed: { ...nothingOfFarm.untaxed, '4a': cents(untaxed) },
    cropPutOffCents: cents(cropPutOff),
    prepaid: Object.fromEntries(
      prepaidLines.map((line) => [line, cents(line === '16' ? prepaid : 0)]),
    ) as typeof nothingOfFarm.prepaid,
    loansAsIncome: 'yes' as const,
    loansReceivedCents: cents(loansReceived),
    weatherSales: weather
      ? [{ what: 'sheep', origin: weather, sold: 30, usual: 20, incomeCents: cents(90_000) }]
      : [],
    weatherArea: 'yes' as const,
    vehicle,
    homeSquareFeet: home,
  }
  const venture = { ...nothingOfVenture, vehicle, homeSquareFeet: home }
  for (const [side, what] of [
    ['farm', farm],
    ['venture-mill', venture],
  ] as const)
    if (!saveSaidOf(ground.books, act(), side, 2025, what, 0).ok) throw new Error('It was not kept')
}

export const holds: Record<string, boolean> = {
  equipment: true,
  pickup: true,
  breeding_stock: true,
  land: true,
}

export const accountOf = ({ side, kind }: Thing): string | null =>
  !holds[kind]
    ? null
    : side !== 'farm'
      ? 'Equipment'
      : kind === 'breeding_stock'
        ? 'Breeding stock'
        : kind === 'land'
          ? 'Land'
          : 'Machinery and equipment'

const writtenOff = ({ kind, cost, section179, bonus, use }: Thing) =>
  kind === 'equipment' || kind === 'breeding_stock' || kind === 'pickup'
    ? {
        assetClass:
          kind === 'equipment'
            ? ('machinery-new' as const)
            : kind === 'pickup'
              ? ('pickup' as const)
              : ('cattle' as const),
        section179Cents: kind === 'pickup' ? cents(0) : cents(Math.floor(cost * section179)),
        bonus,
        ...(kind === 'pickup' ? { useShares: { '2024': use / 100, '2026': (100 - use) / 100 } } : {}),
      }
    : null
