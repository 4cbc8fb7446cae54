// The statements of each side and of all together, with what the books do not hold: values, year-end items, what falls due.
import { type Day, lastDayOfYear } from '#calendar/day.ts'
import { byPart } from '#kept/by-part.ts'
import { isTermLoan } from '#ledger/account.ts'
import { bandReadings } from '#ledger/measures/bands.ts'
import { type AccrualItem, accrualYear } from '#ledger/reports/accrual.ts'
import { type BalanceExtras, balanceSheet, type UnbookedThing } from '#ledger/reports/balance-sheet.ts'
import { type BookYear, closingOf } from '#ledger/reports/book-year.ts'
import { cashFlow } from '#ledger/reports/cash-flow.ts'
import { incomeStatement } from '#ledger/reports/income-statement.ts'
import { type HeldThing, valueOn } from '#ledger/reports/market-values.ts'
import { measuresOfYear } from '#ledger/reports/measures-of-year.ts'
import { ownerEquity } from '#ledger/reports/owner-equity.ts'
import {
  type Holding,
  type HoldingKind,
  heldOn,
  holdingName,
  isUntold,
} from '#ledger/reports/stock-inventory.ts'
import { together } from '#ledger/reports/together.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { dueWithinYear } from '#today/loan-terms.ts'
import { statedDepreciation } from './depreciation-stated.ts'
import type { MeasureRow, PackBasis, SideStatements } from './figures.ts'
import type { End, KnownThing, PackGround } from './pack-ground.ts'
import { type GoneThing, goneThings } from './standing-sales.ts'

export const statementsOf = (ground: PackGround, side: BookYear, basis: PackBasis): SideStatements =>
  statementsFrom(ground, side, [side], basis)

export const togetherOf = (ground: PackGround, basis: PackBasis): SideStatements =>
  statementsFrom(ground, together(ground.sides), ground.sides, basis)

/** `parts` are the sides whose inventories and year-end items belong to the books. */
const statementsFrom = (
  ground: PackGround,
  side: BookYear,
  parts: readonly BookYear[],
  basis: PackBasis,
): SideStatements => {
  const at = (end: End) => parts.flatMap((part) => ground.items[end].get(part.sideId) ?? [])
  const accrual = basis === 'accrual' ? accrualYear(at('begin'), at('end')) : null
  const sheet = (end: End) => balanceSheet(side, end, extrasOf(ground, parts, end, accrual?.[end] ?? []))
  return byPart<SideStatements>({
    id: () => side.sideId,
    kind: () => side.kind,
    name: () => side.name,
    income: () => incomeStatement(side, accrual),
    items: () => accrual,
    begin: () => sheet('begin'),
    end: () => sheet('end'),
    equity: () =>
      ownerEquity(side, { begin: sheet('begin'), end: sheet('end'), income: incomeStatement(side, accrual) }),
    cash: () => cashFlow(side),
    depreciation: () => parts.flatMap((part) => statedDepreciation(ground, part.sideId) ?? []),
  })
}

const dayOf = (ground: PackGround, end: End): Day =>
  end === 'end' ? lastDayOfYear(ground.year) : ground.beginsOn

const extrasOf = (
  ground: PackGround,
  parts: readonly BookYear[],
  end: End,
  accruals: BalanceExtras['accruals'],
): BalanceExtras => {
  const on = dayOf(ground, end)
  const held = wholeAgain(
    parts
      .flatMap((part) => ground.things.get(part.sideId) ?? [])
      .filter(({ holding }) => heldOn(holding, on)),
  )
  return {
    on,
    marketByAccount: ground.market[end],
    things: [
      ...held.map(
        ({ holding, values, deducted }): HeldThing => ({
          id: holding.id,
          name: holdingName(holding),
          accountId: holding.accountId,
          costCents: holding.costCents,
          deductedCents: deducted[end],
          isUntold: isUntold(holding),
          values,
          goneOn: null,
        }),
      ),
      ...parts.flatMap((part) =>
        goneThings(ground, part, end).map((gone) => worthNothing(ground, part, gone)),
      ),
    ],
    unbooked: held.flatMap((thing) => unbookedThing(thing, on)),
    accruals,
    dueWithinYear: dueAt(ground, parts, end),
    deferredTaxRate: ground.said.deferredTaxRate,
  }
}

/** What is gone counts at nothing from the day it went, whatever of it stands in the books. */
const worthNothing = (ground: PackGround, { sideId }: BookYear, gone: GoneThing): HeldThing => {
  const known = ground.things.get(sideId)?.find(({ holding }) => holding.id === gone.holdingId)
  return {
    id: gone.holdingId,
    name: gone.name,
    accountId: gone.accountId,
    costCents: gone.costCents,
    deductedCents: gone.deductedCents,
    isUntold: false,
    values: [...(known?.values ?? []), { day: gone.soldDay, amountCents: zeroCents }],
    goneOn: gone.soldDay,
  }
}

/** Of a thing that is sold in part within the year, what its parts were at its beginning is one row, as the year before has it. */
const wholeAgain = (held: readonly KnownThing[]): KnownThing[] => {
  const things = new Map<string, KnownThing>()
  for (const one of held) {
    const id = one.holding.partOf?.holdingId ?? one.holding.id
    const before = things.get(id)
    things.set(id, before ? bothParts(before, one) : one)
  }
  return [...things.values()]
}

/** The rest comes last, and names the thing. */
const bothParts = (a: KnownThing, b: KnownThing): KnownThing => {
  const worthOf = ({ values }: KnownThing, on: Day | null) =>
    values.find(({ day }) => day === on)?.amountCents ?? 0
  const days = new Set([...a.values, ...b.values].map(({ day }) => day))
  const both = (x: number, y: number) => cents(x + y)
  return {
    holding: { ...b.holding, costCents: both(a.holding.costCents, b.holding.costCents) },
    values: [...days].map((day) => ({ day, amountCents: both(worthOf(a, day), worthOf(b, day)) })),
    deducted: {
      begin: both(a.deducted.begin, b.deducted.begin),
      end: both(a.deducted.end, b.deducted.end),
    },
  }
}

/** What people said goes before the plan's terms of a loan. */
const dueAt = (ground: PackGround, parts: readonly BookYear[], end: End): Map<number, Cents> => {
  const said = end === 'end' ? ground.said.dueWithinYear : ground.saidBefore.dueWithinYear
  return new Map(
    parts
      .flatMap((part) => part.accounts)
      .filter(({ account }) => isTermLoan(account))
      .flatMap((row) => {
        const owed = cents(-(end === 'end' ? closingOf(row) : row.openingCents))
        const due =
          said[String(row.account.id)] ?? (owed > 0 ? dueWithinYear(ground.books, row.account, owed) : null)
        return due === null ? [] : [[row.account.id, due] as const]
      }),
  )
}

/** Kinds of year-end items that hold the same goods as things of a kind. */
const sameGoods: Partial<Record<HoldingKind, readonly AccrualItem['kind'][]>> = {
  breeding_stock: ['raised_base'],
  market_stock: ['market_stock', 'inventory'],
  produce: ['crops', 'inventory'],
  supplies: ['supplies'],
}

/** Raised stock, produce and supplies have no account that holds them; bought things are in one already. */
export const isUnbooked = (holding: Holding): boolean =>
  holding.accountId === null &&
  (holding.raised || ['market_stock', 'produce', 'supplies'].includes(holding.kind))

const unbookedThing = ({ holding, values }: KnownThing, on: Day): UnbookedThing[] => {
  const value = isUnbooked(holding) ? valueOn(values, on) : null
  if (value === null) return []
  const { id, kind } = holding
  const name = holdingName(holding)
  const current = ['market_stock', 'produce', 'supplies'].includes(kind)
  return [{ id, name, value, current, standsFor: sameGoods[kind] ?? [] }]
}

export const measureRows = (
  ground: PackGround,
  farm: BookYear,
  statements: SideStatements | undefined,
): MeasureRow[] => {
  if (!statements) return []
  const { cost, market } = measuresOfYear({
    begin: statements.begin,
    end: statements.end,
    income: statements.income,
    farm,
    household: ground.sides.find((side) => side.kind === 'household') ?? null,
    ventures: ground.sides.filter((side) => side.kind === 'venture'),
    unpaidLaborCents: ground.said.unpaidLabourCents,
    replacementCents: ground.said.replaceCents,
  })
  return cost.map((measure, i) => {
    const atMarket = market[i]!.value
    return {
      ...measure,
      marketValue: atMarket === measure.value ? null : atMarket,
      bands: measure.value === null ? [] : bandReadings(measure.id, measure.value),
    }
  })
}
