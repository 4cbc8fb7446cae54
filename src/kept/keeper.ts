// What is worked out once and kept with the object it was worked out from, which never changes, like a saved plan.
import { Lately } from './lately.ts'

/** Keeps the last `most` of each owner, and a promise only until it breaks. What it returns is shared. */
export const keeper = (most: number) => {
  const kept = new WeakMap<object, Lately<string, { value: unknown }>>()
  return <Value>(owner: object, key: string, make: () => Value): Value => {
    const values = kept.get(owner) ?? new Lately<string, { value: unknown }>(most)
    kept.set(owner, values)
    const known = values.get(key)
    if (known) return known.value as Value
    const value = make()
    values.set(key, { value })
    if (value instanceof Promise) value.catch(() => values.delete(key))
    return value
  }
}

/** For what is small. */
export const keptWith = keeper(100)
