// What is worked out once and kept with what it was worked out from: a page shown again costs little, and nothing outlives its cause.
import { latestChangeId } from '#db/change-log.ts'
import type { Books } from '#db/open.ts'

/** Keeps the newest `most` of each owner, an object that never changes, like a saved plan. What it returns is shared. */
export const keeper = (most: number) => {
  const kept = new WeakMap<object, Map<string, unknown>>()
  return <Value>(owner: object, key: string, make: () => Value): Value => {
    const values = kept.get(owner) ?? new Map<string, unknown>()
    kept.set(owner, values)
    if (values.has(key)) return values.get(key) as Value
    const made = make()
    const oldest = values.keys().next().value
    if (values.size >= most && oldest !== undefined) values.delete(oldest)
    values.set(key, made)
    return made
  }
}

/** For what is small. */
export const keptWith = keeper(100)

/** Read once until the books change: pages ask for the same again and again. What it returns is shared. */
export const keptUntilChange = <Value>(books: Books, key: string, make: () => Value): Value => {
  const change = latestChangeId(books)
  const known = states.get(books)
  const state = known?.change === change ? known : { change }
  states.set(books, state)
  return keptWith(state, key, make)
}

const states = new WeakMap<Books, { change: number }>()
