// Claim: the Social Security claim ages, per person, that leave the plan strongest, compared on the same drawn courses.
import { type Month, monthName } from '#calendar/month.ts'
import { ageInWords } from '#calendar/spell.ts'
import { chanceModel } from '#chance/chance-model.ts'
import { type CourseRun, figureOf } from '#chance/course-run.ts'
import { percentiles, type Share, shareOf } from '#chance/percentiles.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import { lacksRecord } from '#plan/earnings-record.ts'
import type { Plan } from '#plan/plan.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import {
  type Asking,
  type Certainty,
  endOfCourses,
  type NotReached,
  roundsOf,
  type Said,
  saidIn,
} from './question.ts'
import { type Surer, surerBy } from './standing.ts'

export interface Claim extends Certainty, Said {
  question: 'claim'
  answer: StrongestClaim | NotReached
  people: { id: string; name: string }[]
  /** Every combination tried, in order of age, those that cannot be the answer on fewer courses. */
  tried: ClaimTried[]
}

export interface ClaimTried {
  /** In years, one per person: the whole ones and the plan's own, whose months are twelfths. */
  ages: number[]
  held: Share
  /** All savings at the end of the course: the tenth percentile and the median. */
  p10AtEnd: number
  medianAtEnd: number
}

export interface StrongestClaim {
  kind: 'reached'
  strongest: ClaimTried
  /** The plan's own ages, and how much surer the strongest is: difference of shares on the same courses, with its 95 % interval. */
  planned: ClaimTried
  surer: Surer
  /** Of the combinations run on all courses those whose share does not differ from the strongest by more than chance. */
  asStrong: number[][]
}

const ages = [62, 63, 64, 65, 66, 67, 68, 69, 70]

export async function solveClaim(asking: Asking): Promise<Claim> {
  const { plan, seed, paths, confidence } = asking
  const compiled = asking.compile(plan)
  const people = compiled.people.map(({ id, name }) => ({ id, name }))
  const about = { question: 'claim', confidence, paths, seed, people } as const
  const ends = compiled.people.map((_, place) => endFor(asking, compiled, place))
  const open = compiled.people.map((person, place) => openAges(person, compiled.firstMonth, ends[place]!))
  if (open.every((each) => each.length === 0)) {
    const because = `This cannot be reached, because nobody in the plan has a claim age still to choose: ${nothingOpen(compiled, ends)}`
    return { ...about, answer: { kind: 'cannot be reached', because }, tried: [], ...saidIn(because) }
  }
  const model = chanceModel(plan, compiled.shape)
  const combinations = combine(compiled, open)
  const few = Math.min(paths, fewPaths)
  const next = roundsOf(asking, combinations.length + (few < paths ? finalists : 0) + 1)
  const ask = async (chosen: number[], variant: CompiledPlan, of: number): Promise<Result> => {
    const run: CourseRun = { plan: variant, model, seed, paths: of, from: 'chance', keepsMonths: false }
    const figures = await asking.courses.figures(run, next())
    return { tried: triedOf(asking, chosen, figures), heldBy: figureOf(figures, 'held') }
  }
  const tries = (chosen: number[], of: number) => ask(chosen, withClaims(compiled, open, chosen), of)
  const results = new Map<string, Result>()
  for (const chosen of combinations) results.set(chosen.join(), await tries(chosen, few))
  const promising = few < paths ? likeliest([...results.values()]) : []
  for (const { tried } of promising) results.set(tried.ages.join(), await tries(tried.ages, paths))
  const own = compiled.people.map(plannedAge)
  const isWhole = ({ heldBy }: Result) => heldBy.length === paths
  const known = results.get(own.join())
  const planned = known && isWhole(known) ? known : await ask(own, compiled, paths)
  if (known) results.set(own.join(), planned)
  const others = [...results.values()].filter((each) => isWhole(each) && each !== planned)
  const answer = strongestOf([planned, ...others], planned)
  const tried = [...results.values()].map((each) => each.tried)
  const { sentence, more } = say(answer, people)
  return {
    ...about,
    answer,
    tried,
    ...saidIn(`${sayEnds(compiled, ends)}${sentence}${sayRecords(plan)}`, ...more),
  }
}

interface Result {
  tried: ClaimTried
  heldBy: Float64Array
}

/** All combinations are run on few courses; of those that hold about as often as the best, the ones that leave most on all, and the plan's own. */
const fewPaths = 100
const finalists = 8

function likeliest(results: readonly Result[]): Result[] {
  const most = results.reduce((best, each) => (each.tried.held.share > best.tried.held.share ? each : best))
  return results
    .filter((each) => surerBy(most.heldBy, each.heldBy).low <= 0)
    .sort((a, b) => b.tried.medianAtEnd - a.tried.medianAtEnd)
    .slice(0, finalists)
}

type Person = CompiledPlan['people'][number]
const monthAt = (person: Person, age: number): number => person.bornMonth + Math.round(age * 12)

const plannedAge = (person: Person): number => (person.claimMonth - person.bornMonth) / 12

/** As a plan has it. */
export const claimAgeOf = (age: number): { years: number; months: number } => {
  const months = Math.round(age * 12)
  return { years: Math.floor(months / 12), months: months % 12 }
}

/** Month, counted from the plan's first, from which a person is no longer in it; drawn lives go on as far as a claim can wait. */
const endFor = (asking: Asking, { months, shape }: CompiledPlan, place: number): number =>
  Math.min(
    months,
    (asking.plan.chance.lives ? shape.departureMonth : shape.plannedDeathMonth)?.[place] ?? months,
  )

/** Whole ages ahead that the plan comes to, its own among them; none for whom benefits have begun. */
const openAges = (person: Person, firstMonth: number, end: number): number[] =>
  hasBegun(person, firstMonth)
    ? []
    : [...new Set([...ages, plannedAge(person)])]
        .filter((age) => monthAt(person, age) > firstMonth && monthAt(person, age) < firstMonth + end)
        .sort((a, b) => a - b)

const hasBegun = (person: Person, firstMonth: number): boolean => person.claimMonth <= firstMonth

function nothingOpen({ people, firstMonth }: CompiledPlan, ends: readonly number[]): string {
  if (people.length === 0) return 'add the people with their dates of birth.'
  if (people.every((person) => hasBegun(person, firstMonth))) return 'the benefits of all have begun.'
  const early = people.flatMap((person, place) =>
    hasBegun(person, firstMonth)
      ? []
      : [`for ${person.name} it ends in ${monthName((firstMonth + ends[place]!) as Month)}`],
  )
  return `the plan ends before another age comes (${early.join(', ')}). Plan to a later age on the Runway page.`
}

/** For whom the plan ends before every age is tried: what a benefit pays after that is not counted, and so nothing can be said of life. */
function sayEnds({ people, firstMonth }: CompiledPlan, ends: readonly number[]): string {
  const short = people.flatMap((person, place) => {
    const end = firstMonth + ends[place]!
    if (hasBegun(person, firstMonth) || monthAt(person, ages.at(-1)!) < end) return []
    return [
      `for ${person.name} in ${monthName(end as Month)}, at ${Math.floor((end - person.bornMonth) / 12)}`,
    ]
  })
  return short.length === 0
    ? ''
    : `The plan ends early (${short.join('; ')}): what benefits pay later is not counted, which favors early claims, and claims after it are not tried. Plan to a later age before you decide. `
}

/** Every combination of open ages; a person with no open age keeps the planned one. */
function combine(plan: CompiledPlan, open: number[][]): number[][] {
  return plan.people.reduce<number[][]>(
    (combinations, person, place) => {
      const choices = open[place]!.length > 0 ? open[place]! : [plannedAge(person)]
      return combinations.flatMap((chosen) => choices.map((age) => [...chosen, age]))
    },
    [[]],
  )
}

/** Who has no open age keeps the very month of the plan. */
const withClaims = (
  plan: CompiledPlan,
  open: readonly number[][],
  chosen: readonly number[],
): CompiledPlan => ({
  ...plan,
  people: plan.people.map((person, place) =>
    open[place]!.length > 0 ? { ...person, claimMonth: monthAt(person, chosen[place]!) } : person,
  ),
})

function triedOf(asking: Asking, chosen: number[], figures: Float64Array): ClaimTried {
  const held = figureOf(figures, 'held')
  const [p10, median] = percentiles(endOfCourses(asking, figures), [0.1, 0.5])
  return {
    ages: chosen,
    held: shareOf(
      held.reduce((sum, each) => sum + each, 0),
      held.length,
    ),
    p10AtEnd: p10!,
    medianAtEnd: median!,
  }
}

/** Strongest: held most often; among those no different from it by more than chance, most at the end in the median course. */
function strongestOf(results: Result[], planned: Result): StrongestClaim {
  const most = results.reduce((best, each) => (each.tried.held.share > best.tried.held.share ? each : best))
  const alike = results.filter((each) => surerBy(most.heldBy, each.heldBy).low <= 0)
  const strongest = alike.reduce((best, each) =>
    each.tried.medianAtEnd > best.tried.medianAtEnd ? each : best,
  )
  return {
    kind: 'reached',
    strongest: strongest.tried,
    planned: planned.tried,
    surer: surerBy(strongest.heldBy, planned.heldBy),
    asStrong: alike.map((each) => each.tried.ages),
  }
}

/** Whose earnings record, or estimate in its place, the plan does not have, and what that leaves out; empty where it has all. */
export function sayRecords({ household }: Plan): string {
  const names = household.people.filter(lacksRecord).map(({ name }) => name)
  return names.length === 0
    ? ''
    : ` The plan has no earnings record of ${allOf(names)}: the benefit counts only what is earned from the plan’s first year on. Enter the record on the Earnings page before you choose an age.`
}

function say(answer: StrongestClaim, people: { name: string }[]): Said {
  const list = (chosen: readonly number[]) =>
    allOf(people.map((person, place) => `${person.name} at ${ageInWords(claimAgeOf(chosen[place]!))}`))
  const { strongest, planned, surer, asStrong } = answer
  const left = (tried: ClaimTried) => `${formatDollars(tried.medianAtEnd)} left at the end in the median one`
  const share = (tried: ClaimTried) => `${formatPercent(tried.held.share, 1)} of simulations`
  if (strongest.ages.every((age, place) => age === planned.ages[place]))
    return saidIn(
      `The plan is strongest as it is, claiming ${list(strongest.ages)}: it holds in ${share(strongest)}, with ${left(strongest)}.`,
    )
  if (surer.low > 0)
    return saidIn(
      `The plan is strongest claiming ${list(strongest.ages)}: it then holds in ${share(strongest)}, with ${left(strongest)}.`,
      `As planned (${list(planned.ages)}) it holds in ${share(planned)}: ${formatPercent(surer.share, 1)} fewer (between ${formatPercent(surer.low, 1)} and ${formatPercent(surer.high, 1)}).`,
    )
  return saidIn(
    `No choice of claim ages holds more often than the plan’s own by more than chance: as planned (${list(planned.ages)}) the plan holds in ${share(planned)}, with ${left(planned)}.`,
    `Of the ${asStrong.length} that hold about as often, claiming ${list(strongest.ages)} leaves the most: ${formatDollars(strongest.medianAtEnd)}.`,
  )
}
