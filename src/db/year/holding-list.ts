// Stock and equipment of a side: as it is kept, and as it stood on a day, parts that were sold by then apart.
import { asc, eq, sql } from 'drizzle-orm'
import { type Day, lastDayOfYear } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { prepared } from '#db/prepared.ts'
import { holdingParts, holdings } from '#db/schema-year.ts'
import { readOnce } from '#db/written-since.ts'
import type { SideId } from '#ledger/account.ts'
import type { Holding, HoldingDepreciation, SoldPart, WrittenOffBefore } from '#ledger/reports/holding.ts'
import { type DatedValue, valueOn } from '#ledger/reports/market-values.ts'
import { inParts, valuesInParts } from '#ledger/reports/sold-parts.ts'
import { holdingValuesOf } from './holding-values.ts'

/** Things in the order they came, those disposed of too, each with its sold parts; the market value is one that was entered before values had a day. */
export const storedHoldings = (books: Books, sideId: SideId): readonly Holding[] =>
  readOnce(books, `things of ${sideId}`, () => readHoldings(books, sideId))

const readHoldings = (books: Books, sideId: SideId): Holding[] => {
  const parts = partsOf(books, sideId)
  return prepared(books, 'things of a side', (db) =>
    db
      .select()
      .from(holdings)
      .where(eq(holdings.sideId, sql.placeholder('sideId')))
      .orderBy(asc(holdings.kind), asc(holdings.acquiredDay), asc(holdings.name))
      .prepare(),
  )
    .all({ sideId })
    .map(({ depreciation, writtenOffBefore, ...row }) => ({
      ...row,
      writtenOffBefore: writtenOffBefore as WrittenOffBefore | null,
      depreciation: depreciation as HoldingDepreciation | null,
      ...(parts.has(row.id) ? { parts: parts.get(row.id)! } : {}),
    }))
}

export const storedHolding = (books: Books, sideId: SideId, id: string): Holding | undefined =>
  storedHoldings(books, sideId).find((holding) => holding.id === id)

/** As things stood on a day, each with the market value of then; without a day as they stand, with a value that has no day. */
export const listHoldings = (books: Books, sideId: SideId, on: Day | null = null): Holding[] => {
  const values = on === null ? null : thingValues(books, sideId, on)
  return storedHoldings(books, sideId)
    .flatMap((thing) => inParts(thing, on ?? endOfDays))
    .map((thing) =>
      on === null
        ? thing
        : { ...thing, marketValueCents: valueOn(values?.get(thing.id) ?? [], on)?.amountCents ?? null },
    )
}

/** All values of the things as they stood on a day, by id: of a thing that was sold in part, of what was there when it was valued. */
export const thingValues = (books: Books, sideId: SideId, on: Day): Map<string, DatedValue[]> => {
  const dated = holdingValuesOf(books, sideId)
  return new Map(
    storedHoldings(books, sideId).flatMap((thing) => {
      const undated = thing.marketValueCents
      return [
        ...valuesInParts(inParts(thing, on), [
          ...(undated === null ? [] : [{ day: null, amountCents: undated }]),
          ...(dated.get(thing.id) ?? []),
        ]),
      ]
    }),
  )
}

const partsOf = (books: Books, sideId: SideId): Map<string, SoldPart[]> => {
  const found = new Map<string, SoldPart[]>()
  const rows = prepared(books, 'sold parts of a side', (db) =>
    db
      .select({
        id: holdingParts.id,
        holdingId: holdingParts.holdingId,
        quantity: holdingParts.quantity,
        disposedDay: holdingParts.disposedDay,
        disposedForCents: holdingParts.disposedForCents,
      })
      .from(holdingParts)
      .innerJoin(holdings, eq(holdings.id, holdingParts.holdingId))
      .where(eq(holdings.sideId, sql.placeholder('sideId')))
      .orderBy(asc(holdingParts.disposedDay), asc(holdingParts.id))
      .prepare(),
  ).all({ sideId })
  for (const { holdingId, ...part } of rows) found.set(holdingId, [...(found.get(holdingId) ?? []), part])
  return found
}

const endOfDays = lastDayOfYear(9999)
