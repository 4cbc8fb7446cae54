// The list of page rooms: each file exports a factory that takes the shared context and returns a Hono app with full paths.
import type { Hono } from 'hono'
import type { PageEnv, WebContext } from './context.ts'

export interface PageRoom {
  build: (web: WebContext) => Hono<PageEnv>
  /** Paths under which a file may be sent (statements, attachments, backups): the larger size limit holds there. */
  uploads?: readonly string[]
}

export const pageRooms: readonly PageRoom[] = []
