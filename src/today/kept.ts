// What is read from the books once and kept until they change: a page shown again costs little, and nothing outlives its cause.
import { latestChangeId } from '#db/change-log.ts'
import type { Books } from '#db/open.ts'
import { keptWith } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'

/** Read once until the books change: pages ask for the same again and again. What it returns is shared. */
export const keptUntilChange = <Value>(books: Books, key: string, make: () => Value): Value => {
  const change = latestChangeId(books)
  const known = states.get(books)
  const state = known?.change === change ? known : { change }
  states.set(books, state)
  return keptWith(state, key, make)
}

/** The same for what the books say to a plan. */
export const keptWithPlan = <Value>(
  books: Books,
  plan: Plan | null,
  key: string,
  make: () => Value,
): Value => {
  if (plan === null) return keptUntilChange(books, key, make)
  const owners = keptUntilChange(books, 'plans', () => new WeakMap<Plan, object>())
  const owner = owners.get(plan) ?? {}
  owners.set(plan, owner)
  return keptWith(owner, key, make)
}

const states = new WeakMap<Books, { change: number }>()
