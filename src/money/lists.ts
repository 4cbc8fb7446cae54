// Words and amounts in a row, as a sentence has them.

/** `beans`, `beans and kale`, `beans, kale, and garlic`; empty for none. */
export const allOf = (words: Iterable<string>): string => inRow('and', words)

/** `beans`, `beans or kale`, `beans, kale, or garlic`; empty for none. */
export const anyOf = (words: Iterable<string>): string => inRow('or', words)

/** By hand: reading the tables of `Intl.ListFormat` takes a thirtieth of a start. A test holds the two together. */
const inRow = (joint: 'and' | 'or', words: Iterable<string>): string => {
  const all = [...words]
  const last = all.at(-1) ?? ''
  if (all.length < 2) return last
  if (all.length === 2) return `${all[0]} ${joint} ${last}`
  return `${all.slice(0, -1).join(', ')}, ${joint} ${last}`
}
