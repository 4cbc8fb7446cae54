// Builds the whole web app from a database and a clock. Listens nowhere by itself.
import type { Hono } from 'hono'
import type { PageRoom } from '#web/forms/page-room.ts'
import { pageRooms } from '#web/pages/all-pages.ts'
import { type AppOptions, buildApp } from '#web/server/app.ts'
import type { PageEnv } from '#web/server/context.ts'

export const createApp = (options: AppOptions, rooms: readonly PageRoom[] = pageRooms): Hono<PageEnv> =>
  buildApp(options, rooms)
