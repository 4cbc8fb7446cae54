// Plan → seen: what the notebook says about the plan's figures, each taken over by one press.
import { Hono } from 'hono'
import type { PlanInUse } from '#today/current-plan.ts'
import { seenRows } from '#today/farm/plan-seen.ts'
import type { Seen } from '#today/farm/seen-parts.ts'
import { SeenPage } from '#views/farm-notebook/seen.tsx'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { newFormId } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const seenPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/farm/seen', (c) => withPlan(c, (current) => showSeen(c, current)))
      .post('/farm/seen', (c) => postPlan(c, '/farm/seen', (form) => takeOver(c, form))),
}

function showSeen(c: PageContext, current: PlanInUse) {
  const rows = seenRows(c.var.web.books, current.plan.farm, c.var.web.today()).map(withoutFarm)
  return answer(c, {
    title: 'Plan and notebook',
    figures: { rows },
    page: () => (
      <SeenPage rows={rows} planId={current.planId} basedOn={current.revisionNo} newFormId={newFormId} />
    ),
    tables: {
      seen: () =>
        tableOf(rows, {
          of: (row) => row.of,
          what: (row) => row.what,
          plan: (row) => String(row.plan),
          seen: (row) => String(row.seen),
          'rests on': (row) => row.restsOn,
        }),
    },
  })
}

const withoutFarm = ({ taken: _, ...row }: Seen) => row

function takeOver(c: PageContext, form: PlanForm) {
  const { plan } = form.current
  const row = seenRows(c.var.web.books, plan.farm, c.var.web.today()).find(
    ({ key }) => key === form.typed.value('take'),
  )
  if (!row) return moveOn(c, form.next, 'The notebook no longer says otherwise than the plan.')
  return savePlanForm(
    c,
    form,
    { changed: { ...plan, farm: row.taken }, note: `${row.of}: ${row.what.toLowerCase()} as seen` },
    (issues) => moveOn(c, form.next, `The plan stays as it is. ${issues[0]!.message}`),
  )
}
