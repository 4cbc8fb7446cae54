// The short name by which a plan refers to one of its parts, made from what a person calls it.

/** `Market day, Saturday` → `market-day-saturday`, with a number behind it when it is taken; `otherwise` when no letter is left. */
export const shortName = (called: string, taken: ReadonlySet<string>, otherwise: string): string => {
  const stem =
    called
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .slice(0, 30)
      .replace(/^-+|-+$/g, '') || otherwise
  let name = stem
  for (let count = 2; taken.has(name); count += 1) name = `${stem}-${count}`
  return name
}
