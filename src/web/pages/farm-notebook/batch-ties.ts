// What of books and notebook a batch is given, or lets go: lines, hours and animals that may be its.
import { tieHeads } from '#db/notebook/batch-heads.ts'
import { tieLines, untieLine } from '#db/notebook/batch-lines.ts'
import { tieHours } from '#db/notebook/hours-store.ts'
import type { Batch } from '#db/notebook/schema-batches.ts'
import { herdsOf } from '#today/farm/batch-figures.ts'
import { actOfForm } from '#web/forms/act.ts'
import { moveOn, type PageContext } from '#web/forms/answer.tsx'
import { readForm } from '#web/forms/form.ts'

const home = '/farm/batches'

export const postTies = async (c: PageContext, batch: Batch) => {
  const typed = await readForm(c)
  const postingIds = typed.values('tie[]').map(Number).filter(Number.isSafeInteger)
  const next = `${home}/${batch.id}`
  if (postingIds.length === 0) return moveOn(c, next, 'Nothing was checked, so nothing is tied.')
  const done = tieLines(c.var.web.books, actOfForm(c, typed), { batchId: batch.id, postingIds })
  return moveOn(
    c,
    next,
    done.ok ? `${done.result.tied} tied to the batch.` : (done.problems[0]?.message ?? ''),
  )
}

export const postHours = async (c: PageContext, batch: Batch) => {
  const { id, enterpriseId } = batch
  const typed = await readForm(c)
  const ids = typed.values('hours[]')
  const next = `${home}/${id}`
  if (ids.length === 0) return moveOn(c, next, 'Nothing was checked, so nothing is tied.')
  const { books } = c.var.web
  const tie = { batchId: id, enterpriseId, herdIds: herdsOf(books, batch), ids }
  const done = tieHours(books, actOfForm(c, typed), tie)
  return moveOn(c, next, done.ok ? 'The hours are tied to the batch.' : (done.problems[0]?.message ?? ''))
}

export const postHeads = async (c: PageContext, batch: Batch) => {
  const typed = await readForm(c)
  const { books, today } = c.var.web
  const tie = {
    batchId: batch.id,
    herdIds: herdsOf(books, batch),
    today: today(),
    ids: typed.values('heads[]'),
  }
  const next = `${home}/${batch.id}`
  if (tie.ids.length === 0) return moveOn(c, next, 'Nothing was checked, so nothing is taken over.')
  const done = tieHeads(books, actOfForm(c, typed), tie)
  return moveOn(c, next, done.ok ? 'The animals are taken over.' : (done.problems[0]?.message ?? ''))
}

export const postUntie = async (c: PageContext, batch: Batch) => {
  const typed = await readForm(c)
  const done = untieLine(c.var.web.books, actOfForm(c, typed), Number(typed.value('posting')))
  return moveOn(c, `${home}/${batch.id}`, done.ok ? 'It is let go.' : (done.problems[0]?.message ?? ''))
}
