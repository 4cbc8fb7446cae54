// Heads of a herd that the notebook tells of and no batch of it: what was sold, died or left as goods within a batch's days.
import { and, isNull } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import { findBatch, listBatches, listMarks, noteProblems } from './batch-store.ts'
import { headMoves, listGoods } from './field-notes.ts'
import { writtenBy } from './note-rows.ts'
import { type Batch, batchMarks } from './schema-batches.ts'
import { goodsNotes } from './schema-notes.ts'

export interface UntiedHeads {
  /** What a form sends for it. */
  id: string
  kind: 'sold' | 'lost' | 'kitchen' | 'bartered'
  day: Day
  count: number
  /** The note of goods that it is; null for a count of heads. */
  goodsId: string | null
}

/**
 * Young of these herds that left within the batch's days, oldest first. What batches of its enterprise note of the same day is told
 * already, and so are goods that are some batch's.
 */
export const untiedHeads = (
  books: Books,
  batch: Batch,
  herdIds: readonly string[],
  today: Day,
): UntiedHeads[] => {
  const to = batch.endedDay ?? today
  const isOfHerd = (one: { herdId: string | null; headClass: string | null; day: Day }) =>
    one.herdId !== null &&
    herdIds.includes(one.herdId) &&
    (one.headClass === 'young' || one.headClass === 'kept') &&
    one.day >= batch.startedDay &&
    one.day <= to
  const beside = new Set(
    listBatches(books).flatMap(({ id, enterpriseId }) => (enterpriseId === batch.enterpriseId ? [id] : [])),
  )
  const marks = listMarks(books).filter(({ batchId }) => beside.has(batchId))
  const moves = headMoves(books, to).filter(isOfHerd)
  const counted = (['lost', 'sold'] as const).flatMap((kind) => {
    const ofKind = moves.filter((one) => one.kind === (kind === 'lost' ? 'died' : kind))
    return [...new Set(ofKind.map(({ day }) => day))].flatMap((day) => {
      const went = ofKind.filter((one) => one.day === day).reduce((sum, { count }) => sum + count, 0)
      const noted = marks
        .filter((one) => one.day === day && one.kind === kind)
        .reduce((sum, { quantity }) => sum + quantity, 0)
      const count = went - noted
      return count > 0 ? [{ id: `${kind} ${day}`, kind, day, count, goodsId: null }] : []
    })
  })
  const goods = listGoods(books, batch.startedDay, to)
    .filter((one) => one.batchId === null && isOfHerd(one))
    .map(({ id, kind, day, quantity }) => ({ id, kind, day, count: quantity, goodsId: id }))
  return [...counted, ...goods].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
}

/** Takes them over: counts as notes of the batch, goods as its own. What another page took over before is left out. */
export const tieHeads = (
  books: Books,
  act: Act,
  tie: { batchId: string; herdIds: readonly string[]; today: Day; ids: readonly string[] },
): Outcome<{ tied: number }> =>
  once(books, act, 'batch.tie-heads', { batchId: tie.batchId, ids: tie.ids }, () => {
    const batch = findBatch(books, tie.batchId)
    if (!batch) return refuse({ path: '', message: 'There is no such batch. Open the list again' })
    const taken = untiedHeads(books, batch, tie.herdIds, tie.today).filter(({ id }) => tie.ids.includes(id))
    for (const [place, { kind, day, count, goodsId }] of taken.entries()) {
      const noted = { kind, day, quantity: count }
      const problems = noteProblems(books, batch, noted)
      if (problems.length > 0) return refuse(...(problems as [(typeof problems)[0]]))
      if (kind === 'sold' || kind === 'lost')
        books.db
          .insert(batchMarks)
          .values({
            id: `${act.formId}-${place}`,
            batchId: batch.id,
            ...noted,
            kind,
            pounds: null,
            marketId: null,
            note: 'Taken over from the head counts',
            ...writtenBy(act),
          })
          .run()
      else
        books.db
          .update(goodsNotes)
          .set({ batchId: batch.id })
          .where(and(isAmong(goodsNotes.id, [goodsId!]), isNull(goodsNotes.batchId)))
          .run()
    }
    logChange(books, act, {
      kind: 'batch.heads-tied',
      subject: batch.id,
      sideId: 'farm',
      summary: 'Animals of the head counts were taken over into a batch',
      details: { ids: taken.map(({ id }) => id) },
    })
    return { ok: true, result: { tied: taken.length } }
  })
