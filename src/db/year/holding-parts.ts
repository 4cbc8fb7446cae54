// A thing sold, lost or given away: all of it that is left, or a part, which then has a row of its own.
import { eq } from 'drizzle-orm'
import { type Day, dayName } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { holdingParts, holdings } from '#db/schema-year.ts'
import type { SideId } from '#ledger/account.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { quantityLeft } from '#ledger/reports/sold-parts.ts'
import type { Holding } from '#ledger/reports/stock-inventory.ts'
import type { Cents } from '#money/cents.ts'
import { storedHolding } from './holding-list.ts'

export interface Disposal {
  /** Of the thing’s quantity; all that is left where it is that much. */
  quantity: number
  disposedDay: Day
  /** After selling costs; null where nothing was got for it. */
  disposedForCents: Cents | null
}

/** `partId` is null where nothing of the thing is left: then the thing itself says that it is gone. */
export const disposeOf = (
  books: Books,
  act: Act,
  sideId: SideId,
  holdingId: string,
  disposal: Disposal,
): Outcome<{ partId: string | null }> =>
  once(books, act, 'holding.dispose', { sideId, holdingId, ...disposal }, () => {
    const thing = storedHolding(books, sideId, holdingId)
    if (!thing) return refuse({ path: '', message: 'That is no longer on the list. Open the page again' })
    const problems = disposalProblems(thing, disposal)
    if (problems.length > 0) return refuse(...problems)
    const { quantity, disposedDay, disposedForCents } = disposal
    const isAll = quantity === quantityLeft(thing)
    if (isAll)
      books.db.update(holdings).set({ disposedDay, disposedForCents }).where(eq(holdings.id, holdingId)).run()
    else
      books.db
        .insert(holdingParts)
        .values({ id: act.formId, holdingId, quantity, disposedDay, disposedForCents, createdAt: act.at })
        .run()
    logChange(books, act, {
      kind: 'holding.disposed',
      subject: `holding ${holdingId}`,
      sideId,
      summary: isAll
        ? 'Stock or equipment was sold or lost'
        : 'A part of stock or equipment was sold or lost',
      details: { disposal },
    })
    return { ok: true, result: { partId: isAll ? null : act.formId } }
  })

const disposalProblems = (
  thing: Holding,
  { quantity, disposedDay, disposedForCents }: Disposal,
): FieldProblem[] => {
  const problems: FieldProblem[] = []
  const add = (path: string, message: string) => problems.push({ path, message })
  const left = quantityLeft(thing)
  const since = thing.inServiceDay ?? thing.acquiredDay
  if (thing.disposedDay !== null)
    add('', `It is gone since ${dayName(thing.disposedDay)}. To change that, open it and change the day`)
  if (!(quantity > 0)) add('quantity', 'Enter how many, like 1')
  else if (quantity > left) add('quantity', `Enter no more than the ${left} that are left`)
  if (disposedDay < since) add('disposedDay', 'Enter a day after it came into use')
  if (disposedForCents !== null && disposedForCents < 0) add('disposedFor', 'Enter 0 or more')
  const last = thing.parts?.at(-1)
  if (quantity === left && last && disposedDay < last.disposedDay)
    add(
      'disposedDay',
      `A part of it was sold on ${dayName(last.disposedDay)}: the rest went on that day or later`,
    )
  if (quantity < left && thing.depreciation?.useShares)
    add('quantity', 'What is driven privately too is sold as a whole. Enter all of it')
  if (thing.writtenOffBefore && thing.writtenOffBefore.through >= yearIn(disposedDay))
    add('disposedDay', 'Enter a day after the last return that wrote it off')
  return problems
}

/** As if that part had never been sold. */
export const takePartBack = (
  books: Books,
  act: Act,
  sideId: SideId,
  holdingId: string,
  partId: string,
): Outcome<{ holdingId: string }> =>
  once(books, act, 'holding.part.back', { sideId, holdingId, partId }, () => {
    const thing = storedHolding(books, sideId, holdingId)
    const part = thing?.parts?.find(({ id }) => id === partId)
    if (!part) return refuse({ path: '', message: 'That is no longer on the list. Open the page again' })
    books.db.delete(holdingParts).where(eq(holdingParts.id, partId)).run()
    logChange(books, act, {
      kind: 'holding.part-back',
      subject: `holding ${holdingId}`,
      sideId,
      summary: 'The sale of a part of stock or equipment was undone',
      details: { before: part },
    })
    return { ok: true, result: { holdingId } }
  })
