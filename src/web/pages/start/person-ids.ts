// Ids of the people of a plan: pay, cover and hours point at them, so they stay when a name is put right.
import { shortName } from '#plan/short-name.ts'

interface Known {
  id: string
  name: string
  born: string
}

/** Gives each of the named people the id the plan knows them by (their name, or else their date of birth), or a new one. */
export function personIds(names: readonly string[]) {
  const named = new Set(names)
  const taken = new Set<string>()
  return <Person extends { name: string; born: string }>(known: readonly Known[], one: Person) => {
    const same =
      known.find((other) => other.name === one.name) ??
      known.find((other) => other.born === one.born && !named.has(other.name))
    const id = same && !taken.has(same.id) ? same.id : shortName(one.name, taken, 'person')
    taken.add(id)
    return { ...one, id }
  }
}
