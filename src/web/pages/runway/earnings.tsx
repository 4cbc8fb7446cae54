// One person's Social Security record: years and earnings as lines, pasted from the agency's page or typed, missing years estimated.
import { Hono } from 'hono'
import {
  missingYears,
  type RecordLine,
  readRecord,
  recordOf,
  recordText,
  withEstimates,
} from '#plan/earnings-record.ts'
import { withValueAt } from '#plan/form/place.ts'
import type { Plan } from '#plan/plan.ts'
import { averageWageIndex } from '#rules/data/social-security.ts'
import { lookUp, steadyIndexing } from '#rules/dated.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { EarningsPage } from '#views/runway/earnings.tsx'
import { type Answered, answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const earningsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/plan/earnings/:person', (c) =>
        withPlan(c, (current) => {
          const place = placeOf(c, current.plan)
          const saved = current.plan.household.people[place]
          return saved
            ? show(c, current, place, recordText(saved.earnings), {}, current.revisionNo)
            : notFound(c, noSuch)
        }),
      )
      .post('/runway/plan/earnings/:person', (c) =>
        postPlan(c, '/runway/plan/household', (form) => save(c, form)),
      ),
}

const noSuch = 'The plan has no such person.'

const placeOf = (c: PageContext, { household }: Plan): number =>
  household.people.findIndex(({ id }) => id === (c.req.param('person') ?? '').replace(/\.(json|csv)$/, ''))

const thisYear = (c: PageContext): number => Number.parseInt(c.var.web.today().slice(0, 4), 10)

const show = (
  c: PageContext,
  { plan, planId }: PlanInUse,
  place: number,
  text: string,
  errors: FormErrors,
  basedOn: number,
) => {
  const person = plan.household.people[place]!
  return answer(c, {
    title: `Earnings of ${person.name}`,
    status: statusOf(errors),
    asTyped: true,
    figures: { person: person.id, earnings: person.earnings },
    page: () => (
      <EarningsPage
        person={person}
        text={text}
        errors={errors}
        ids={{ formId: newFormId(), planId, basedOn }}
      />
    ),
  })
}

function save(c: PageContext, form: PlanForm): Answered {
  const { typed, current } = form
  const place = placeOf(c, current.plan)
  const person = current.plan.household.people[place]
  if (!person) return notFound(c, noSuch)
  const again = (text: string, errors: FormErrors) =>
    show(c, current, place, text, errors, openedIn(typed, current).basedOn)
  const text = typed.value('earnings')
  const read = readRecord(text, thisYear(c))
  if (!read.ok) return again(text, { earnings: read.message })
  if (typed.value('estimate') === 'yes') return again(recordText(estimated(read.lines, current.plan)), {})
  const without = read.lines.filter(({ amount }) => amount === null).map(({ year }) => year)
  if (without.length > 0)
    return again(text, {
      earnings: `Enter an amount for ${without.join(', ')}, take the line out, or have it estimated below`,
    })
  const path = ['household', 'people', place, 'earnings']
  const saved = form.opened.household.people.find(({ id }) => id === person.id)?.earnings ?? []
  const changed = withValueAt(current.plan, path, recordOf(read.lines, saved))
  const note = `Earnings of ${person.name} saved`
  return savePlanForm(c, form, { changed, note }, (issues) =>
    again(
      text,
      errorsAt(issues, (at) => (`${at}.`.startsWith(`${path.join('.')}.`) ? 'earnings' : null)),
    ),
  )
}

/** Years past the last published wages follow the plan's growth of wages. */
const estimated = (lines: readonly RecordLine[], { assumptions }: Plan): RecordLine[] => {
  if (missingYears(lines).length === 0) return [...lines]
  const growth = steadyIndexing(assumptions.inflation, assumptions.wageGrowth)
  return withEstimates(lines, (year) => lookUp(averageWageIndex, year, growth).value)
}
