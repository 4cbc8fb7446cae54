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
  const records = isVaried ? recordsOf(lines, kept.numbers) : null
  return (line) => {
    if (kept.targets.every((target) => target === 'other')) return null
    const last = kept.numbers.find((place) => kept.targets[place] !== 'other')!
    const told = records === null ? null : toldBy(records, line, lines, kept)
    const place = told?.place ?? last
    return {
      target: kept.targets[place] as SortingTarget,
      clue: told?.clue ?? (isVaried ? 'mostly' : 'always'),
      times: told?.times ?? lines.length,
      of: told?.of ?? lines.length,
      isVaried,
      isMuch: Math.abs(line.amount) > much * Math.max(...lines.map(({ amount }) => Math.abs(amount))),
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

/** Which of the lines before it (newest first) a clue holds beside a line, each with how much it weighs. None: it does not speak. */
type Alike = (line: Dated, earlier: readonly EarlierLine[]) => Weighed[]
interface Weighed {
  index: number
  weight: number
}

const clues: readonly [Exclude<Clue, 'always'>, Alike][] = [
  ['same amount', (line, earlier) => where(earlier, (each) => each.amount === line.amount)],
  ['words', (line, earlier) => where(earlier, (each) => sharesNumber(each.text, line.text))],
  ['amount', (line, earlier) => nearAmounts(line, earlier)],
  [
    'amount and weekday',
    (line, earlier) =>
      nearAmounts(line, earlier).map(({ index, weight }) => ({
        index,
        weight: weekdayOf(earlier[index]!.day) === weekdayOf(line.day) ? weight : weight / 5,
      })),
  ],
  ['weekday', (line, earlier) => where(earlier, (each) => weekdayOf(each.day) === weekdayOf(line.day))],
  ['day', (line, earlier) => where(earlier, (each) => daysApart(each.day, line.day) <= 3)],
  ['mostly', (_, earlier) => where(earlier, () => true)],
]

/** How often each clue would have been right for the lines that there are, each told from those before it. */
const recordsOf = (lines: readonly EarlierLine[], numbers: readonly number[]): Map<Clue, number> =>
  new Map(
    clues.map(([clue, alike]) => {
      let right = 0
      let asked = 0
      for (let at = lines.length - 2; at >= 0; at -= 1) {
        const earlier = lines.slice(at + 1)
        const found = alike(lines[at]!, earlier)
        if (found.length === 0) continue
        asked += 1
        if (mostOf(found, (index) => numbers[at + 1 + index]!) === numbers[at]) right += 1
      }
      return [clue, (right + 1) / (asked + 2)]
    }),
  )

/** By the clue with the best record among those that speak of the line; of equals the one that stands first. */
const toldBy = (
  records: ReadonlyMap<Clue, number>,
  line: Dated,
  lines: readonly EarlierLine[],
  { targets, numbers }: Places,
): { place: number; clue: Clue; times: number; of: number } | null => {
  let best: ReturnType<typeof toldBy> = null
  let record = 0
  for (const [clue, alike] of clues) {
    const found = alike(line, lines).filter(({ index }) => targets[numbers[index]!] !== 'other')
    if (found.length === 0 || records.get(clue)! <= record) continue
    record = records.get(clue)!
    const place = mostOf(found, (index) => numbers[index]!)
    const times = found.filter(({ index }) => numbers[index] === place).length
    best = { clue, place, times, of: found.length }
  }
  return best
}

/** The place that weighs most; of equals the one that comes first. */
const mostOf = (found: readonly Weighed[], placeOf: (index: number) => number): number => {
  const weights = new Map<number, number>()
  for (const { index, weight } of found)
    weights.set(placeOf(index), (weights.get(placeOf(index)) ?? 0) + weight)
  return [...weights].reduce((best, each) => (each[1] > best[1] ? each : best))[0]
}

const where = (lines: readonly EarlierLine[], fits: (line: EarlierLine) => boolean): Weighed[] =>
  lines.flatMap((line, index) => (fits(line) ? [{ index, weight: 1 }] : []))

/** Not more than twice and not less than half: the nearer by ratio, the more they weigh. */
const nearAmounts = (line: Dated, earlier: readonly EarlierLine[]): Weighed[] =>
  earlier.flatMap(({ amount }, index) => {
    const apart = Math.abs(Math.log(amount / line.amount))
    return apart <= Math.LN2 ? [{ index, weight: Math.exp(-0.5 * (apart / 0.3) ** 2) }] : []
  })

/** A number of the text, like that of a shop or a contract: words without digits are part of the payee already. */
const sharesNumber = (one: string, other: string): boolean => {
  const numbers = new Set(numbersIn(other))
  return numbersIn(one).some((number) => numbers.has(number))
}

const numbersIn = (text: string): string[] => text.match(/\d{2,}/g) ?? []

/** Between days of a month, across its end too. */
const daysApart = (one: Day, other: Day): number => {
  const apart = Math.abs(dateOfDay(one) - dateOfDay(other))
  return Math.min(apart, 31 - apart)
}
