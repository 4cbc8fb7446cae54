// A map that stays small: what was neither put nor asked for the longest is let go first.
export class Lately<Key, Value> {
  readonly #values = new Map<Key, Value>()
  readonly #most: number

  constructor(most: number) {
    this.#most = most
  }

  get(key: Key): Value | undefined {
    const value = this.#values.get(key)
    return value === undefined ? value : this.#put(key, value)
  }

  set(key: Key, value: Value): void {
    this.#put(key, value)
    if (this.#values.size > this.#most) this.#values.delete(this.#values.keys().next().value as Key)
  }

  delete(key: Key): void {
    this.#values.delete(key)
  }

  /** The last in the order of their use is the newest. */
  #put(key: Key, value: Value): Value {
    this.#values.delete(key)
    this.#values.set(key, value)
    return value
  }
}
