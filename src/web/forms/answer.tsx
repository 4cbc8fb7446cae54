// One route, four answers: the page, the part of it that htmx asked for, its figures as JSON, its tables as CSV.
import type { Context } from 'hono'
import type { Child } from 'hono/jsx'
import { withMore } from '#kept/by-part.ts'
import type { Dollars } from '#runway/dollars/dollars.ts'
import { figuresSaid } from '#today/figures-said.ts'
import { Layout, type Shell } from '#views/layout.tsx'
import { DollarsSwitch, ShownDollars } from '#views/parts/dollars.tsx'
import { breakageOf, diskProblem } from '#web/server/breakage.ts'
import { browserOf } from '#web/server/browser.ts'
import type { PageEnv } from '#web/server/context.ts'
import type { NoticeText } from '#web/server/notices.ts'
import { isInSample } from '#web/server/open-house.ts'
import { type CsvTable, csvText, withDollars } from './csv.ts'
import { navigation, pageOf, roomsOf } from './navigation.ts'
import { otherPlanOpen, planOpen } from './open-plan.ts'
import { type Html, renderStanding } from './standing.tsx'

export type PageContext = Context<PageEnv>

/** What a page room gives back. */
export type Answered = Response | Promise<Response>

type Tables = Readonly<Record<string, () => CsvTable>>

export interface Answer {
  title: string
  /** What stands in main. Figures are computed before and passed in, so that every form of the answer says the same. */
  page: () => Html
  /** Parts by the id of the element they replace; htmx asks for one by its target. */
  parts?: Readonly<Record<string, () => Html>>
  /** Stands in the place of whichever part was asked for and is not among them; else what stands in main does. */
  asPart?: () => Html
  /** The page's figures at the same address with `.json`. */
  figures?: unknown
  /** They are what people typed, like a plan's own document: written out to the last digit. */
  asTyped?: boolean
  /** Tables at the same address with `.csv`; with more than one, `?table=NAME` chooses and the first is the default. */
  tables?: Tables | (() => Tables)
  /** In which dollars amounts of the plan stand in it: said in the page, its JSON and its tables. */
  dollars?: Dollars
  /** Their switch stands in a part, which is repainted with an address of its own, or nowhere, where the page shows one year alone; else it is the last thing of the page. */
  switchesDollars?: 'in a part' | 'nowhere'
  status?: 200 | 403 | 404 | 409 | 413 | 422 | 429 | 500 | 503
  /** Left out before the books are set up and while locked. */
  withoutPages?: boolean
}

export function answer(c: PageContext, reply: Answer): Answered {
  const status = reply.status ?? 200
  const form = formatAsked(c)
  const { dollars } = reply
  if (form === 'json' && reply.figures !== undefined)
    return c.json(
      reply.asTyped
        ? standingFigures(c, reply.figures)
        : figuresSaid(
            standingFigures(c, dollars ? withMore(reply.figures as object, { dollars }) : reply.figures),
          ),
      status,
    )
  if (form === 'csv' && reply.tables)
    return csvAnswer(c, typeof reply.tables === 'function' ? reply.tables() : reply.tables, dollars)
  if (form !== 'html') {
    // Why there is nothing is the answer, in whichever form.
    if (status === 404 && reply.figures !== undefined) return c.json(reply.figures as object, status)
    return c.json(
      { error: `This address has no ${form.toUpperCase()}. Leave the ending off for the page.` },
      404,
    )
  }
  const asked = partAsked(c)
  if (asked !== undefined) return c.html(shownView(c, dollars, partOf(reply, asked)), status)
  return c.html(
    <>
      {doctype}
      <Layout shell={shellOf(c, reply)}>{shownView(c, dollars, wholePage(reply))}</Layout>
    </>,
    status,
  )
}

/** A part, never a page within a page: under the id asked for, so that the place can be asked for again. */
const partOf = (reply: Answer, id: string) =>
  reply.parts?.[id] ?? (() => <div id={id}>{(reply.asPart ?? reply.page)()}</div>)

/** What it answers comes first, in which dollars last. */
const wholePage = (reply: Answer) => () => (
  <>
    {reply.page()}
    {reply.switchesDollars ? null : <DollarsSwitch />}
  </>
)

/** The view with what it says of its dollars. Their switch leads back to the page it stands on, or from a form to its page. */
const shownView = (c: PageContext, dollars: Dollars | undefined, view: () => Html): Html => {
  const Standing = () => standingView(c, view)
  if (!dollars) return <Standing />
  const { search } = new URL(c.req.url)
  const back = c.req.method === 'GET' ? `${c.req.path}${search}` : pageOf(c.req.path)
  return (
    <ShownDollars.Provider value={{ dollars, back, stepsInJanuary: stepsInJanuary(c) }}>
      <Standing />
    </ShownDollars.Provider>
  )
}

const stepsInJanuary = (c: PageContext): boolean => {
  const open = planOpen(c)
  if (open.status !== 'read') return false
  const { priceSteps, inflation } = open.plan.assumptions
  return priceSteps === 'yearly' && inflation > 0
}

/** A part that breaks is told in its place and in the log, unless the server was built to break with it. */
const standingView = (c: PageContext, view: () => Html): Html =>
  c.var.web.brokenParts === 'thrown' ? view() : renderStanding(view, brokenPartOf(c))

/** Figures that cannot be worked out are named under `broken`; the others are there. */
const standingFigures = (c: PageContext, figures: unknown): object => {
  const whole = figures as object
  if (c.var.web.brokenParts === 'thrown' || Array.isArray(whole)) return whole
  const onBroken = brokenPartOf(c)
  const broken: string[] = []
  const standing: Record<string, unknown> = {}
  for (const name of Object.keys(whole)) {
    try {
      standing[name] = (whole as Record<string, unknown>)[name]
    } catch (error) {
      onBroken(error)
      broken.push(name)
    }
  }
  return broken.length === 0 ? standing : { ...standing, broken }
}

/** A disk that says no is the whole page’s matter. */
const brokenPartOf = (c: PageContext) => (error: unknown) => {
  if (diskProblem(error)) throw error
  c.var.web.log.error({ route: c.req.routePath, ...breakageOf(error) }, 'a part of a page broke')
}

/** After a form was booked: on to another page (303), with a line that says what happened. */
export const moveOn = (c: PageContext, address: string, notice?: NoticeText | string): Response => {
  const said = typeof notice === 'string' ? { text: notice } : notice
  const target = said ? c.var.web.notices.pin(address, said) : address
  return c.redirect(target, 303)
}

/** What is not there, said on a page that leads on; `instead`: what there is in its place. */
export const notFound = (
  c: PageContext,
  says: string,
  instead: readonly { says: string; href: string }[] = [],
): Answered =>
  answer(c, {
    title: 'Not found',
    status: 404,
    figures: { error: says },
    page: () => (
      <>
        <h1>Not found</h1>
        <p>{says}</p>
        {instead.length === 0 ? null : (
          <ul>
            {instead.map((one) => (
              <li>
                <a href={one.href}>{one.says}</a>
              </li>
            ))}
          </ul>
        )}
        <p>
          <a href="/now">Go to Now</a>
        </p>
      </>
    ),
  })

/** The ending of the address asked for; the router sees it without. */
export const formatAsked = (c: PageContext): 'html' | 'json' | 'csv' => {
  const path = new URL(c.req.url).pathname
  return path.endsWith('.json') ? 'json' : path.endsWith('.csv') ? 'csv' : 'html'
}

/** `HX-Target: div#months` → `months`, when htmx asks for a part of the page. */
const partAsked = (c: PageContext): string | undefined =>
  c.req.header('HX-Request') === 'true' && c.req.header('HX-Request-Type') !== 'full'
    ? c.req.header('HX-Target')?.split('#')[1]
    : undefined

const csvAnswer = (c: PageContext, tables: Tables, dollars: Dollars | undefined): Response => {
  const name = c.req.query('table') ?? Object.keys(tables)[0] ?? ''
  const table = Object.hasOwn(tables, name) ? tables[name] : undefined
  if (!table) return c.json({ error: `There is no table “${name}” here.` }, 404)
  const file = `${new URL(c.req.url).pathname.slice(1, -4).replaceAll('/', '-')}-${name}.csv`
  return c.body(csvText(dollars ? withDollars(table(), dollars) : table()), 200, {
    'Content-Type': 'text/csv; charset=utf-8',
    'Content-Disposition': `attachment; filename="${file.replaceAll(/[^\w.-]/g, '')}"`,
  })
}

const shellOf = (c: PageContext, reply: Answer): Shell => {
  const { web } = c.var
  const key = c.req.query('notice')
  return {
    // A form that comes back says so before anything else, in the tab and to whoever hears the page.
    title: reply.status === 422 ? `Error: ${reply.title}` : reply.title,
    currentPath: pageOf(c.req.path),
    pages: reply.withoutPages ? [] : navigation,
    rooms: reply.withoutPages ? [] : roomsOf(c.req.path),
    assets: web.assetAddresses,
    isSample: web.isSample,
    otherPlan: reply.withoutPages ? null : otherPlanOpen(c),
    canLeaveSample: web.isSample && isInSample(c),
    notice: key ? web.notices.take(key) : undefined,
    meanwhile: reply.withoutPages ? null : web.meanwhile(browserOf(c)),
    trouble: reply.withoutPages ? null : (web.books.standing.problem()?.message ?? null),
    canLock: web.access.isSet() && !reply.withoutPages,
    isPosted: c.req.method === 'POST',
  }
}

const doctype = Object.assign(new String('<!DOCTYPE html>'), { isEscaped: true }) as unknown as Child
