// Builds the whole web app from a database and a clock. Listens nowhere by itself.
import type { Hono } from 'hono'
import { type AppOptions, buildApp } from '#web/app.ts'
import type { PageEnv } from '#web/context.ts'
import type { PageRoom } from '#web/page-room.ts'
import { pageRooms } from '#web/pages.ts'

export const createApp = (options: AppOptions, rooms: readonly PageRoom[] = pageRooms): Hono<PageEnv> =>
  buildApp(options, rooms)
