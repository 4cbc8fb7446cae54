// Ids of the people of a plan: pay, cover and hours point at them, so they stay when a name is put right.
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
    const id = same && !taken.has(same.id) ? same.id : shortName(one.name, taken)
    taken.add(id)
    return { ...one, id }
  }
}

function shortName(name: string, taken: ReadonlySet<string>): string {
  const stem =
    name
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
      .slice(0, 30) || 'person'
  let id = stem
  for (let count = 2; taken.has(id); count += 1) id = `${stem}-${count}`
  return id
}
