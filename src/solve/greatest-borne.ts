// The greatest level that is borne where it is drawn: what a farm bears hangs on the level itself where something waits for cash.

/** How closely a level is found, dollars, and in how many runs at most where one that is borne is known by then. */
export interface Closeness {
  within(level: number): number
  rounds: number
}

export const closely: Closeness = { within: () => 10, rounds: 6 }

/** For a level that is only told beside the answer, or looked at again from closer by. */
export const coarsely: Closeness = { within: (level) => Math.max(10, level / 50), rounds: 4 }

/** What was run at a level, and the level. */
export interface Borne<Run> {
  level: number
  run: Run
}

/**
 * Tries levels, whole dollars from `first` on, until one is borne and a greater one is not in sight: each run says
 * in `borneIn` what its courses could have been paid with all else as it went at that level, which is a guess of the next one and, where it
 * is no less than the level itself, the proof of it. Less is not always borne too: what is bought sooner with it has to be paid for. Nothing drawn is always borne.
 */
export async function greatestBorne<Run>(
  first: number,
  runAt: (level: number) => Promise<Run>,
  borneIn: (run: Run) => number,
  { within, rounds }: Closeness = closely,
): Promise<Borne<Run>> {
  let held: Borne<Run> | null = null
  let tooMuch = Number.POSITIVE_INFINITY
  let level = Math.max(0, Math.floor(first))
  for (let round = 1; ; round += 1) {
    const run = await runAt(level)
    const bears = Math.max(0, Math.floor(borneIn(run)))
    if (bears >= level) held = { level, run }
    else tooMuch = level
    const next = between(held?.level ?? -1, tooMuch, bears >= level ? bears : 2 * bears - level)
    if (held !== null && (next - held.level <= within(held.level) || round >= rounds)) return held
    level = round < rounds ? next : round < 2 * rounds ? Math.floor(next * 0.8) : 0
  }
}

/** The level aimed at; where it lies beyond what is known to be too much, or not above what is borne, the middle of them. */
const between = (held: number, tooMuch: number, aim: number): number => {
  const level = Math.max(0, aim)
  if (level < tooMuch && (level > held || tooMuch === Number.POSITIVE_INFINITY)) return level
  return Math.floor((held + tooMuch) / 2)
}
