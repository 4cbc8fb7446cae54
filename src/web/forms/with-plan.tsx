// The plan in use, or the one that is open, for a page that needs one, or the page that says why there is none and what to do.

import type { Plan } from '#plan/plan.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { NoPlanPage } from '#views/runway/no-plan.tsx'
import { type Answered, answer, type PageContext } from './answer.tsx'
import { navigation, pageOf, roomsOf } from './navigation.ts'
import { planOpen } from './open-plan.ts'

/** The plan in use: as it was saved, for its forms, and continued from this month, for everything that is projected. */
export interface PlanToday extends PlanInUse {
  ongoing: Plan
}

export const withPlan = (c: PageContext, show: (current: PlanToday) => Answered): Answered => {
  const current = planOpen(c)
  if (current.status === 'read') return show(continuedToday(c, current))
  const says =
    current.status === 'none'
      ? undefined
      : current.faults.map(({ path, message }) => (path === '' ? message : `${path}: ${message}`)).join(' ')
  return answerNoPlan(c, says)
}

/** Where there is no plan, or none that can be read, under the name of the room that asks for one. */
export const answerNoPlan = (c: PageContext, says?: string): Answered => {
  const { path } = c.req
  const room = roomsOf(path).find((one) => one.isCurrent && one.path !== pageOf(path))
  const title = (room ?? navigation.find((page) => page.path === pageOf(path)))?.name ?? 'Plan'
  return answer(c, {
    title,
    figures: { plan: null, says: says ?? 'There is no plan yet.' },
    page: () => <NoPlanPage title={title} says={says} />,
  })
}

export const continuedToday = (c: PageContext, current: PlanInUse): PlanToday => ({
  ...current,
  ongoing: continuedPlan(c.var.web.books, current.plan, c.var.web.today()).plan,
})

export interface ProjectedPlan extends PlanInUse {
  /** As it was saved. */
  saved: Plan
}

/** The same revision with the plan that is projected in place of the saved one. */
export const projected = (current: PlanToday): ProjectedPlan => ({
  ...current,
  plan: current.ongoing,
  saved: current.plan,
})
