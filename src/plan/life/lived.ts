// The plan as its life events leave it: children born and leaving, costs and coverage that follow; and which adult leaves it when.
import { type Month, monthText, parseMonth } from '#calendar/month.ts'
import type { Plan } from '../plan.ts'
import { shortName } from '../short-name.ts'
import { relativeToAge } from './dependent-plan.ts'
import type { LifeEvent } from './life-events.ts'

/**
 * The same object where nothing happens; asked again, the same answer: what is worked out from a plan is kept with it. What events
 * bring is then in the plan's own lines and no more in the events, so that a plan made from this one brings nothing a second time.
 */
export function lived(plan: Plan): Plan {
  const found = known.get(plan)
  if (found) return found
  const living = plan.events.reduce(
    (so, event, place) => follow(so, event, `event-${place + 1}`),
    plan.events.length === 0 ? plan : { ...plan, events: plan.events.filter(isOfAdult).map(spent) },
  )
  known.set(plan, living)
  if (living !== plan) known.set(living, living)
  return living
}

const known = new WeakMap<Plan, Plan>()

type OfAdult = Extract<LifeEvent, { person: string }>
const isOfAdult = (event: LifeEvent): event is OfAdult => 'person' in event

/** Only who leaves, and when. */
const spent = (event: OfAdult): OfAdult =>
  event.kind === 'death' ? { ...event, cost: 0, lessPremium: 0 } : { ...event, takes: 0, lessPremium: 0 }

/** The first month in which an adult is no longer in the household, and why; null for one who stays. */
export function departureOf(plan: Plan, personId: string): { month: Month; kind: OfAdult['kind'] } | null {
  const event = plan.events.filter(isOfAdult).find(({ person }) => person === personId)
  if (!event) return null
  const month = parseMonth(event.month)!
  return { month: (event.kind === 'death' ? month + 1 : month) as Month, kind: event.kind }
}

/** Whether an adult is no longer in the household in a month. */
export const isGone = (plan: Plan, personId: string, month: number): boolean => {
  const departure = departureOf(plan, personId)
  return departure !== null && departure.month <= month
}

function follow(plan: Plan, event: LifeEvent, id: string): Plan {
  switch (event.kind) {
    case 'death':
      return leftBehind(withPensionOf(plan, event), event, {
        id,
        name: 'Costs of a death',
        cost: event.cost,
      })
    case 'separation':
      return leftBehind(plan, event, { id, name: 'Paid out at the separation', cost: event.takes })
    case 'birth':
      return withChild(plan, event, id)
    case 'leaving':
      return withoutChild(plan, event, id)
  }
}

const pensions: ReadonlySet<string> = new Set(['pension', 'fixedPension'])

/** What the event says is paid on of every pension of who dies. */
function withPensionOf(plan: Plan, { person, pensionShare }: Extract<OfAdult, { kind: 'death' }>): Plan {
  if (pensionShare === undefined) return plan
  const pay = plan.household.pay.map((line) =>
    line.person === person && pensions.has(line.kind) ? { ...line, survivorShare: pensionShare } : line,
  )
  return { ...plan, household: { ...plan.household, pay } }
}

function leftBehind(plan: Plan, event: OfAdult, cost: { id: string; name: string; cost: number }): Plan {
  const { household, health } = plan
  const from = monthText(departureOf(plan, event.person)!.month)
  const oneOff = { ...cost, month: event.month, todaysPrices: true }
  const premium = {
    id: cost.id,
    name: 'Premiums that end',
    perMonth: -event.lessPremium,
    from,
    deductible: true,
  }
  return {
    ...plan,
    household: { ...household, oneOffs: cost.cost > 0 ? [...household.oneOffs, oneOff] : household.oneOffs },
    health: { ...health, premiums: event.lessPremium > 0 ? [...health.premiums, premium] : health.premiums },
  }
}

function withChild(plan: Plan, event: Extract<LifeEvent, { kind: 'birth' }>, id: string): Plan {
  const { household, health } = plan
  const { name, born, untilAge, mother } = event
  const child = shortName(name, new Set(everyone(plan)), 'child')
  const isCovered = event.covered && health.marketplace.members.length > 0
  const member = { person: child, from: born.slice(0, 7) }
  return {
    ...plan,
    household: {
      ...household,
      dependents: [
        ...household.dependents,
        {
          id: child,
          name,
          born,
          relation: 'child',
          untilAge,
          student: false,
          ownMoney: 0,
          ...(mother === undefined ? {} : { mother }),
        },
      ],
      living: withCost(household.living, {
        id,
        name: `For ${name}`,
        perMonth: event.perMonth,
        from: born.slice(0, 7),
      }),
    },
    health: isCovered
      ? {
          ...health,
          marketplace: { ...health.marketplace, members: [...health.marketplace.members, member] },
        }
      : health,
  }
}

function withoutChild(plan: Plan, event: Extract<LifeEvent, { kind: 'leaving' }>, id: string): Plan {
  const { household } = plan
  const name = household.dependents.find((one) => one.id === event.child)?.name ?? ''
  const from = monthText((parseMonth(event.month)! + 1) as Month)
  return {
    ...plan,
    household: {
      ...household,
      dependents: household.dependents.map((one) =>
        one.id === event.child ? { ...one, leaves: event.month } : one,
      ),
      living: withCost(household.living, {
        id,
        name: `Without ${name}`,
        perMonth: -event.lessPerMonth,
        from,
      }),
    },
  }
}

type Living = Plan['household']['living']

/** What a cost rises or falls by is a line of its own. */
const withCost = (living: Living, line: Pick<Living[number], 'id' | 'name' | 'perMonth' | 'from'>): Living =>
  line.perMonth === 0
    ? living
    : [
        ...living,
        { ...line, months: [], growth: 'inflation', extraGrowth: 0, farmShare: 0, careOfChildren: false },
      ]

const everyone = ({ household }: Plan): string[] =>
  [...household.people, ...household.dependents].map(({ id }) => id)

type Child = Plan['household']['dependents'][number]

type Age = Pick<Child, 'relation' | 'untilAge' | 'planToAge'>

export const isRelative = ({ relation }: Pick<Child, 'relation'>): boolean => relation === 'relative'

/** To which age a child is at home, or an adult relative in the plan. */
export const atHomeUntilAge = (one: Age): number =>
  isRelative(one) ? (one.planToAge ?? relativeToAge) : one.untilAge

/** The last month one is at home: up to the age, or to the month in which she or he leaves before. */
export const lastMonthAtHome = (one: Child): Month => {
  const { born, leaves } = one
  const byAge = parseMonth(born.slice(0, 7))! + atHomeUntilAge(one) * 12 - 1
  return Math.min(byAge, leaves === undefined ? byAge : parseMonth(leaves)!) as Month
}
