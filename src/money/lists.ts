// Words and amounts in a row, as a sentence has them.

/** `beans`, `beans and kale`, `beans, kale, and garlic`; empty for none. */
export const allOf = (words: Iterable<string>): string => inRow('conjunction', words)

/** `beans`, `beans or kale`, `beans, kale, or garlic`; empty for none. */
export const anyOf = (words: Iterable<string>): string => inRow('disjunction', words)

/** Made when first asked for: a start that lists nothing does not wait for them. */
const made: Partial<Record<Intl.ListFormatType, Intl.ListFormat>> = {}

const inRow = (type: Intl.ListFormatType, words: Iterable<string>): string => {
  made[type] ??= new Intl.ListFormat('en-US', { type })
  return made[type].format(words)
}
