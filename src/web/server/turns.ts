// Pages begin one after the other, with a look at the door between two: who comes new is let in before who is in is served again.
import type { House } from './open-house.ts'

/**
 * Node takes in one new connection for each round of its loop, and answers all that were asked meanwhile in the same round. Under
 * twenty clients the last one let in would wait for the others' tenth page. What a page waits for itself holds nobody up.
 */
export const inTurns = (house: House): House => {
  let last: Promise<void> = Promise.resolve()
  return {
    async fetch(request, env) {
      const before = last
      let letNextIn = () => {}
      last = new Promise((resolve) => {
        letNextIn = resolve
      })
      await before
      setImmediate(letNextIn)
      return house.fetch(request, env)
    },
  }
}
