// Lays the app out from a database and a clock: security first, then assets, then the page rooms it is given.
import { Hono, type MiddlewareHandler } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { Books } from '#db/open.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import type { PageRoom } from '#web/forms/page-room.ts'
import { type Access, accessOf } from './access.ts'
import { loadAssets } from './assets.ts'
import { startBeforeBooks } from './before-books.ts'
import { breakageOf, diskProblem } from './breakage.ts'
import { type Clock, localDay, timeNameOf } from './clock.ts'
import type { Log, PageEnv, Upkeep, WebContext } from './context.ts'
import { brokenPage, diskPage, refusedPage, unknownPage } from './error-pages.tsx'
import { unlockedOnly } from './lock.ts'
import { meanwhileOf } from './meanwhile.ts'
import { noticeBoard } from './notices.ts'
import {
  headers,
  loopbackNames,
  onlyForms,
  onlyHosts,
  privateAnswers,
  sameSitePosts,
  sizeLimits,
} from './security.ts'

export interface AppOptions {
  books: Books
  clock: Clock
  isSample?: boolean
  /** Names this server answers to beside localhost, 127.0.0.1 and [::1]. */
  hostNames?: readonly string[]
  log?: Log
  /** Shared between your own books and the sample, so that one passphrase locks both. */
  access?: Access
  /** False when other computers can reach the address. */
  isLoopback?: boolean
  /** Runs the simulations behind Now by itself; off where nobody waits for them, as in tests. */
  simulates?: boolean
  upkeep?: Upkeep
  exchange?: WebContext['exchange']
  /** `told`: a part of a page that breaks says so in its place and the rest stands. Else the whole page breaks, as tests need it. */
  brokenParts?: 'told' | 'thrown'
}

/** The app with the given page rooms; `createApp` in server.ts gives it all of them. */
export function buildApp(options: AppOptions, rooms: readonly PageRoom[]): Hono<PageEnv> {
  const assets = loadAssets()
  const web: WebContext = {
    books: options.books,
    clock: options.clock,
    today: () => localDay(options.clock.now()),
    timeName: timeNameOf(options.clock.zone),
    isSample: options.isSample ?? false,
    notices: noticeBoard(),
    log: options.log ?? silentLog,
    assetAddresses: assets.addresses,
    meanwhile: meanwhileOf(options.books),
    access: options.access ?? accessOf(options.books, options.clock),
    isLoopback: options.isLoopback ?? true,
    simulates: options.simulates ?? false,
    upkeep: options.upkeep ?? { backupProblem: null, restoreSaid: null },
    exchange: options.exchange,
    brokenParts: options.brokenParts ?? 'thrown',
  }
  const uploads = rooms.flatMap((room) => room.uploads ?? [])
  const app = new Hono<PageEnv>({ getPath: pathWithoutEnding })
  app.use(headers())
  app.use(async (c, next) => {
    c.set('web', web)
    await next()
  })
  app.use(timed(web.log))
  app.use(onlyHosts([...loopbackNames, ...(options.hostNames ?? [])]))
  app.use(assets.serve)
  app.use(privateAnswers)
  app.use(sameSitePosts())
  app.use(onlyForms)
  app.use(unlockedOnly(web.access))
  app.use(onlyWhileStanding(options.books))
  app.use(startBeforeBooks(options.books))
  app.use(sizeLimits((path) => uploads.some((under) => path.startsWith(under))))
  for (const room of rooms) app.route('/', room.build(web))
  app.get('/', (c) => c.redirect('/now', 302))
  app.notFound((c) => unknownPage(c as PageContext))
  app.onError((error, c) => onError(error, c as PageContext))
  return app
}

/** What may be done with books that can no longer be written: save them, prove them, lock and unlock the pages. */
const stillOpen = ['/settings/backups/', '/unlock', '/lock']

/** Refused before a page begins with it: some put a receipt or a held file aside before they write. */
const onlyWhileStanding =
  ({ standing }: Books): MiddlewareHandler<PageEnv> =>
  async (c, next) => {
    const isWrite = c.req.method !== 'GET' && c.req.method !== 'HEAD'
    if (isWrite && !stillOpen.some((path) => c.req.path.startsWith(path))) standing.mustHold()
    await next()
  }

function onError(error: Error, c: PageContext): Response | Promise<Response> {
  if (error instanceof HTTPException) return refusedPage(c, error.status, error.message)
  // Stopped, or set back to a copy, while the page was under way: no page can be made of what is closed, and nothing broke.
  if (!c.var.web.books.sqlite.open)
    return c.text('The books were closed meanwhile. Load the page again.\n', 503)
  const problem = diskProblem(error)
  if (problem) {
    c.var.web.log.error({ route: c.req.routePath, problem: problem.kind }, 'the disk refused')
    return diskPage(c, problem.message)
  }
  c.var.web.log.error({ route: c.req.routePath, ...breakageOf(error) }, 'a page broke')
  return brokenPage(c)
}

/** `/now.json` and `/now.csv` are `/now` to the router; the answer looks at the ending. */
function pathWithoutEnding(request: Request): string {
  const { pathname } = new URL(request.url)
  if (request.method !== 'GET' || pathname.startsWith('/assets/')) return pathname
  return pathname.replace(/\.(json|csv)$/, '') || '/'
}

const timed =
  (log: Log) =>
  async (c: { req: { method: string; routePath: string }; res: Response }, next: () => Promise<void>) => {
    const start = performance.now()
    await next()
    const milliseconds = Math.round(performance.now() - start)
    log.info({ method: c.req.method, route: c.req.routePath, status: c.res.status, milliseconds }, 'answered')
  }

const silentLog: Log = { info: () => {}, warn: () => {}, error: () => {} }
