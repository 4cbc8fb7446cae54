// A death or a lasting injury: for each adult and in some years, what would have to come from insurance for the plan to hold.
import { addMonths, type Month, monthName, monthsToNextJanuary } from '#calendar/month.ts'
import { chanceModel } from '#chance/chance-model.ts'
import type { Criterion, Dial } from '#chance/dials.ts'
import { chanceOfDying } from '#chance/draws/life-draws.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import {
  type Amount,
  type Asking,
  type Certainty,
  type NotReached,
  roundsOf,
  type Said,
  saidIn,
  shownAt,
} from './question.ts'
import { amountFor } from './threshold-quantile.ts'

export interface Insurance extends Certainty, Said {
  question: 'insurance'
  answer: { kind: 'reached'; largest: InsuranceNeed | null } | NotReached
  needs: InsuranceNeed[]
  why: string
}

export interface InsuranceNeed {
  person: string
  name: string
  event: 'dies' | 'hurt'
  /** Counted from the plan's first month. */
  month: number
  /** What must come: once, in that month, after a death; every month until 67, rising with prices, after an injury. Null: no sum tried is enough. */
  neverShort: Amount | null
  aboveFloor: Amount | null
  /** Chance that this person dies in the ten years from then on, by the period life table; null for an injury. */
  odds: number | null
}

/** Years from the plan's first in which the event is tried. */
const yearsTried = [0, 2, 5, 10, 15, 20]
const oldestDeath = 80
const workingAge = 67

const nobodyNamed =
  'This cannot be reached, because the plan names nobody whose death or injury could be tried: add the people with their dates of birth.'

export async function solveInsurance(asking: Asking): Promise<Insurance> {
  const { plan, seed, paths, confidence } = asking
  const about = { question: 'insurance', confidence, paths, seed } as const
  const compiled = asking.compile(plan)
  const events = eventsOf(compiled)
  if (events.length === 0) {
    const answer = { kind: 'cannot be reached', because: nobodyNamed } as const
    return { ...about, answer, needs: [], ...saidIn(nobodyNamed), why: '' }
  }
  const next = roundsOf(asking, events.length * 2)
  const needs: InsuranceNeed[] = []
  for (const { place, event, month } of events) {
    const person = compiled.people[place]!
    const strike = { person: place, month, event }
    const needed = async (criterion: Criterion): Promise<Amount | null> => {
      const found = await asking.courses.thresholds(
        {
          plan: compiled,
          model: chanceModel(plan, compiled.shape),
          seed,
          paths,
          from: 'chance',
          keepsMonths: false,
        },
        { ...searchOf(event, month, person), criterion, strike, moreIsBetter: true },
        next(),
      )
      const counted = found.filter((each) => !Number.isNaN(each)).map((each) => each * shownAt(asking, month))
      const amount = counted.length === 0 ? null : amountFor(counted, confidence, true)
      return amount !== null && Number.isFinite(amount.value) ? amount : null
    }
    needs.push({
      person: person.id,
      name: person.name,
      event,
      month,
      neverShort: await needed({ kind: 'held', fromMonth: month }),
      aboveFloor: await needed({ kind: 'aboveFloor', fromMonth: month }),
      odds:
        event === 'dies'
          ? chanceOfDying(
              compiled.firstMonth + month - person.bornMonth,
              120,
              plan.household.people[place]!.sex,
            )
          : null,
    })
  }
  const largest = largestOf(needs)
  return {
    ...about,
    answer: { kind: 'reached', largest },
    needs,
    ...say(needs, compiled, confidence),
    why: 'Benefits for survivors, the survivor’s household costs, the farm that one person can run and the help it can hire are all counted, as the plan says them.',
  }
}

function eventsOf(plan: CompiledPlan): { place: number; event: 'dies' | 'hurt'; month: number }[] {
  const toJanuary = monthsToNextJanuary(plan.firstMonth as Month)
  return plan.people.flatMap((person, place) =>
    (['dies', 'hurt'] as const).flatMap((event) =>
      yearsTried
        .map((year) => toJanuary + 12 * year)
        .filter((month) => {
          const age = (plan.firstMonth + month - person.bornMonth) / 12
          if (month >= plan.months) return false
          return event === 'dies' ? plan.people.length > 1 && age < oldestDeath : age < workingAge - 1
        })
        .map((month) => ({ place, event, month })),
    ),
  )
}

/** After a death one sum, after an injury so much a month until 67. */
function searchOf(event: InsuranceNeed['event'], month: number, person: CompiledPlan['people'][number]) {
  const dial: Dial =
    event === 'dies'
      ? { kind: 'lump', month }
      : { kind: 'setAside', fromMonth: month, toMonth: person.month65 + 24 }
  return event === 'dies'
    ? { dial, from: 0, to: 10_000_000, start: 0, step: 100_000, within: 2_500 }
    : { dial, from: 0, to: 100_000, start: 0, step: 1_000, within: 25 }
}

const largestOf = (needs: readonly InsuranceNeed[]): InsuranceNeed | null =>
  needs
    .filter((need) => need.event === 'dies' && need.neverShort !== null && need.neverShort.value > 0)
    .reduce<InsuranceNeed | null>(
      (most, need) => (most === null || need.neverShort!.value > most.neverShort!.value ? need : most),
      null,
    )

function say(
  needs: readonly InsuranceNeed[],
  { firstMonth, people }: CompiledPlan,
  confidence: number,
): Said {
  const sure = formatPercent(confidence, 0)
  const sentences = people.flatMap(({ id, name }) => {
    const of = (event: InsuranceNeed['event']) =>
      needs.filter((need) => need.person === id && need.event === event)
    return [
      sayEvent(of('dies'), `If ${name} died`, '', firstMonth),
      sayEvent(of('hurt'), `If ${name} could no longer work`, ' a month until 67', firstMonth),
    ]
  })
  const [first = '', ...more] = sentences.filter((each) => each !== '')
  return saidIn(`For nothing to go unpaid in ${sure} of simulations. ${first}`, ...more)
}

function sayEvent(needs: readonly InsuranceNeed[], event: string, how: string, firstMonth: number): string {
  if (needs.length === 0) return ''
  const name = (month: number) => monthName(addMonths(firstMonth as Month, month))
  if (needs.every((need) => need.neverShort?.value === 0))
    return `${event} in any of the years tried, no insurance would be needed.`
  const none = needs.find((need) => need.neverShort === null)
  if (none) return `${event} in ${name(none.month)}, no sum tried would be enough.`
  const most = needs.reduce((first, need) =>
    need.neverShort!.value > first.neverShort!.value ? need : first,
  )
  const until = needs.filter((need) => need.neverShort!.value > 0).at(-1)!
  return `${event}, insurance would have to pay at most ${formatDollars(most.neverShort!.value)}${how}, were it in ${name(most.month)}${until === needs.at(-1) ? '' : `; from ${name(needs[needs.indexOf(until) + 1]!.month)} on nothing`}.`
}
