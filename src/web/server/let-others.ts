// Turns between long work on the server's one thread: whoever asked meanwhile is answered first.

/** One turn holds others up for about so long. */
const turnMilliseconds = 15

/** A function to be awaited at each stop: it goes on at once until its turn is over, then lets a round of the loop pass. */
export const turns = (): (() => Promise<void>) => {
  let until = performance.now() + turnMilliseconds
  return async () => {
    if (performance.now() < until) return
    await new Promise((resolve) => setImmediate(resolve))
    until = performance.now() + turnMilliseconds
  }
}
