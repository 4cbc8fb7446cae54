// The plan in use for a page that needs one, or the page that says why there is none and what to do.

import { currentPlan, type PlanInUse } from '#today/current-plan.ts'
import { NoPlanPage } from '#views/runway/no-plan.tsx'
import { type Answered, answer, type PageContext } from './answer.tsx'
import { navigation, pageOf } from './navigation.ts'

export const withPlan = (c: PageContext, show: (current: PlanInUse) => Answered): Answered => {
  const current = currentPlan(c.var.web.books)
  if (current.status === 'read') return show(current)
  const says =
    current.status === 'none'
      ? undefined
      : current.faults.map(({ path, message }) => (path === '' ? message : `${path}: ${message}`)).join(' ')
  const title = navigation.find((page) => page.path === pageOf(c.req.path))?.name ?? 'Plan'
  return answer(c, {
    title,
    figures: { plan: null, says: says ?? 'There is no plan yet.' },
    page: () => <NoPlanPage title={title} says={says} />,
  })
}
