// Values of the plan's document written as words, where a form offers them.

/** `machinery-new` → `Machinery new`. */
export const asWords = (value: string): string =>
  `${value[0]!.toUpperCase()}${value.slice(1).replaceAll('-', ' ')}`

/** A name stays as it is; a value of the document itself is written as words. */
export const worded = (option: { value: string; label: string }) =>
  option.label === option.value ? { ...option, label: asWords(option.value) } : option
