// What the first run writes into the plan: people with their hours; and how each of its steps is saved.

import type { z } from 'zod'
import { type Day, monthOfDay } from '#calendar/day.ts'
import { monthText } from '#calendar/month.ts'
import { addSide, listSides } from '#db/ledger/account-store.ts'
import { changeSide } from '#db/ledger/side-change.ts'
import { type Act, atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { savePlan } from '#db/plan-store.ts'
import { farmSide } from '#ledger/account.ts'
import { type FieldProblem, type Refusal, refuse } from '#ledger/problem.ts'
import { centsToDollars } from '#money/cents.ts'
import { sayYes } from '#plan/doubt.ts'
import { newDoubts } from '#plan/doubts.ts'
import { type Plan, type PlanInput, planVersion } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { earnedCreditChildBelow } from '#rules/data/credits.ts'
import { inForce } from '#rules/in-force.ts'
import { type CurrentPlan, currentPlan } from '#today/current-plan.ts'
import type { TypedForm } from '#web/forms/form.ts'
import { dayOfInstant } from '#web/server/clock.ts'
import { firstChance, firstGrowth } from './first-growth.ts'
import { personIds } from './person-ids.ts'
import { placeOf, rateUnheard, withLocalRate } from './start-place.ts'
import { child, person, relative, whoForm } from './who-form.ts'

/** The form asks only when somebody was born, and of a relative how long the plan goes on: what follows stands at the date. */
const whoField =
  (children: number) =>
  (path: string): string | null => {
    const place = /^household\.place\.(state|county)$/.exec(path)
    if (place) return place[1]!
    const found = /^household\.(people|dependents)\.(\d+)\.(born|planToAge|untilAge)$/.exec(path)
    if (!found) return null
    const at = Number(found[2])
    if (found[1] === 'people') return `people.${at}.born`
    return at < children ? `children.${at}.born` : `relatives.${at - children}.${found[3]}`
  }

/** Makes the books of house and farm on the first time, and the plan's people each time. */
export function saveWho(books: Books, act: Act, form: z.output<typeof whoForm>, today: Day): FieldProblem[] {
  const saved = atomically(books, () => {
    const unheard = rateUnheard(books, form.localRate ?? 0)
    if (unheard.length > 0) return refuse(...unheard)
    const named = nameBooks(books, act, form.farmName)
    if (named.length > 0) return refuse(...named)
    return changePlan(books, act, whoStep(form, today), withWho(form))
  })
  return saved.ok ? [] : saved.problems
}

type Who = z.output<typeof whoForm>

const whoStep = (form: Who, today: Day): FirstRunStep => ({
  startMonth: monthText(monthOfDay(today)),
  note: 'Who',
  asked: form,
  isSure: form.sure === 'yes',
  fieldOf: whoField(form.children.length),
})

const withWho =
  (form: Who) =>
  (plan: PlanInput): PlanInput => {
    const withId = personIds([...form.people, ...form.children, ...form.relatives].map((one) => one.name))
    const dependents = plan.household?.dependents
    const known = <One extends { name: string; born: string }>(one: One) =>
      keepFields(dependents, withId(dependents ?? [], one))
    const people = form.people.map(({ name, born }) =>
      keepFields(plan.household?.people, withId(plan.household?.people ?? [], { name, born })),
    )
    const place = form.state === undefined ? plan.household?.place : placeOf(plan, form.state, form.county)
    return {
      ...plan,
      ...(form.localRate === undefined ? {} : { tax: withLocalRate(plan.tax, form.localRate ?? 0) }),
      chance: plan.chance ?? firstChance(place ?? {}),
      household: {
        ...plan.household,
        ...(place === undefined ? {} : { place }),
        people,
        dependents: [
          ...form.children.map((one) => atHome({ ...known(one), relation: 'child' as const })),
          ...form.relatives.map(({ planToAge, ownMoney, ...one }) => ({
            ...known(one),
            relation: 'relative' as const,
            planToAge: planToAge ?? undefined,
            ownMoney: centsToDollars(ownMoney),
          })),
        ],
      },
      farm: { ...plan.farm, crew: crewOf(plan, people, form.people) },
    }
  }

/**
 * What the plan would refuse or ask about in a form that cannot be read whole: of the people whose name and birth date can be, and of
 * the place. So all that is wrong is said at once.
 */
export function whoDoubts(books: Books, { nested, value }: TypedForm, today: Day): FieldProblem[] {
  const readable = <Row>(list: Listed, schema: z.ZodType<Row>) =>
    (Array.isArray(nested[list]) ? (nested[list] as Record<string, string>[]) : []).flatMap((row, at) => {
      const read = schema.safeParse(row)
      return read.success ? [{ at, row: read.data }] : []
    })
  const rows = {
    people: readable('people', person).slice(0, 2),
    children: readable('children', child).slice(0, 12),
    relatives: readable('relatives', relative).slice(0, 4),
  }
  const state = whoForm.shape.state.safeParse(value('state'))
  const step = whoStep(
    {
      formId: '',
      farmName: '',
      state: state.data ?? '',
      county: value('county').trim().slice(0, 80),
      people:
        rows.people.length > 0 ? rows.people.map(({ row }) => ({ ...row, hours: null })) : [anybody(today)],
      children: rows.children.map(({ row }) => row),
      relatives: rows.relatives.map(({ row }) => row),
      sure: value('sure'),
    },
    today,
  )
  const changed = changedPlan(books, step, withWho(step.asked as Who), today)
  // Children are held against the adults: of rows that nobody knows yet nothing follows.
  const isWhole = rows.people.length > 0
  return changed.ok
    ? []
    : changed.problems.flatMap((problem) => {
        const [, list, at, rest] = /^(people|children|relatives)\.(\d+)(.*)$/.exec(problem.path) ?? []
        if (list === undefined) return problem.path === '' ? [] : [problem]
        const row = rows[list as Listed][Number(at)]
        return row && isWhole ? [{ ...problem, path: `${list}.${row.at}${rest}` }] : []
      })
}

type Listed = 'people' | 'children' | 'relatives'

/** Stands for adults whose rows cannot be read, so that the rest can be looked at. */
const anybody = (today: Day): Who['people'][number] => ({
  name: 'Somebody',
  born: `${Number(today.slice(0, 4)) - 40}-01-01` as Day,
  hours: null,
})

/** The books of house and farm, made the first time; a farm's new name afterwards. */
const nameBooks = (books: Books, act: Act, farmName: string): FieldProblem[] => {
  const step = (name: string): Act => ({ ...act, formId: `${act.formId}.${name}` })
  const outcomes =
    listSides(books).length === 0
      ? [
          addSide(books, step('farm'), { kind: 'farm', name: farmName }),
          addSide(books, step('house'), { kind: 'household', name: 'Household' }),
        ]
      : [changeSide(books, step('farm-name'), farmSide, { name: farmName })]
  return outcomes.flatMap((one) =>
    one.ok ? [] : one.problems.map(({ message }) => ({ path: 'farmName', message })),
  )
}

/** Hours typed are a week's in every month; twelve figures entered on Farm stay where nothing is typed over them. */
const crewOf = (
  plan: PlanInput,
  people: readonly { id: string }[],
  typed: readonly { hours: number | null }[],
) => {
  const known = plan.farm?.crew ?? []
  const ofPeople = people.flatMap(({ id }, k) => {
    const hours = typed[k]!.hours
    if (hours !== null) return [{ who: id, weeklyHours: hours }]
    return known.filter((one) => one.who === id && typeof one.weeklyHours !== 'number')
  })
  const before = new Set(plan.household?.people?.map((person) => person.id))
  return [...ofPeople, ...known.filter((one) => !before.has(one.who))]
}

/** Someone the plan knows already keeps what else it knows of them. */
const keepFields = <Known extends { id: string }>(
  known: readonly Known[] | undefined,
  one: { id: string; name: string; born: string },
): Known & { id: string; name: string; born: string } => ({
  ...(known?.find((other) => other.id === one.id) as Known),
  ...one,
})

/** A student whom they support counts until 24; one who is none any more, as long as all others. */
const atHome = <Child extends { student?: boolean | undefined; untilAge?: number | undefined }>(
  one: Child,
): Child => {
  if (one.student) return { ...one, untilAge: Math.max(studentUntil, one.untilAge ?? 0) }
  return one.untilAge === studentUntil ? { ...one, untilAge: undefined } : one
}
const studentUntil = inForce(earnedCreditChildBelow, Number.POSITIVE_INFINITY).student

const firstPlanId = 'our-plan'

interface FirstRunStep {
  startMonth: string
  note: string
  asked: unknown
  /** What is asked about has had its yes. */
  isSure?: boolean
  /** The step's field that shows a place of the plan; null where it shows nothing of it, and asks nothing about it. */
  fieldOf?: (path: string) => string | null
}

/** The newest revision, or the first plan, changed so; or what it refuses and asks about then, each at the step's field. */
function changedPlan(
  books: Books,
  { startMonth, isSure = false, fieldOf }: FirstRunStep,
  change: (plan: PlanInput) => PlanInput,
  today: string,
): { ok: true; plan: Plan; current: Exclude<CurrentPlan, { status: 'unreadable' }> } | Refusal {
  const current = currentPlan(books)
  if (current.status === 'unreadable') {
    return refuse({ path: '', message: `The plan cannot be read: ${current.faults[0]?.message}` })
  }
  const before: PlanInput =
    current.status === 'read' ? current.plan : { planVersion, startMonth, assumptions: firstGrowth() }
  const read = readPlan(change(before))
  if (!read.ok) return refuse(...read.faults.map((fault) => ({ path: '', message: fault.message })))
  const had = readPlan(before)
  const doubts = newDoubts(read.plan, had.ok ? had.plan : null, today).flatMap((doubt) => {
    const path = fieldOf?.(doubt.path.join('.')) ?? null
    return path === null || (doubt.asks && isSure) ? [] : [{ ...doubt, path }]
  })
  if (doubts.length > 0)
    return refuse(
      ...doubts.map(({ path, message }) => ({ path, message })),
      ...(doubts.some(({ asks }) => asks) ? [{ path: 'sure', message: sayYes }] : []),
    )
  return { ok: true, plan: read.plan, current }
}

/** Reads the newest revision, or begins the first plan, changes it, checks the whole and saves it as the next one. */
export function changePlan(
  books: Books,
  act: Act,
  step: FirstRunStep,
  change: (plan: PlanInput) => PlanInput,
): { ok: true } | Refusal {
  const changed = changedPlan(books, step, change, dayOfInstant(act.at))
  if (!changed.ok) return changed
  const { plan, current } = changed
  const { note, asked } = step
  const saved = savePlan(books, act, {
    planId: current.status === 'read' ? current.planId : firstPlanId,
    basedOn: current.status === 'read' ? current.revisionNo : 0,
    ...(current.status === 'read' ? {} : { name: plan.name }),
    schemaVersion: planVersion,
    document: plan,
    note,
    asked,
  })
  if (saved.ok) return { ok: true }
  return saved.kind === 'newer-revision'
    ? refuse({ path: '', message: 'The plan was changed on another device. Open this step again.' })
    : saved
}
