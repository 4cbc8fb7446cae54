// The end of a server: who was let in is answered and told that it is the last answer; only then may the books be closed.
import { once } from 'node:events'
import type { Server, ServerResponse } from 'node:http'
import { setTimeout as wait } from 'node:timers/promises'
import type { House } from '#web/server/open-house.ts'

/** A window that is closed on Windows leaves its process ten seconds in all. */
const patienceMilliseconds = 4000
const lookMilliseconds = 50

/** The server's answers as they go out, with the pages that make them. */
export interface Answers extends House {
  noteThoseOf(server: Server): void
  /** Resolves once nothing is under way any more; whoever still waits then is cut off. */
  finish(server: Server): Promise<void>
}

export function answersOf(house: House, patience = patienceMilliseconds): Answers {
  const goingOut = new Set<ServerResponse>()
  const beingMade = new Set<Promise<Response>>()
  let [isStopping, isShut] = [false, false]
  const isLast = (answer: ServerResponse) => {
    if (!answer.headersSent) answer.setHeader('Connection', 'close')
  }
  return {
    async fetch(request, env) {
      // Who waited for a turn until the patience was over, or whose connection is gone.
      if (isShut) return new Response('Dooryard has been stopped.\n', { status: 503 })
      const made = (async () => house.fetch(request, env))()
      beingMade.add(made)
      try {
        return await made
      } finally {
        beingMade.delete(made)
      }
    },
    noteThoseOf: (server) =>
      void server.prependListener('request', (_, answer: ServerResponse) => {
        goingOut.add(answer)
        answer.once('close', () => goingOut.delete(answer))
        if (isStopping) isLast(answer)
      }),
    async finish(server) {
      isStopping = true
      const closed = once(server, 'close')
      server.close()
      for (const answer of goingOut) isLast(answer)
      // A connection whose answer had begun before stays open after it, and would bring the next question.
      const letGo = () => server.closeIdleConnections()
      letGo()
      const looking = setInterval(letGo, lookMilliseconds)
      const last = setTimeout(() => server.closeAllConnections(), patience)
      await closed
      clearInterval(looking)
      clearTimeout(last)
      isShut = true
      const over = new AbortController()
      const tired = wait(patience, undefined, { signal: over.signal }).catch(() => undefined)
      await Promise.race([Promise.allSettled(beingMade), tired])
      over.abort()
    },
  }
}
