// What a batch earned, or has cost so far: by the bird, the pound and the hour, and at what price the rest would pay for it.
import type { Day } from '#calendar/day.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import { exact } from './batch-left.ts'
import type { BatchMarkKind, GoodsKind, GoodsState } from './kinds.ts'

export interface BatchFacts {
  startedDay: Day
  endedDay: Day | null
  /** Of its unit, at the start. */
  size: number
  /** Of an ended one, so many that stay on the farm. */
  kept: number
  hopedPriceCents: Cents | null
  /** Lines of the books, debits positive. */
  lines: readonly {
    day: Day
    kind: 'income' | 'expense' | 'other'
    amountCents: Cents
    /** Pay of hired help: it stands in place of the pay noted with hired hours. */
    isWages?: boolean
  }[]
  marks: readonly { day: Day; kind: BatchMarkKind; quantity: number; pounds: number | null }[]
  goods: readonly {
    day: Day
    kind: GoodsKind
    state: GoodsState
    quantity: number
    unitPriceCents: Cents | null
  }[]
  /** The couple's own. */
  minutes: number
  /** Hours of hired help, with the pay noted for them. */
  hired?: readonly { day: Day; minutes: number; payCents: Cents | null }[]
}

/** What was weighed, and as what: live ones by the newest weighing, where nothing was noted at processing or sale. */
export interface Pounds {
  basis: 'processed' | 'sold' | 'live'
  pounds: number
  /** How many weighed that. */
  of: number
}

export interface BatchResult {
  lost: number
  sold: number
  kitchen: number
  bartered: number
  /** Ended, they stay on the farm: kept to breed or to lay. */
  kept: number
  /** Still there: never below zero, and none once it has ended. */
  left: number
  /** Of an ended one: nothing tells what became of them. */
  untold: number
  /** More went than there were: what was noted cannot all be right. */
  tooMany: number
  salesCents: Cents
  /** Used at home or bartered, at its price where one is known, else at the price hoped for. */
  goodsCents: Cents
  /** How many count at the price hoped for. */
  atHoped: number
  /** Goods that have no price yet, nor one hoped for, and count as nothing. */
  unpriced: number
  /** Lines of the books, and the pay noted with hired hours where the books hold none for it. */
  costsCents: Cents
  /** Of the costs, lines of the books. */
  bookedCents: Cents
  /** Of the costs, what was noted with hired hours. */
  hiredPayCents: Cents
  hiredMinutes: number
  /** Of the costs, all that hired help cost, noted or in the books: a plan has it apart from direct costs. */
  helpCents: Cents
  /** Of hired minutes, those for which no pay was noted, where none is in the books either. */
  unpaidMinutes: number
  /** What those cost that are kept, by the books: they go on to the stock at that. */
  keptCents: Cents
  marginCents: Cents
  /** The couple's own. */
  minutes: number
  /** How many were not lost. */
  lived: number
  /** Of those that lived. */
  costPerUnitCents: Cents | null
  marginPerUnitCents: Cents | null
  pounds: Pounds | null
  costPerPoundCents: Cents | null
  /** What one of the newest weighing weighed. */
  poundsEach: number | null
  /** Return to labor: margin by hour of the couple's own. Untold before anything of it was sold or used, but for a batch that is over. */
  perHourCents: Cents | null
  /** What one of the rest must bring so that its costs are covered; zero when they are. */
  breakEvenCents: Cents | null
  /** Return to labor by hour if the rest sells at the hoped price. */
  hopedPerHourCents: Cents | null
  hopedRestCents: Cents | null
  /** Cost of the books that lies in what is left: the inventory of the balance sheet. Pay that was only noted is in no book. */
  carriedCents: Cents
  /** The day on which sales and goods first covered all costs up to then, and did ever after. */
  paidForItself: Day | null
  /** How many were there at the end of each day on which it changed, the start first. */
  onHand: readonly { day: Day; count: number }[]
}

/** All of it up to a day: what was noted or booked later is left out. */
export const batchResult = (all: BatchFacts, on?: Day): BatchResult => {
  const facts = on === undefined ? all : upTo(all, on)
  const went = (kind: BatchMarkKind) => sum(facts.marks.filter((one) => one.kind === kind))
  const given = (kind: GoodsKind) => sum(facts.goods.filter((one) => one.kind === kind))
  const [lost, sold, kitchen, bartered] = [went('lost'), went('sold'), given('kitchen'), given('bartered')]
  const isOver = facts.endedDay !== null
  const kept = isOver ? facts.kept : 0
  const rest = exact(facts.size - lost - sold - kitchen - bartered - kept)
  const left = isOver ? 0 : Math.max(0, rest)
  const lived = exact(facts.size - lost)
  const salesCents = cents(-sumOf(facts, 'income'))
  const help = helpOf(facts)
  const bookedCents = sumCents([sumOf(facts, 'expense'), sumOf(facts, 'other')])
  const costsCents = sumCents([bookedCents, help.hiredPayCents])
  const goodsCents = sumCents(facts.goods.map((one) => worthOf(one, facts)))
  const withoutPrice = facts.goods.filter((one) => one.unitPriceCents === null && one.state !== 'set_aside')
  const keptCents = lived > 0 && kept > 0 ? quotient(bookedCents * kept, lived) : zeroCents
  const marginCents = cents(salesCents + goodsCents + keptCents - costsCents)
  const pounds = poundsOf(facts)
  const weighed = lastWeighed(facts)
  const hasBrought = isOver || salesCents + goodsCents !== 0
  const hopedRestCents =
    facts.hopedPriceCents === null || left === 0 ? null : rounded(facts.hopedPriceCents, left)
  return {
    lost,
    sold,
    kitchen,
    bartered,
    kept,
    left,
    untold: isOver ? Math.max(0, rest) : 0,
    tooMany: Math.max(0, -rest),
    salesCents,
    goodsCents,
    atHoped: facts.hopedPriceCents === null ? 0 : sum(withoutPrice),
    unpriced: facts.hopedPriceCents === null ? withoutPrice.length : 0,
    costsCents,
    bookedCents,
    ...help,
    keptCents,
    marginCents,
    minutes: facts.minutes,
    lived: Math.max(0, lived),
    costPerUnitCents: lived > 0 ? quotient(costsCents, lived) : null,
    marginPerUnitCents: lived > 0 ? quotient(marginCents, lived) : null,
    pounds,
    costPerPoundCents: pounds && lived > 0 ? costOfPound(costsCents, lived, pounds) : null,
    poundsEach: weighed ? exact(weighed.pounds! / weighed.quantity) : null,
    perHourCents: facts.minutes > 0 && hasBrought ? quotient(marginCents * 60, facts.minutes) : null,
    breakEvenCents: left > 0 ? quotient(Math.max(0, -marginCents), left) : null,
    hopedPerHourCents:
      hopedRestCents === null || facts.minutes === 0
        ? null
        : quotient((marginCents + hopedRestCents) * 60, facts.minutes),
    hopedRestCents,
    carriedCents: lived > 0 && left > 0 ? quotient(bookedCents * left, lived) : zeroCents,
    paidForItself: paidForItself(facts),
    onHand: onHand(facts),
  }
}

const upTo = (facts: BatchFacts, on: Day): BatchFacts => {
  const by = <One extends { day: Day }>(some: readonly One[]) => some.filter(({ day }) => day <= on)
  return {
    ...facts,
    endedDay: facts.endedDay !== null && facts.endedDay <= on ? facts.endedDay : null,
    lines: by(facts.lines),
    marks: by(facts.marks),
    goods: by(facts.goods),
    hired: by(facts.hired ?? []),
  }
}

const helpOf = ({ lines, hired = [] }: BatchFacts) => {
  const wages = lines.filter(({ isWages }) => isWages)
  const isBooked = wages.length > 0
  const hiredPayCents = isBooked ? zeroCents : sumCents(hired.map(({ payCents }) => payCents ?? zeroCents))
  const minutesIn = (some: typeof hired) => some.reduce((total, { minutes }) => total + minutes, 0)
  return {
    hiredPayCents,
    helpCents: sumCents([hiredPayCents, ...wages.map(({ amountCents }) => amountCents)]),
    hiredMinutes: minutesIn(hired),
    unpaidMinutes: isBooked ? 0 : minutesIn(hired.filter(({ payCents }) => payCents === null)),
  }
}

const sum = (some: readonly { quantity: number }[]): number =>
  exact(some.reduce((total, { quantity }) => total + quantity, 0))

const sumOf = ({ lines }: BatchFacts, kind: 'income' | 'expense' | 'other'): Cents =>
  sumCents(lines.filter((line) => line.kind === kind).map(({ amountCents }) => amountCents))

const worthOf = (
  { quantity, unitPriceCents, state }: BatchFacts['goods'][number],
  { hopedPriceCents }: BatchFacts,
): Cents => {
  const price = unitPriceCents ?? hopedPriceCents
  return price === null || state === 'set_aside' ? zeroCents : rounded(price, quantity)
}

const rounded = (price: Cents, quantity: number): Cents =>
  cents(new Decimal(price).times(quantity).toDecimalPlaces(0).toNumber())

const quotient = (total: number, by: number): Cents =>
  cents(new Decimal(total).dividedBy(by).toDecimalPlaces(0).toNumber())

/** Pounds at processing; of what was sold by weight where nothing was noted then; else of live ones as they were weighed last. */
const poundsOf = (facts: BatchFacts): Pounds | null => {
  const of = (basis: 'processed' | 'sold'): Pounds[] => {
    const some = facts.marks.filter((one) => one.kind === basis && one.pounds !== null)
    const pounds = exact(some.reduce((total, one) => total + one.pounds!, 0))
    return pounds > 0 ? [{ basis, pounds, of: sum(some) }] : []
  }
  const live = lastWeighed(facts)
  return (
    of('processed')[0] ??
    of('sold')[0] ??
    (live ? { basis: 'live', pounds: live.pounds!, of: live.quantity } : null)
  )
}

const lastWeighed = ({ marks }: BatchFacts) =>
  marks.filter(({ kind, pounds }) => kind === 'weighed' && pounds !== null).at(-1)

/** Of all costs the part of those that were weighed, by the pound. */
const costOfPound = (costs: Cents, lived: number, { pounds, of }: Pounds): Cents =>
  cents(new Decimal(costs).times(of).dividedBy(lived).dividedBy(pounds).toDecimalPlaces(0).toNumber())

const paidForItself = (facts: BatchFacts): Day | null => {
  const isBooked = helpOf(facts).hiredPayCents === 0
  const moves = [
    ...(isBooked ? [] : (facts.hired ?? [])).map(({ day, payCents }) => ({ day, brought: -(payCents ?? 0) })),
    ...facts.lines.map(({ day, amountCents }) => ({ day, brought: -amountCents })),
    ...facts.goods.map((one) => ({ day: one.day, brought: worthOf(one, facts) as number })),
  ].sort((a, b) => (a.day < b.day ? -1 : 1))
  let running = 0
  let since: Day | null = null
  for (const [at, { day, brought }] of moves.entries()) {
    running += brought
    if (moves[at + 1]?.day === day) continue
    since = running >= 0 ? (since ?? day) : null
  }
  return moves.length > 0 ? since : null
}

const onHand = ({ startedDay, size, marks, goods }: BatchFacts): { day: Day; count: number }[] => {
  const left = new Map<Day, number>([[startedDay, 0]])
  const goes = (day: Day, quantity: number) => left.set(day, (left.get(day) ?? 0) + quantity)
  for (const { day, kind, quantity } of marks) if (kind === 'lost' || kind === 'sold') goes(day, quantity)
  for (const { day, quantity } of goods) goes(day, quantity)
  let count = size
  return [...left]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([day, gone]) => {
      count = exact(count - gone)
      return { day, count }
    })
}
