// The last few documents of a kind, of which one that says the same as an earlier one is that one.
import { isDeepStrictEqual } from 'node:util'

/** What documents share by identity is not looked at, so that one changed in a few places is soon told from the others. */
export class Alike<Document extends object> {
  readonly #known: Document[] = []
  readonly #most: number

  constructor(most: number) {
    this.#most = most
  }

  /** The one known before that says the same; else this one, known from now on. What was asked for the longest ago is let go. */
  foundOr<Asked extends Document>(document: Asked): Asked {
    const at = this.#known.findIndex((one) => one === document || isDeepStrictEqual(one, document))
    const found = at < 0 ? document : (this.#known.splice(at, 1)[0] as Asked)
    this.#known.unshift(found)
    if (this.#known.length > this.#most) this.#known.pop()
    return found
  }
}
