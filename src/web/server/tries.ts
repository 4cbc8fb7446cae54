// Wrong tries slow down the one who makes them, and nobody else; in memory only.
import { Lately } from '#kept/lately.ts'

export interface Tries {
  /** Seconds until this client may try again; 0 when it may. */
  wait(client: string): number
  /** Counts a try before its slow part, so that many at once do not slip through together. */
  begin(client: string): void
  right(client: string): void
}

interface Made {
  wrong: number
  since: number
  waitMilliseconds: number
}

const freeTries = 5
const longestWaitSeconds = 300
const mostClients = 2000

export const slowedTries = (now: () => number): Tries => {
  const clients = new Lately<string, Made>(mostClients)
  return {
    wait(client) {
      const made = clients.get(client)
      if (!made) return 0
      // A clock that was set back must not lengthen the wait: it begins anew.
      if (now() < made.since) made.since = now()
      return Math.max(0, Math.ceil((made.since + made.waitMilliseconds - now()) / 1000))
    },
    begin(client) {
      const wrong = (clients.get(client)?.wrong ?? 0) + 1
      const seconds = wrong < freeTries ? 0 : Math.min(longestWaitSeconds, 2 ** (wrong - freeTries + 1))
      clients.set(client, { wrong, since: now(), waitMilliseconds: seconds * 1000 })
    },
    right: (client) => clients.delete(client),
  }
}
