// The set of plans: up to four side by side, a copy under another name, and which one is in use.
import { Hono } from 'hono'
import { z } from 'zod'
import { archivePlan, listPlans, savePlan } from '#db/plan-store.ts'
import { readSetting, writeSetting } from '#db/settings-store.ts'
import { planVersion } from '#plan/plan.ts'
import { currentPlan, currentPlanSetting } from '#today/current-plan.ts'
import { type ComparedPlan, ComparePage, MilestoneTable } from '#views/runway/compare.tsx'
import { actOf, actOfForm, errorsOf } from '#web/forms/act.ts'
import { answer, formatAsked, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import type { CsvTable } from '#web/forms/csv.ts'
import { formIdField, requiredText } from '#web/forms/fields.ts'
import { checkForm, type FormErrors, newFormId, readForm, statusOf } from '#web/forms/form.ts'
import { keepOpen } from '#web/forms/open-plan.ts'
import { asksOverClosed, settingOverClosed } from '#web/forms/pack/closed-years.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { askOverClosed } from '#web/forms/plan-saving.tsx'
import { posted } from '#web/forms/posted.ts'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { comparedPlans } from './compared-plans.ts'

export const runwayComparePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/compare', (c) => showCompare(c, {}, ''))
      .post('/runway/compare/copy', copyPlan)
      .post('/runway/compare/open', openPlan)
      .post('/runway/compare/use', usePlan),
}

const mostPlans = 4

const showCompare = (c: PageContext, errors: FormErrors, typedName: string) => {
  const { books } = c.var.web
  const current = currentPlan(books)
  const heads = listPlans(books)
  const currentId = current.status === 'none' ? '' : current.planId
  const asked = (c.req.queries('plan') ?? []).filter((id) => heads.some((head) => head.id === id))
  const ids = heads.map((head) => head.id)
  const chosen = (asked.length > 0 ? asked : defaultChoice(ids, currentId)).slice(0, mostPlans)
  const withStorms = c.req.query('storms') === 'yes' || formatAsked(c) !== 'html'
  const chosenHeads = chosen.flatMap((id) => heads.find((head) => head.id === id) ?? [])
  const { plans, unreadable } = comparedPlans(c, chosenHeads, currentId, withStorms)
  const choices = heads.map((head) => ({
    id: head.id,
    name: head.name,
    revisionNo: head.revisionNo,
    isCurrent: head.id === currentId,
    isChosen: chosen.includes(head.id),
  }))
  const away = listPlans(books, { withArchived: true }).filter((one) => one.archivedAt !== null)
  const props = { choices, away, plans, unreadable, formId: newFormId(), errors, typedName }
  return answer(c, {
    title: 'Compare plans',
    dollars: dollarsOf(c),
    figures: { plans },
    status: statusOf(errors),
    page: () => <ComparePage {...props} />,
    parts: { milestones: () => <MilestoneTable plans={plans} /> },
    tables: { milestones: () => milestonesCsv(plans) },
  })
}

const milestoneNames = [
  'monthsLeft',
  'floorMonth',
  'lowestSpendable',
  'lowestMonth',
  'firstDraw',
  'carryMonth',
  'farmStandsAloneFrom',
  'firstSlowerMonth',
  'savingsAtFirstSlower',
  'runsShort',
  'unmetNeed',
] as const

const milestonesCsv = (plans: readonly ComparedPlan[]): CsvTable => {
  const row = (name: string, of: (plan: ComparedPlan) => string | number | null | undefined) => [
    name,
    ...plans.map(of),
  ]
  return {
    header: ['milestone', ...plans.map((plan) => plan.name)],
    rows: [
      ...milestoneNames.map((name) => row(name, ({ milestones }) => milestones[name])),
      row('savingsAtEnd', (plan) => plan.savingsAtEnd),
      row('farmCashAtEnd', (plan) => plan.farmCashAtEnd),
      row('badYear', (plan) => plan.badYear?.name),
      row('badYearMonthsLeft', (plan) => plan.badYear?.monthsLeft),
      row('badYearLowestSpendable', (plan) => plan.badYear?.lowestSpendable),
      row('oneInTenMonthsLeft', (plan) => plan.oneInTen),
    ],
  }
}

const defaultChoice = (ids: readonly string[], currentId: string): string[] => [
  ...ids.filter((id) => id === currentId),
  ...ids.filter((id) => id !== currentId),
]

const copyForm = z.object({ formId: formIdField(), name: requiredText('Give the plan a name', 80) })

/** The form's id makes the plan's id, so that sending the form twice makes one plan. */
const copyPlan = (c: PageContext): Promise<Response> =>
  posted(c, {
    check: (typed) => checkForm(copyForm, typed),
    again: (typed, errors) => showCompare(c, errors, typed.value('name')),
    keep: ({ formId, name }) =>
      withPlan(c, (current) => {
        const planId = `plan-${formId}`
        const saved = savePlan(c.var.web.books, actOf(c, formId), {
          planId,
          basedOn: 0,
          name,
          schemaVersion: planVersion,
          document: { ...current.plan, name },
          note: `Copied from ${current.name}`,
        })
        return saved.ok
          ? moveOn(
              c,
              `/runway/compare?plan=${current.planId}&plan=${planId}`,
              `“${name}” is a copy of “${current.name}”, which stays in use. Open the copy to change it.`,
            )
          : showCompare(
              c,
              'problems' in saved
                ? errorsOf(saved.problems)
                : { name: 'The copy could not be saved. Open the page again' },
              name,
            )
      }),
  })

/** Opened in this browser, a plan can be changed while another one is in use; without a plan named, back to that one. */
async function openPlan(c: PageContext): Promise<Response> {
  const planId = (await readForm(c)).value('planId')
  const head = listPlans(c.var.web.books).find((one) => one.id === planId)
  keepOpen(c, head?.id ?? null)
  return head
    ? moveOn(c, '/runway', `“${head.name}” is open. What you change here is changed in it alone.`)
    : moveOn(c, '/runway', 'This is the plan in use again.')
}

async function usePlan(c: PageContext): Promise<Response> {
  const typed = await readForm(c)
  const { books } = c.var.web
  const head = listPlans(books, { withArchived: true }).find((one) => one.id === typed.value('planId'))
  if (!head) return notFound(c, 'There is no such plan.')
  const act = actOfForm(c, typed)
  if (typed.value('putAway') !== '') {
    const isAway = typed.value('putAway') === 'yes'
    const done = archivePlan(books, act, head.id, isAway)
    if (!done.ok) return showCompare(c, { '': done.problems[0]!.message }, '')
    const said = isAway ? 'archived. Nothing of it is deleted' : 'among your plans again'
    return moveOn(c, '/runway/compare', `“${head.name}” is ${said}.`)
  }
  if (head.archivedAt !== null) return notFound(c, `“${head.name}” is archived. Bring it back first.`)
  const setting = readSetting(books, currentPlanSetting)
  const saved = settingOverClosed(c, typed, act, () =>
    writeSetting(books, act, currentPlanSetting, head.id, setting.revision),
  )
  if (asksOverClosed(saved))
    return askOverClosed(c, saved, {
      action: '/runway/compare/use',
      fields: [['planId', head.id]],
      button: `Use “${head.name}”, and keep an amended copy of the pack`,
      next: '/runway/compare',
    })
  return saved.ok
    ? moveOn(c, '/runway', `“${head.name}” is the plan in use.`)
    : showCompare(c, { '': 'Another device chose a plan at the same time. Choose again' }, '')
}
