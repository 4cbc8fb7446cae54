// The last few documents of a kind, of which one that says the same as an earlier one is that one.

/** What documents share by identity is not looked at, so that one changed in a few places is soon told from the others. */
export class Alike<Document extends object> {
  readonly #known: Document[] = []
  readonly #most: number

  constructor(most: number) {
    this.#most = most
  }

  /** The one known before that says the same; else this one, known from now on. What was asked for the longest ago is let go. */
  foundOr<Asked extends Document>(document: Asked): Asked {
    const at = this.#known.findIndex((one) => saysTheSame(one, document))
    const found = at < 0 ? document : (this.#known.splice(at, 1)[0] as Asked)
    this.#known.unshift(found)
    if (this.#known.length > this.#most) this.#known.pop()
    return found
  }
}

/** Of plain documents: values, lists, and things by name. */
function saysTheSame(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false
  const names = Object.keys(one)
  return (
    Array.isArray(one) === Array.isArray(other) &&
    names.length === Object.keys(other).length &&
    names.every(
      (name) =>
        Object.hasOwn(other, name) &&
        saysTheSame(one[name as keyof typeof one], other[name as keyof typeof other]),
    )
  )
}
