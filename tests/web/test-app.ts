// An app over fresh books in memory or in a temp file, with get and post as a browser on this computer would send them.
import { randomUUID } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Day } from '#calendar/day.ts'
import { addSide } from '#db/ledger/account-store.ts'
import { type Books, openBooks } from '#db/open.ts'
import { type PlanSave, savePlan } from '#db/plan-store.ts'
import { planVersion } from '#plan/plan.ts'
import { createApp } from '#src/server.ts'
import { accessOf } from '#web/server/access.ts'
import type { AppOptions } from '#web/server/app.ts'
import type { PageEnv } from '#web/server/context.ts'

export interface TestApp {
  books: Books
  /** Every address of the app with its method. */
  routes: readonly { method: string; path: string }[]
  get(path: string, headers?: Record<string, string>): Promise<Response>
  /** Sends a form; a list as value sends the name repeatedly. */
  post(
    path: string,
    form: FormFields,
    headers?: Record<string, string>,
    env?: PageEnv['Bindings'],
  ): Promise<Response>
  /** The books of a farm, Wrenfold, and of its household, as the first run opens them. */
  openSides(): void
  /** Saves the document as the first revision of a plan, or as the one after `basedOn`. */
  savePlan(document: unknown, revision?: Partial<PlanSave>): void
  upload(path: string, form: FormData): Promise<Response>
  /** Sends a body as it is. */
  postRaw(path: string, body: string, type: string): Promise<Response>
  /** Sets the day, and the time of day, the app believes it is. */
  setToday(day: string, time?: string): void
  close(): void
}

export type FormFields = Readonly<Record<string, string | readonly string[]>>

export interface TestAppOptions extends Partial<Omit<AppOptions, 'books' | 'clock'>> {
  today?: string
  /** In a folder of its own, for what lies beside the file; otherwise in memory. */
  onDisk?: boolean
  /** Of scrypt, where a test types many passphrases; as people have it when missing. */
  passphraseCost?: number
  /** Books that lie in a file already, which is the test's to remove. */
  file?: string
}

const origin = 'http://localhost'

export function testApp(options: TestAppOptions = {}): TestApp {
  let now = noonOf(options.today ?? '2026-03-15')
  const folder = options.onDisk ? mkdtempSync(join(tmpdir(), 'dooryard-')) : null
  const opened = openBooks(options.file ?? (folder ? join(folder, 'books.sqlite') : ':memory:'), { now })
  if (!opened.ok) throw new Error(opened.problem.message)
  const { books } = opened
  const clock = { now: () => now }
  const { passphraseCost, ...others } = options
  const access = passphraseCost ? { access: accessOf(books, clock, passphraseCost) } : {}
  const app = createApp({ ...others, ...access, books, clock })
  const send = async (path: string, init: RequestInit, env?: PageEnv['Bindings']) =>
    app.request(origin + path, init, env)
  return {
    books,
    routes: app.routes,
    get: (path, headers = {}) => send(path, { headers }),
    post: async (path, form, headers = {}, env) => {
      const body = formBody(form)
      if (carriesVersion.test(path) && !body.has('basedOn')) {
        const page = await (await send(path, { headers }, env)).text()
        body.set('basedOn', /name="basedOn" value="([^"]*)"/.exec(page)?.[1] ?? '')
      }
      return send(path, { method: 'POST', body, headers: { origin, ...headers } }, env)
    },
    postRaw: (path, body, type) =>
      send(path, { method: 'POST', body, headers: { origin, 'content-type': type } }),
    upload: (path, form) => send(path, { method: 'POST', body: form, headers: { origin } }),
    openSides: () => {
      const at = now.toISOString()
      for (const side of [
        { kind: 'farm', name: 'Wrenfold' },
        { kind: 'household', name: 'Household' },
      ] as const) {
        const opened = addSide(books, { formId: randomUUID(), at, actor: 'test' }, side)
        if (!opened.ok) throw new Error(JSON.stringify(opened.problems))
      }
    },
    savePlan: (document, revision = {}) => {
      const act = { formId: randomUUID(), at: now.toISOString(), actor: 'test' }
      const first = { planId: 'ours', name: 'Ours', basedOn: 0, schemaVersion: planVersion }
      const saved = savePlan(books, act, { ...first, document, ...revision })
      if (!saved.ok) throw new Error(`The plan was not saved: ${saved.kind}`)
    },
    setToday: (day, time = '12:00') => {
      now = new Date(`${day}T${time}:00`)
    },
    close: () => {
      books.close()
      if (folder) rmSync(folder, { recursive: true })
    },
  }
}

/** Pages whose form says which version it was opened on: a browser sends that along with what a test types. */
const carriesVersion =
  /^\/(settings\/(accounts|sides)\/(?!new)|settings\/people|start\/who|books\/sorting\/rules\/(?!new)|year-pack\/holdings\/(?!new))/

const noonOf = (day: string): Date => new Date(`${day as Day}T12:00:00`)

const formBody = (form: FormFields): URLSearchParams => {
  const body = new URLSearchParams()
  for (const [name, value] of Object.entries(form)) {
    for (const one of typeof value === 'string' ? [value] : value) body.append(name, one)
  }
  return body
}
