// Long work that can stop now and then: written once as a generator, carried out in one go or with turns for others between.

export type InTurns<Result> = Generator<void, Result, void>

/** After so many things of a list the work may stop. */
export const turnSize = 1000

export const atOnce = <Result>(work: InTurns<Result>): Result => {
  for (;;) {
    const step = work.next()
    if (step.done) return step.value
  }
}

/** `turn` waits until others had theirs; it is asked for at each stop. */
export const withTurns = async <Result>(
  work: InTurns<Result>,
  turn: () => Promise<void>,
): Promise<Result> => {
  for (;;) {
    const step = work.next()
    if (step.done) return step.value
    await turn()
  }
}

/** Each thing of a list, with a stop after every `turnSize` of them. */
export function* eachInTurns<Thing>(list: readonly Thing[], act: (thing: Thing) => void): InTurns<void> {
  for (let at = 0; at < list.length; at += 1) {
    act(list[at]!)
    if (at % turnSize === turnSize - 1) yield
  }
}
