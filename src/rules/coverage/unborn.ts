// Children not yet born in the size of a household by which the programs measure income (42 CFR 435.603(b), for the children's program
// by 457.315(a)): for the one who is pregnant all whom she expects, for others in her household as the state chooses. No list of these
// choices is published that could be carried here: a plan says it, and counts one person until it does.

/** How a state counts one who is pregnant for others: as one person, as two, or as herself and the children expected. */
export const unbornCounts = ['one', 'two', 'expected'] as const
export type UnbornCount = (typeof unbornCounts)[number]

/** How many are added to a household in which someone expects so many children; `isHerself`: asked for her who does. */
export const unbornAdded = (expected: number, isHerself: boolean, count: UnbornCount): number => {
  if (expected === 0 || isHerself || count === 'expected') return expected
  return count === 'two' ? 1 : 0
}
