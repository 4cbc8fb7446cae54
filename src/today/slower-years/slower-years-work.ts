// Works out the answers of the Slower years page that take a moment: mixes, the path to them, the cushion, claim ages, one of us alone.
import { type Month, parseMonth, yearOf } from '#calendar/month.ts'
import type { Farm } from '#farm/farm-document.ts'
import { farmBeforePhase, type MixAnswer, mixPath, solveMix } from '#farm/mix/mix.ts'
import { phaseSchema } from '#farm/phase-document.ts'
import type { PhaseBeside } from '#farm/phase-years.ts'
import { loadSolver, type Solver } from '#farm/program.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { type Dollars, type Prices, pricesIn } from '#runway/dollars/dollars.ts'
import { grownFarm } from '#runway/farm/grown-course.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { claimChoices, expectedCushion, oneAlone } from '#solve/slower-years.ts'
import type { SlowerAnswers } from './figures.ts'
import { phasesIn } from './phases-in.ts'

export interface MixAsked {
  aim: SlowerAnswers['aim']
  pinned: string[]
  largestChange: number | null
}

export interface AnswersOrder {
  plan: Plan
  asked: MixAsked
  today: Month
  dollars: Dollars
}

const pathYears = 10

/** A plan's answers; plain data in and out, so that a worker can give them. */
export async function workOutAnswers({ plan, asked, today, dollars }: AnswersOrder): Promise<SlowerAnswers> {
  const solver = await loadSolver()
  const rules = publishedRules(plan)
  const prices = pricesIn(project(plan, rules), dollars)
  const mixes = plan.farm.phases.length === 0 ? [] : mixesOf(solver, plan, asked, prices, 'the farm before')
  const path = asked.largestChange === null ? [] : pathTo(solver, plan, asked, yearOf(today) + 1, prices)
  const cushion = expectedCushion(plan, rules, dollars)
  const claims = claimChoices(plan, rules, dollars)
  const first = plan.farm.phases.map((phase) => phase.from).sort()[0]
  const alone = oneAlone(plan, rules, first ? parseMonth(first)! : ((today + 12) as Month), dollars)
  return { ...asked, mixes, path, cushion, claims, alone }
}

/** The mix alone: of each slower phase, or of the farm as it is from next January on where the plan has none. */
export async function workOutMixes(
  plan: Plan,
  asked: MixAsked,
  dollars: Dollars,
): Promise<SlowerAnswers['mixes']> {
  const prices = pricesIn(project(plan, publishedRules(plan)), dollars)
  const next = yearOf(firstMonthOf(plan)) + 1
  const asIs = { ...phaseSchema.parse({ from: `${next}-01` }), name: 'As it is' }
  const isAsIs = plan.farm.phases.length === 0
  const phases = isAsIs ? [asIs] : plan.farm.phases
  const against = isAsIs ? 'the farm then' : 'the farm before'
  return mixesOf(await loadSolver(), { ...plan, farm: { ...plan.farm, phases } }, asked, prices, against)
}

/** What a mix is held against: the last whole year before its phase; for a farm as it is, which has none, that farm in the same year. */
type Against = 'the farm before' | 'the farm then'

const farmBefore = ({ netBefore, leaseBefore, hoursBefore }: PhaseBeside) => ({
  net: netBefore - leaseBefore,
  hours: hoursBefore ?? 0,
})

const mixesOf = (
  solver: Solver,
  plan: Plan,
  asked: MixAsked,
  prices: Prices,
  against: Against,
): SlowerAnswers['mixes'] =>
  [...plan.farm.phases]
    .sort((a, b) => (a.from < b.from ? -1 : 1))
    .map((phase) => mixOfPhase(solver, plan, phase, asked, prices, against))

function mixOfPhase(
  solver: Solver,
  plan: Plan,
  phase: Plan['farm']['phases'][number],
  asked: MixAsked,
  prices: Prices,
  against: Against,
): SlowerAnswers['mixes'][number] {
  const index = plan.farm.phases.indexOf(phase)
  const beside = phasesIn(plan, prices).find((one) => one.index === index)!
  const { year } = beside
  const farm = grownFarm(plan, farmBeforePhase(plan.farm, phase), year)
  const shown = prices.ofFirst(`${year}-01`)
  const found = mixTimes(askMix(solver, farm, year, asked), shown, asked.aim)
  const there = { net: beside.net - beside.lease, hours: beside.hours ?? 0 }
  const today = against === 'the farm before' ? farmBefore(beside) : there
  const answer = found.kind === 'found' ? { ...found, netToday: today.net, hoursToday: today.hours } : found
  const people = plan.household.people
  return {
    index,
    phase: phase.name,
    from: phase.from,
    answer,
    there,
    netKept: answer.kind === 'found' && answer.netToday > 0 ? answer.net / answer.netToday : null,
    alone:
      plan.farm.crew.length < 2
        ? []
        : people.map((person) => {
            const only = askMix(
              solver,
              farm,
              year,
              { ...asked, aim: 'most net', largestChange: null },
              { [person.id]: 0 },
            )
            return { name: person.name, net: only.kind === 'found' ? only.net * shown : null }
          }),
  }
}

/** Its dollars are those of plan prices; what is worth hours stays. */
const mixTimes = (answer: MixAnswer, factor: number, aim: MixAsked['aim']): MixAnswer => {
  if (answer.kind !== 'found') return answer
  const worth = aim === 'most net' ? factor : 1
  return {
    ...answer,
    net: answer.net * factor,
    netToday: answer.netToday * factor,
    netAsItIs: answer.netAsItIs === null ? null : answer.netAsItIs * factor,
    markets: answer.markets.map((market) => ({
      ...market,
      bySeason: market.bySeason.map((one) => ({ ...one, worthOfOneMore: one.worthOfOneMore * worth })),
    })),
    periods: answer.periods.map((one) => ({ ...one, worthOfHour: one.worthOfHour * worth })),
    worthOfAcre: answer.worthOfAcre === null ? null : answer.worthOfAcre * worth,
  }
}

const askMix = (
  solver: Solver,
  farm: Farm,
  year: number,
  asked: MixAsked,
  weeklyHours: Record<string, number> = {},
): MixAnswer => {
  const question = { year, kind: 'most net', pinned: asked.pinned, weeklyHours } as const
  if (asked.aim === 'most net') return solveMix(solver, farm, question)
  const before = solveMix(solver, farm, question)
  if (before.kind !== 'found') return before
  return solveMix(solver, farm, {
    ...question,
    kind: 'fewest hours',
    netAtLeast: Math.min(before.net, before.netToday),
  })
}

function pathTo(
  solver: Solver,
  plan: Plan,
  asked: MixAsked,
  fromYear: number,
  prices: Prices,
): SlowerAnswers['path'] {
  const largestChange = asked.largestChange ?? 0.1
  const answers = mixPath(
    solver,
    { ...plan.farm, phases: [] },
    { year: fromYear, kind: 'most net', pinned: asked.pinned, largestChange },
    pathYears,
    (farm, year) => grownFarm(plan, farm, year),
  )
  return answers.map((one, k) => ({
    year: fromYear + k,
    net: one.kind === 'found' ? one.net * prices.ofFirst(`${fromYear + k}-01`) : null,
    hours: one.kind === 'found' ? one.hours : null,
    because: one.kind === 'found' ? null : one.because,
    lines: one.kind === 'found' ? one.lines : [],
  }))
}
