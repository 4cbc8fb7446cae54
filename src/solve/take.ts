// What of an answer can be taken into the plan, and the plan with it.
import { addMonths, monthText } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import type { ChanceAnswer } from './answers.ts'
import { claimAgeOf, type StrongestClaim } from './claim.ts'
import type { ComparedDraws } from './draw-answer.ts'
import { type DropMarket, withoutMarket } from './drop-market.ts'
import { withPlowedBack } from './frontier.ts'
import { type EarliestSlower, withHours, withPhasesMoved } from './slow-down.ts'
import type { BestWay, Ways } from './ways/ways-answer.ts'
import { changeOf } from './ways.ts'

export interface Take {
  /** Names it in a form. */
  id: string
  label: string
  /** Stays with the revision. */
  note: string
  /** Null where the plan, another one since, no longer has what it would change. */
  change(plan: Plan): Plan | null
}

/** In the order in which they are offered; none for an answer that changes nothing or cannot be reached. */
export function takesOf(answer: ChanceAnswer): Take[] {
  if (answer.answer.kind !== 'reached') return []
  switch (answer.question) {
    case 'draw':
      return drawTakes(answer.compared)
    case 'plow-back':
      return shareTakes(answer.answer.best.plowedBack)
    case 'claim':
      return claimTakes(answer.answer, answer.people)
    case 'slow-down':
      return phaseTakes(answer.answer, answer.weeklyHours)
    case 'account-order':
    case 'losses':
      return wayTakes(answer, answer.answer)
    case 'drop-market':
      return marketTakes(answer)
    default:
      return []
  }
}

const drawWords = {
  level: { label: 'Take the one level into the plan', note: 'Draws are one level' },
  steps: { label: 'Take the steps into the plan', note: 'Draws go up by steps' },
} as const

const drawTakes = (compared: readonly ComparedDraws[]): Take[] =>
  compared.flatMap(({ as, draw }) =>
    as === 'plan' ? [] : [{ ...drawWords[as], id: as, change: (plan) => withDrawsFrom(plan, draw) }],
  )

/** Steps that began before the answer's first month have been lived by, and stay. */
function withDrawsFrom(plan: Plan, draw: Plan['draw']): Plan {
  const first = draw.policy === 'steps' ? draw.steps[0]?.from : undefined
  if (plan.draw.policy !== 'steps' || draw.policy !== 'steps' || first === undefined) return { ...plan, draw }
  const lived = plan.draw.steps.filter(
    (step) => step.from < first && step.from < monthText(firstMonthOf(plan)),
  )
  return { ...plan, draw: { ...draw, steps: [...lived, ...draw.steps] } }
}

const shareTakes = (plowedBack: number | null): Take[] =>
  plowedBack === null
    ? []
    : [
        {
          id: 'share',
          label: 'Take this share into the plan',
          note: 'A share of what the farm earns is plowed back',
          change: (plan) => withPlowedBack(plan, plowedBack),
        },
      ]

function claimTakes({ strongest, planned }: StrongestClaim, people: readonly { id: string }[]): Take[] {
  const changed = new Map(
    people.flatMap(({ id }, place) =>
      strongest.ages[place] === planned.ages[place] ? [] : [[id, strongest.ages[place]!] as const],
    ),
  )
  if (changed.size === 0) return []
  const change = (plan: Plan): Plan | null => {
    const { people: now } = plan.household
    if ([...changed.keys()].some((id) => !now.some((person) => person.id === id))) return null
    const claiming = now.map((person) => {
      const age = changed.get(person.id)
      return age === undefined ? person : { ...person, claimAge: claimAgeOf(age) }
    })
    return { ...plan, household: { ...plan.household, people: claiming } }
  }
  return [{ id: 'ages', label: 'Take these claim ages into the plan', note: 'Claim ages changed', change }]
}

const phaseTakes = ({ months, steady }: EarliestSlower, weeklyHours: number | null): Take[] =>
  [
    { id: 'phases', by: months, label: 'Take the earliest month into the plan' },
    { id: 'steady', by: steady?.months ?? null, label: 'Take the month that keeps the floor as planned' },
  ].flatMap(({ id, by, label }) =>
    by === null || (by === 0 && weeklyHours === null)
      ? []
      : [
          {
            id,
            label,
            note: 'The slower phases begin at another time',
            change: (plan: Plan) => {
              const asked = withHours(plan, weeklyHours ?? undefined)
              return asked.farm.phases.length === 0 ? null : withPhasesMoved(asked, by)
            },
          },
        ],
  )

const marketTakes = ({ markets, fromMonth }: DropMarket): Take[] =>
  markets
    .filter(({ worse }) => !worse)
    .map(({ id, name }) => ({
      id,
      label: `Take into the plan: no more ${name}`,
      note: `${name} is dropped`,
      change: (plan) =>
        plan.farm.markets.some((one) => one.id === id)
          ? withoutMarket(plan, id, addMonths(firstMonthOf(plan), fromMonth))
          : null,
    }))

const wayTakes = ({ question, ways }: Ways, { best, steadiest }: BestWay): Take[] =>
  [best, steadiest].flatMap((id) => {
    const name = ways.find((way) => way.id === id)?.name
    return id === null || id === 'plan' || name === undefined
      ? []
      : [{ id, label: `Take into the plan: ${name}`, note: name, change: changeOf(question, id) }]
  })
