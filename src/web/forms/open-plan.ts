// The plan that a request is about: the one its form was made for, else the one this browser works on: that in use, or another
// that was opened to be changed without being used.
import type { Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { type CurrentPlan, currentPlan, planNamed } from '#today/current-plan.ts'
import type { PageEnv } from '#web/server/context.ts'

const planCookie = 'dooryard-plan'

/** Pages of the plan itself. What is said of today and of the books is always said of the plan in use. */
const planPages = ['/runway', '/farm', '/slower-years', '/cover']
const ofTheBooks = ['/runway/actual', '/runway/compare']

const isPlanPage = (path: string): boolean => {
  const isUnder = (page: string) => path === page || path.startsWith(`${page}/`)
  return planPages.some(isUnder) && !ofTheBooks.some(isUnder)
}

export const planOpen = (c: Context<PageEnv>): CurrentPlan => {
  const named = c.var.planOfForm
  return named === undefined ? planOfBrowser(c) : planNamed(c.var.web.books, named, { withPutAway: true })
}

/** From here on the request is about the plan that its form names, whichever has been opened, put into use or put away since. */
export const isOfForm = (c: Context<PageEnv>, planId: string): void => {
  if (planId !== '') c.set('planOfForm', planId)
}

/** Whether the page that a form leads back to is about another plan than the form. */
export const leadsElsewhere = (c: Context<PageEnv>): boolean => {
  const [form, browser] = [c.var.planOfForm, planOfBrowser(c)]
  return form !== undefined && browser.status !== 'none' && browser.planId !== form
}

const planOfBrowser = (c: Context<PageEnv>): CurrentPlan => {
  const inUse = currentPlan(c.var.web.books)
  const opened = getCookie(c, planCookie)
  if (!opened || !isPlanPage(c.req.path)) return inUse
  const other = planNamed(c.var.web.books, opened)
  return other.status === 'none' ? inUse : other
}

/** The name of an opened plan that is not the one in use, where the page is about it. */
export const otherPlanOpen = (c: Context<PageEnv>): string | null => {
  const [open, inUse] = [planOpen(c), currentPlan(c.var.web.books)]
  if (open.status === 'none' || inUse.status === 'none' || open.planId === inUse.planId) return null
  return open.name
}

/** Null: back to the plan in use. */
export const keepOpen = (c: Context<PageEnv>, planId: string | null): void => {
  if (planId === null) deleteCookie(c, planCookie, { path: '/' })
  else
    setCookie(c, planCookie, planId, {
      path: '/',
      httpOnly: true,
      sameSite: 'Strict',
      secure: c.req.url.startsWith('https:'),
    })
}
