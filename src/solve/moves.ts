// What moves an answer: the same question asked again with one assumption a little less and a little more, on fewer simulations.
import { chanceModel } from '#chance/chance-model.ts'
import type { Criterion, Dial } from '#chance/dials.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import type { ChanceAnswer } from './answers.ts'
import { closeIn } from './closing-in.ts'
import { settled } from './draw-levels.ts'
import { withPlowedBack } from './frontier.ts'
import { type Asking, roundOf, shownAt } from './question.ts'
import { runOf } from './standing.ts'
import { takesOf } from './take.ts'
import { amountFor } from './threshold-quantile.ts'

export interface Moves {
  /** What is told of: dollars a month, dollars, or a share of simulations. */
  of: string
  unit: 'dollars' | 'share'
  /** Whether it is told of the plan with the answer taken into it. */
  taken: boolean
  /** With the plan's own assumptions, on these fewer simulations. */
  own: number
  paths: number
  /** The one that moves it most first. */
  moves: Move[]
}

export interface Move {
  assumption: string
  by: string
  less: number
  more: number
}

interface Assumption {
  name: string
  by: string
  change(plan: Plan, sign: -1 | 1): Plan
}

const rate = (
  name: string,
  key: 'inflation' | 'stocks' | 'farmPriceGrowth' | 'premiumGrowth',
  step: number,
): Assumption => ({
  name,
  by: `${formatPercent(step, 0)} a year`,
  change: (plan, sign) => ({
    ...plan,
    assumptions: { ...plan.assumptions, [key]: plan.assumptions[key] + sign * step },
  }),
})

const tenth = 0.1

const assumptions: readonly Assumption[] = [
  {
    name: 'Living costs',
    by: formatPercent(tenth, 0),
    change: (plan, sign) => ({
      ...plan,
      household: {
        ...plan.household,
        living: plan.household.living.map((line) => ({
          ...line,
          perMonth: line.perMonth * (1 + sign * tenth),
        })),
      },
    }),
  },
  rate('What prices rise by', 'inflation', 0.01),
  rate('Farm prices beyond other prices', 'farmPriceGrowth', 0.01),
  rate('What stocks return', 'stocks', 0.01),
  rate('What premiums rise by', 'premiumGrowth', 0.02),
]

export const savingsEarn = 'What all savings earn'

/** Of answers that are a sum held for years. */
const earning: Assumption = {
  name: savingsEarn,
  by: '1% a year',
  change: (plan, sign) => {
    const { stocks, bonds, bills } = plan.assumptions
    const [moreStocks, moreBonds, moreBills] = [stocks, bonds, bills].map((each) => each + sign * 0.01)
    return {
      ...plan,
      assumptions: { ...plan.assumptions, stocks: moreStocks!, bonds: moreBonds!, bills: moreBills! },
    }
  },
}

/** Where the simulations take their years as they were, what the plan expects of markets and prices moves nothing. */
const isOfMarkets = ({ name }: Assumption): boolean =>
  ['What prices rise by', 'What stocks return', savingsEarn].includes(name)

const fewPaths = 60

/** `null` where the answer has no one figure to move. */
export async function movesOf(asking: Asking, answer: ChanceAnswer): Promise<Moves | null> {
  const figure = figureOfAnswer(answer)
  if (figure === null) return null
  const few = { ...asking, paths: Math.min(asking.paths, fewPaths) }
  const all = [...assumptions, ...(figure.isHeld ? [earning] : [])]
  const tried = all.filter((one) => asking.plan.chance.centre === 'plan' || !isOfMarkets(one))
  const rounds = 1 + 2 * tried.length
  const at = (plan: Plan, round: number) => figure.at({ ...few, plan, ...roundOf(asking, round, rounds) })
  const owns = await at(asking.plan, 0)
  const tries: Tried[] = []
  for (const [place, { name, by, change }] of tried.entries()) {
    const less = await at(change(asking.plan, -1), 1 + 2 * place)
    const more = await at(change(asking.plan, 1), 2 + 2 * place)
    tries.push({ assumption: name, by, less, more })
  }
  const place = tellingOf(figure.measures, owns, tries)
  const own = owns[place]!
  const moves = tries.map(({ less, more, ...one }) => ({ ...one, less: less[place]!, more: more[place]! }))
  moves.sort((a, b) => swing(b, own) - swing(a, own))
  return { ...figure.measures[place]!, taken: figure.taken === true, own, paths: few.paths, moves }
}

/** By measure. */
type Tried = Omit<Move, 'less' | 'more'> & { less: number[]; more: number[] }

/** Our own choice: where hardly one course in twenty is on the other side, whatever is assumed, a share has no room to be moved in. */
const hardly = 0.05

/** The first measure that has room to be moved in. */
function tellingOf(measures: readonly Measure[], owns: readonly number[], tries: readonly Tried[]): number {
  const tells = ({ unit }: Measure, place: number): boolean => {
    const all = [owns, ...tries.flatMap(({ less, more }) => [less, more])].map((each) => each[place]!)
    return (
      unit === 'dollars' || (all.some((share) => share > hardly) && all.some((share) => share < 1 - hardly))
    )
  }
  return Math.max(0, measures.findIndex(tells))
}

/** How far the answer is moved at most, to either side: never is the farthest. */
const swing = ({ less, more }: Move, own: number): number =>
  Math.max(...[less, more].map((value) => (value === own ? 0 : Math.abs(value - own))))

/** Less is no move: half of what is written last. */
const least = { dollars: 0.5, share: 0.005 } as const

/**
 * What an assumption adds to the answer or takes from it: the answer itself is of more simulations, so that only the difference of the
 * few to the few can be told beside it.
 */
export function sayMove({ own, unit }: Pick<Moves, 'own' | 'unit'>, value: number): string {
  if (value === own || Math.abs(value - own) < least[unit]) return 'nothing'
  if (!Number.isFinite(value)) return 'out of reach'
  if (!Number.isFinite(own)) return 'within reach'
  const sign = value < own ? '−' : '+'
  const apart = Math.abs(value - own)
  return `${sign}${unit === 'dollars' ? formatDollars(apart) : `${formatPercent(apart, 0).slice(0, -1)} points`}`
}

type Measure = Pick<Moves, 'of' | 'unit'>

interface Figure {
  /** The first is what the answer is about; each other is told where those before it are not moved by anything. */
  measures: readonly Measure[]
  taken?: true
  /** A sum that lies in accounts for years. */
  isHeld?: true
  /** One a measure. */
  at(asking: Asking): Promise<number[]>
}

function figureOfAnswer(answer: ChanceAnswer): Figure | null {
  if (answer.answer.kind !== 'reached') return null
  switch (answer.question) {
    case 'draw': {
      const { fromMonth } = answer.answer
      return {
        measures: [{ of: 'the one level of draws a month', unit: 'dollars' }],
        at: async (asking) => {
          const compiled = asking.compile(asking.plan)
          // As the answer itself is found: what waits for cash is bought later where more is drawn.
          const span = {
            before: new Float64Array(compiled.months),
            start: fromMonth,
            toMonth: answer.untilMonth,
          }
          const { level } = await settled(asking, compiled, span, () => asking)
          return [level * shownAt(asking, fromMonth)]
        },
      }
    }
    case 'start-with': {
      const isFloor = answer.answer.value === 0
      return {
        measures: [
          {
            of: isFloor ? 'savings needed today never to fall below the floor' : 'savings needed today',
            unit: 'dollars',
          },
        ],
        isHeld: true,
        at: async (asking) => [
          await needed(asking, { kind: 'savings' }, { kind: isFloor ? 'aboveFloor' : 'held', fromMonth: 0 }),
        ],
      }
    }
    case 'cushion': {
      const { month } = answer.answer
      return {
        measures: [{ of: 'the cushion', unit: 'dollars' }],
        isHeld: true,
        at: async (asking) => [
          shownAt(asking, month - 1) *
            (await needed(asking, { kind: 'cushion', month }, { kind: 'held', fromMonth: month })),
        ],
      }
    }
    case 'plow-back': {
      const { best } = answer.answer
      return aboveOf((plan) => (best.plowedBack === null ? plan : withPlowedBack(plan, best.plowedBack)))
    }
    case 'claim':
    case 'slow-down':
    case 'account-order':
    case 'losses':
    case 'drop-market':
      return aboveOf(takenFirst(answer))
    case 'insurance':
      return null
  }
}

/** The plan with what the answer offers first to be taken; as it is where the answer changes nothing. */
const takenFirst = (answer: ChanceAnswer) => {
  const [take] = takesOf(answer)
  if (take === undefined) return (plan: Plan) => plan
  return (plan: Plan) => {
    const taken = take.change(plan)
    if (taken === null) throw new Error(`the plan asked has no ${take.id} to take`)
    return taken
  }
}

const aboveOf = (change: (plan: Plan) => Plan): Figure => ({
  measures: [
    { of: 'how often savings stay above the floor', unit: 'share' },
    { of: 'savings left at the end in the middle simulation', unit: 'dollars' },
  ],
  taken: true,
  at: async (asking) => {
    const { standing } = await runOf(asking, change(asking.plan), asking)
    return [standing.aboveFloor.share, standing.atEnd.median]
  },
})

/** The least setting with which as many of the few courses are good as asked. */
async function needed(asking: Asking, dial: Dial, criterion: Criterion): Promise<number> {
  const plan = asking.compile(asking.plan)
  const model = chanceModel(asking.plan, plan.shape)
  const { seed, paths } = asking
  const { all } = await closeIn(
    asking,
    { plan, model, seed, paths, from: 'chance', keepsMonths: false },
    {
      dial,
      criterion,
      from: 0,
      to: 20_000_000,
      start: 150_000,
      step: 100_000,
      within: 1_000,
      moreIsBetter: true,
    },
    asking,
  )
  return amountFor(all, asking.confidence, true).value
}
