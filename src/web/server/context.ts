// What every page is given: the books, the clock, where the files are, the notice board and the log.
import type { Day } from '#calendar/day.ts'
import type { TimeName } from '#calendar/instant.ts'
import type { Books } from '#db/open.ts'
import type { Access } from './access.ts'
import type { AssetAddresses } from './assets.ts'
import type { Clock } from './clock.ts'
import type { Meanwhile } from './meanwhile.ts'
import type { NoticeBoard } from './notices.ts'

/** The log holds method, route, status and time; never an address with its query, an amount or a name. */
export interface Log {
  info(fields: Record<string, unknown>, message: string): void
  warn(fields: Record<string, unknown>, message: string): void
  error(fields: Record<string, unknown>, message: string): void
}

/** What the house found out while it keeps itself: written by the housekeeping, shown on Now. */
export interface Upkeep {
  /** Why the copy of the day could not be made, in words. */
  backupProblem: string | null
  /** What the last restore from the page came to, until it is said. */
  restoreSaid: string | null
}

export interface WebContext {
  books: Books
  clock: Clock
  /** Today by the computer's own calendar. */
  today(): Day
  /** An instant of the books by the computer's own clock, as people read it. */
  timeName: TimeName
  isSample: boolean
  notices: NoticeBoard
  log: Log
  assetAddresses: AssetAddresses
  /** News of changes made at other screens, for this browser. */
  meanwhile: Meanwhile
  /** The passphrase and the sessions that have given it. */
  access: Access
  /** Whether the simulations behind Now are run by themselves. */
  simulates: boolean
  /** Whether only this computer can reach the address: elsewhere a passphrase is a must. */
  isLoopback: boolean
  upkeep: Upkeep
  /**
   * Lets go of the books, does the work on their file, and opens them and all pages anew: afterwards this context is of the past.
   * Missing where nobody keeps a server, and in the sample.
   */
  exchange: (<Result>(work: () => Result) => Result) | undefined
  /** What becomes of a part of a page that breaks. */
  brokenParts: 'told' | 'thrown'
}

export interface PageEnv {
  /** What the server knows of the connection; nothing in tests that have none. */
  Bindings: { incoming?: { socket: { remoteAddress?: string } } }
  Variables: {
    web: WebContext
    /** The plan that the posted form was made for, and so is about. */
    planOfForm?: string
  }
}
