// What became of all that was raised: by the plan where it sells and what is lost, and what the notebook tells of the last twelve months.

import { addDays, type Day } from '#calendar/day.ts'
import { listGoods, listMarketDays } from '#db/notebook/field-notes.ts'
import type { Books } from '#db/open.ts'
import type { FarmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { whereSold } from '#farm/selling/where-sold.ts'
import { cents, sumCents } from '#money/cents.ts'
import { type BatchRow, batchRows } from './batch-figures.ts'
import type { SoldFigures } from './figures.ts'

export const soldFigures = (
  books: Books,
  farm: Farm,
  course: FarmCourse,
  from: number,
  today: Day,
): SoldFigures[] => {
  const since = addDays(today, -364)
  const goods = listGoods(books, since, today)
  const days = listMarketDays(books, since, today)
  const batches = batchRows(books)
  const tagOfBatch = new Map(batches.map(({ batch }) => [batch.id, batch.enterpriseId]))
  const lines = [...farm.enterprises, ...farm.herds]
  return whereSold(farm, course, from).map((planned, row) => {
    const { id, tag = id } = lines[row]!
    const own = goods.filter(
      (one) =>
        one.state !== 'set_aside' &&
        (one.enterpriseId === tag || one.herdId === id || tagOfBatch.get(one.batchId ?? '') === tag),
    )
    const taken = days.flatMap(({ takings }) => takings.filter(({ enterpriseId }) => enterpriseId === tag))
    return {
      ...planned,
      noted: {
        atMarketsCents: sumCents(taken.map(({ amountCents }) => cents(amountCents))),
        usedCents: sumCents(own.map((one) => cents(Math.round((one.unitPriceCents ?? 0) * one.quantity)))),
        unpriced: own.filter(({ unitPriceCents }) => unitPriceCents === null).length,
        batches: batchesSince(batches, tag, since),
      },
    }
  })
}

/** Counts of the batches that were under way since then, by what became of each head, bird or bed. */
const batchesSince = (
  rows: readonly BatchRow[],
  tag: string,
  since: Day,
): SoldFigures['noted']['batches'] => {
  const own = rows.filter(
    ({ batch }) => batch.enterpriseId === tag && (batch.endedDay === null || batch.endedDay >= since),
  )
  const units = [...new Set(own.map(({ batch }) => batch.unit))]
  return units.map((unit) => {
    const of = own.filter(({ batch }) => batch.unit === unit)
    const sum = (value: (one: BatchRow) => number) => of.reduce((total, one) => total + value(one), 0)
    return {
      unit,
      raised: sum(({ batch }) => batch.size),
      sold: sum(({ result }) => result.sold),
      used: sum(({ result }) => result.kitchen + result.bartered),
      lost: sum(({ result }) => result.lost),
      kept: sum(({ result }) => result.kept),
      left: sum(({ result }) => result.left),
      untold: sum(({ result }) => result.untold),
    }
  })
}
