// What is read from the books once and kept until they change: a page shown again costs little, and nothing outlives its cause.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { isWrittenSince, type Mark, markOf, mayReadOtherwise, ownerUntilChange } from '#db/written-since.ts'
import { keptWith } from '#kept/keeper.ts'
import { Lately } from '#kept/lately.ts'
import type { Plan } from '#plan/plan.ts'

/** Read once until the books change: pages ask for the same again and again. What it returns is shared. `plan`: what rests on it too. */
export const keptUntilChange = <Value>(
  books: Books,
  key: string,
  make: () => Value,
  plan: Plan | null = null,
): Value => keptWith(ownerOf(ownerUntilChange(books), plan), key, make)

/**
 * Kept until the books up to the end of a day may read otherwise: for what rests on those days, and on things without a day like
 * accounts, settings and the plan named. What is booked later leaves it as it is.
 */
export const keptThrough = <Value>(
  books: Books,
  end: Day,
  key: string,
  make: () => Value,
  plan: Plan | null = null,
): Value => keptWith(ownerOf(keptTo(books, end).owner, plan), key, make)

/** What is kept belongs to the owner, with a plan to the two together, and goes with them. */
const ownerOf = (owner: object, plan: Plan | null): object => {
  if (plan === null) return owner
  const ofPlans = plansOf.get(owner) ?? new WeakMap<Plan, object>()
  plansOf.set(owner, ofPlans)
  const ofPlan = ofPlans.get(plan) ?? {}
  ofPlans.set(plan, ofPlan)
  return ofPlan
}

const plansOf = new WeakMap<object, WeakMap<Plan, object>>()

interface KeptTo {
  mark: Mark
  owner: object
}

const endsKept = 100

const keptTo = (books: Books, end: Day): KeptTo => {
  const ends = endsOf.get(books) ?? new Lately<Day, KeptTo>(endsKept)
  endsOf.set(books, ends)
  const known = ends.get(end)
  if (known && !isWrittenSince(books, known.mark)) return known
  const mark = markOf(books)
  const kept =
    known && !mayReadOtherwise(books, end, known.mark, mark) ? { ...known, mark } : { mark, owner: {} }
  ends.set(end, kept)
  return kept
}

const endsOf = new WeakMap<Books, Lately<Day, KeptTo>>()
