// What earlier choices for a payee say of its next transaction: where it goes, by which clue, and whether that is sure.
import { type Day, dateOfDay, weekdayOf } from '#calendar/day.ts'
import { type SortableLine, type SortingTarget, sameTarget } from './sorting.ts'

/** An earlier line; `other` was split, matched by hand or skipped. */
export interface EarlierLine extends SortableLine {
  day: Day
  went: SortingTarget | 'other'
}

/** By what the places of a payee were told apart. `always`: there is one place only. `mostly`: by nothing but how often. */
export type Clue =
  | 'always'
  | 'same amount'
  | 'words'
  | 'amount'
  | 'amount and weekday'
  | 'weekday'
  | 'day'
  | 'mostly'

export interface Habit {
  target: SortingTarget
  clue: Clue
  /** How many earlier lines bear it out, of how many that the clue speaks of. */
  times: number
  of: number
  /** Its lines went to several places of late: a person must look. */
  isVaried: boolean
  /** Far more than ever went there. */
  isMuch: boolean
  /** All places it went to, likeliest first. */
  places: SortingTarget[]
}

/** So many of the newest lines are looked at for clues. */
const looked = 80
/** A payee whose newest lines all went one way has that habit, whatever was long ago. */
const newest = 12
/** Above so many times the largest before, a person would look again. */
const much = 3

/** The habit of one payee, account and direction from its earlier lines, newest first; null when none says where to. */
export const habitOf = (earlier: readonly EarlierLine[]): ((line: Dated) => Habit | null) => {
  const lines = earlier.slice(0, looked)
  const kept = placesOf(lines)
  const isVaried = new Set(kept.numbers.slice(0, newest)).size > 1
  const facts = isVaried ? lines.map(factsOf) : []
  const byRecord = isVaried ? cluesByRecord(facts, kept.numbers) : []
  const largest = Math.max(...lines.map(({ amount }) => Math.abs(amount)))
  return (line) => {
    if (kept.targets.every((target) => target === 'other')) return null
    const last = kept.numbers.find((place) => kept.targets[place] !== 'other')!
    const told = isVaried ? toldBy(byRecord, factsOf(line), facts, kept) : null
    const place = told?.place ?? last
    return {
      target: kept.targets[place] as SortingTarget,
      clue: told?.clue ?? (isVaried ? 'mostly' : 'always'),
      times: told?.times ?? lines.length,
      of: told?.of ?? lines.length,
      isVaried,
      isMuch: Math.abs(line.amount) > much * largest,
      places: inOrder(kept, place),
    }
  }
}

type Dated = SortableLine & { day: Day }

/** The places of the lines by number: targets are compared once. */
interface Places {
  targets: (SortingTarget | 'other')[]
  numbers: number[]
}

const placesOf = (lines: readonly EarlierLine[]): Places => {
  const targets: Places['targets'] = []
  const numbers = lines.map(({ went }) => {
    const known = targets.findIndex((one) =>
      one === 'other' || went === 'other' ? one === went : sameTarget(one, went),
    )
    return known >= 0 ? known : targets.push(went) - 1
  })
  return { targets, numbers }
}

const inOrder = ({ targets, numbers }: Places, first: number): SortingTarget[] => {
  const times = (place: number) => numbers.filter((each) => each === place).length
  return targets
    .map((target, place) => ({ target, place }))
    .filter((each): each is { target: SortingTarget; place: number } => each.target !== 'other')
    .sort((a, b) => Number(b.place === first) - Number(a.place === first) || times(b.place) - times(a.place))
    .map(({ target }) => target)
}

/** What clues look at, worked out once a line. */
interface Facts {
  amount: number
  /** Logarithm of the size: how far two are apart is a ratio. */
  size: number
  weekday: number
  date: number
  /** Numbers of the text, like that of a shop or a contract: words without digits are part of the payee already. */
  numbers: readonly string[]
}

const factsOf = ({ amount, day, text }: Dated): Facts => ({
  amount,
  size: Math.log(Math.max(1, Math.abs(amount))),
  weekday: weekdayOf(day),
  date: dateOfDay(day),
  numbers: text.match(/\d{2,}/g) ?? [],
})

/** How much an earlier line weighs for a line, by one clue. 0: the clue does not hold them beside each other. */
type Weigh = (line: Facts, earlier: Facts) => number

const sameAmount: Weigh = (line, earlier) => (earlier.amount === line.amount ? 1 : 0)
const sameNumber: Weigh = (line, earlier) =>
  line.numbers.some((number) => earlier.numbers.includes(number)) ? 1 : 0
/** Not more than twice and not less than half: the nearer by ratio, the more it weighs. */
const nearAmount: Weigh = (line, earlier) => {
  const apart = Math.abs(earlier.size - line.size)
  return apart <= Math.LN2 ? Math.exp(-0.5 * (apart / 0.3) ** 2) : 0
}
const sameWeekday: Weigh = (line, earlier) => (earlier.weekday === line.weekday ? 1 : 0)
/** Three days of the month at most, across its end too. */
const nearDate: Weigh = (line, earlier) => {
  const apart = Math.abs(earlier.date - line.date)
  return Math.min(apart, 31 - apart) <= 3 ? 1 : 0
}

/** Of clues with the same record the first speaks. */
const clues: readonly { clue: Clue; weigh: Weigh }[] = [
  { clue: 'same amount', weigh: sameAmount },
  { clue: 'words', weigh: sameNumber },
  { clue: 'amount', weigh: nearAmount },
  {
    clue: 'amount and weekday',
    weigh: (line, earlier) => nearAmount(line, earlier) * (sameWeekday(line, earlier) === 1 ? 1 : 0.2),
  },
  { clue: 'weekday', weigh: sameWeekday },
  { clue: 'day', weigh: nearDate },
  { clue: 'mostly', weigh: () => 1 },
]

/** The clues by how often each would have been right for the lines that there are, each told from those before it. */
const cluesByRecord = (facts: readonly Facts[], numbers: readonly number[]): typeof clues =>
  clues
    .map(({ clue, weigh }) => {
      let right = 0
      let asked = 0
      for (let at = facts.length - 2; at >= 0; at -= 1) {
        const said = heaviest(weigh, facts[at]!, facts, numbers, at + 1)
        if (said === null) continue
        asked += 1
        if (said.place === numbers[at]) right += 1
      }
      return { clue, weigh, record: (right + 1) / (asked + 2) }
    })
    .sort((a, b) => b.record - a.record)

const toldBy = (
  byRecord: typeof clues,
  line: Facts,
  facts: readonly Facts[],
  { targets, numbers }: Places,
): { place: number; clue: Clue; times: number; of: number } | null => {
  const isPlace = (place: number) => targets[place] !== 'other'
  for (const { clue, weigh } of byRecord) {
    const said = heaviest(weigh, line, facts, numbers, 0, isPlace)
    if (said !== null) return { clue, ...said }
  }
  return null
}

/** The place that weighs most among the lines from `from` on, which stand newest first; of equals the one met first. Null: the clue is silent. */
const heaviest = (
  weigh: Weigh,
  line: Facts,
  facts: readonly Facts[],
  numbers: readonly number[],
  from: number,
  isPlace: (place: number) => boolean = () => true,
): { place: number; times: number; of: number } | null => {
  const weights: number[] = []
  const times: number[] = []
  let of = 0
  let place = -1
  for (let at = from; at < facts.length; at += 1) {
    const number = numbers[at]!
    const weight = isPlace(number) ? weigh(line, facts[at]!) : 0
    if (weight === 0) continue
    of += 1
    weights[number] = (weights[number] ?? 0) + weight
    times[number] = (times[number] ?? 0) + 1
  }
  for (let at = from; at < facts.length; at += 1) {
    const number = numbers[at]!
    if ((weights[number] ?? 0) > (place < 0 ? 0 : weights[place]!)) place = number
  }
  return place < 0 ? null : { place, times: times[place]!, of }
}
