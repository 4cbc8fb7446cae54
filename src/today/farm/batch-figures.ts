// Batches as their pages show them: what each earned or has cost so far, beside the plan and the batch before.
import { type Day, dayName, lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { untiedHeads } from '#db/notebook/batch-heads.ts'
import { type BatchLine, tiedLines, type UntiedLines, untiedLines } from '#db/notebook/batch-lines.ts'
import { type BatchMark, listMarks } from '#db/notebook/batch-store.ts'
import { type GoodsNote, listGoods } from '#db/notebook/field-notes.ts'
import { type BatchWork, batchWork, listHours } from '#db/notebook/hours-store.ts'
import type { Batch } from '#db/notebook/schema-batches.ts'
import type { Books } from '#db/open.ts'
import type { Enterprise } from '#farm/farm-document.ts'
import { type BatchFacts, type BatchResult, batchResult } from '#farm/notebook/batch-result.ts'
import { yearTotal } from '#farm/seasonal.ts'
import { byPart } from '#kept/by-part.ts'
import type { AccrualItem } from '#ledger/reports/accrual.ts'
import { keptUntilChange } from '#today/kept.ts'
import { notebookNames } from './notebook-names.ts'

export interface BatchRow {
  batch: Batch
  enterprise: string
  result: BatchResult
}

/** What the plan counts on for one unit of the enterprise in a year, in dollars and hours. */
export interface PlannedUnit {
  unit: string
  costs: number
  sales: number
  hours: number
  perHour: number | null
}

export interface BatchFigures extends BatchRow {
  today: Day
  lines: readonly BatchLine[]
  untied: UntiedLines
  /** Hours of its enterprise within its days that were written for no batch. */
  untiedHours: readonly { id: string; day: Day; minutes: number; person: string; note: string }[]
  /** Young of its herd that left within its days by the head counts, and by no batch. */
  untiedHeads: readonly { id: string; says: string }[]
  marks: readonly BatchMark[]
  goods: readonly GoodsNote[]
  /** The batches of its enterprise, oldest first, this one among them. */
  beside: readonly BatchRow[]
  before: BatchRow | null
  plan: PlannedUnit | null
}

/** The newest first. What hangs on the books is read once until they change. */
export const batchRows = (books: Books): BatchRow[] =>
  keptUntilChange(books, 'batch rows', () => {
    const names = notebookNames(books)
    const read = readAll(books)
    return names.batches.map((batch) => ({
      batch,
      enterprise: names.ofEnterprise(batch.enterpriseId),
      result: batchResult(factsOf(read, batch)),
    }))
  })

/** `before`: how many of the lines that may be its stand before those that are shown. */
export const batchFigures = (books: Books, id: string, today: Day, before = 0): BatchFigures | null => {
  const rows = batchRows(books)
  const row = rows.find(({ batch }) => batch.id === id)
  if (!row) return null
  const { batch } = row
  const beside = rows.filter((one) => one.batch.enterpriseId === batch.enterpriseId).reverse()
  const read = readAll(books)
  return byPart<BatchFigures>({
    batch: () => batch,
    enterprise: () => row.enterprise,
    result: () => row.result,
    today: () => today,
    lines: () => read.lines.filter(({ batchId }) => batchId === id),
    untied: () => untiedLines(books, batch, before),
    untiedHours: () => untiedHours(books, batch, today),
    untiedHeads: () =>
      untiedHeads(books, batch, herdsOf(books, batch), today).map(({ id, kind, day, count }) => ({
        id,
        says: `${count} ${headsWent[kind]}, ${dayName(day)}`,
      })),
    marks: () => read.marks.filter(({ batchId }) => batchId === id),
    goods: () => read.goods.filter(({ batchId }) => batchId === id),
    beside: () => beside,
    before: () => beside[beside.indexOf(row) - 1] ?? null,
    plan: () => plannedUnit(books, batch.enterpriseId),
  })
}

const headsWent = {
  sold: 'sold',
  lost: 'died',
  kitchen: 'to the kitchen',
  bartered: 'bartered',
} as const

/** Herds and flocks whose young a batch is of, by their short names. */
export const herdsOf = (books: Books, { enterpriseId }: Batch): string[] =>
  notebookNames(books).herds.flatMap(({ id, tag }) => (tag === enterpriseId ? [id] : []))

const untiedHours = (books: Books, batch: Batch, today: Day): BatchFigures['untiedHours'] => {
  const names = notebookNames(books)
  const herds = herdsOf(books, batch)
  return listHours(books, batch.startedDay, batch.endedDay ?? today)
    .filter(
      ({ subject: { kind, id } }) =>
        (kind === 'enterprise' && id === batch.enterpriseId) || (kind === 'herd' && herds.includes(id)),
    )
    .map(({ id, day, minutes, person, note }) => ({ id, day, minutes, person: names.ofPerson(person), note }))
}

interface Read {
  lines: readonly BatchLine[]
  marks: readonly BatchMark[]
  goods: readonly GoodsNote[]
  work: readonly BatchWork[]
}

const readAll = (books: Books): Read => ({
  lines: tiedLines(books),
  marks: listMarks(books),
  goods: listGoods(books, '0001-01-01' as Day, '9999-12-31' as Day).filter(({ batchId }) => batchId !== null),
  work: batchWork(books),
})

/** Schedule F's line of hired labor. */
const hiredLabor = '22'

const factsOf = ({ lines, marks, goods, work }: Read, batch: Batch): BatchFacts => ({
  startedDay: batch.startedDay,
  endedDay: batch.endedDay,
  size: batch.size,
  kept: batch.kept,
  hopedPriceCents: batch.hopedPriceCents,
  lines: lines
    .filter(({ batchId }) => batchId === batch.id)
    .map(({ day, accountKind, scheduleLine, amountCents }) => ({
      day,
      isWages: accountKind === 'expense' && scheduleLine === hiredLabor,
      kind: accountKind === 'income' || accountKind === 'expense' ? accountKind : 'other',
      amountCents,
    })),
  marks: marks.filter(({ batchId }) => batchId === batch.id),
  goods: goods.filter(({ batchId }) => batchId === batch.id),
  minutes: work
    .filter(({ batchId, hired }) => batchId === batch.id && !hired)
    .reduce((sum, { minutes }) => sum + minutes, 0),
  hired: work.filter(({ batchId, hired }) => batchId === batch.id && hired),
})

const plannedUnit = (books: Books, tag: string): PlannedUnit | null => {
  const found = notebookNames(books).farm?.enterprises.find((one) => (one.tag ?? one.id) === tag)
  return found ? unitOf(found) : null
}

const unitOf = ({ unit, salesPerUnit, costsPerUnit, hoursPerUnit }: Enterprise): PlannedUnit => {
  const [sales, costs, hours] = [yearTotal(salesPerUnit), yearTotal(costsPerUnit), yearTotal(hoursPerUnit)]
  return { unit, sales, costs, hours, perHour: hours > 0 ? (sales - costs) / hours : null }
}

/**
 * Costs that lie in batches at the end of a year: in what is left of them, goods on hand of the balance sheet; in what was kept as one
 * ended, raised stock that stays, apart from them.
 */
export const carriedBatches = (
  books: Books,
  year: number,
): (AccrualItem & { hopedCents: number | null })[] => {
  const on = lastDayOfYear(year)
  const read = readAll(books)
  return notebookNames(books)
    .batches.filter(({ startedDay }) => yearIn(startedDay) <= year)
    .map((batch) => ({ batch, result: batchResult(factsOf(read, batch), on) }))
    .flatMap(({ batch, result }) => [
      ...(result.carriedCents > 0
        ? [
            {
              kind: 'inventory' as const,
              name: `${batch.name}: ${result.left} of ${batch.size} (${batch.unit}) at cost`,
              amountCents: result.carriedCents,
              hopedCents: result.hopedRestCents,
            },
          ]
        : []),
      ...(result.keptCents > 0
        ? [
            {
              kind: 'raised_base' as const,
              name: `${batch.name}: ${result.kept} of ${batch.size} (${batch.unit}) kept, at cost`,
              amountCents: result.keptCents,
              hopedCents: null,
            },
          ]
        : []),
    ])
}
