// Herds and flocks go on from the heads that the notebook tells of, counted and come or gone since, in place of those that the plan expected.
import { addDays, type Day, firstDayOf, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, monthText, parseMonth } from '#calendar/month.ts'
import { herdLimits } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import type { Herd } from '#farm/herd/herd-document.ts'
import { herdMonths } from '#farm/herd/herd-months.ts'
import { cullTax } from '#farm/herd/herd-tax.ts'
import { youngWorth } from '#farm/herd/meat.ts'
import { type HeadMove, headsMoved, headsOn } from '#farm/notebook/heads.ts'
import { type HeadClass, headClasses } from '#farm/notebook/kinds.ts'

/**
 * The herds as they go on from the first of `month`. What comes and goes counts from the first count of its class on, and up to the eve of
 * that month: what is sold or born within it is what the projection itself expects, but for heads that went beyond that, which are
 * gone at once. A herd whose breeding females were never counted stays as the plan has it.
 */
export const countedHerds = (farm: Farm, moves: readonly HeadMove[], month: Month): Herd[] =>
  farm.herds.map((herd) => {
    const own = movesOf(farm, herd, moves, month)
    return withoutGone(toldOf(farm, herd, own, month), own, month, herdLimits(farm, herd.id))
  })

/**
 * The herd's own moves. Young that were never counted but noted as they were born begin as if they had been counted on the eve of the
 * first of these months, since the females were counted: as many as the plan expects there then, and does not let join within the month.
 */
const movesOf = (farm: Farm, herd: Herd, moves: readonly HeadMove[], month: Month): HeadMove[] => {
  const own = moves.filter(({ herdId }) => herdId === herd.id)
  const since = classAsBegan(own, 'females', month)?.countedAsOf
  if (since === undefined) return own
  const begun = youngClasses.flatMap((headClass): HeadMove[] => {
    const ofClass = own.filter((one) => one.headClass === headClass)
    const born = ofClass
      .filter(({ kind, day }) => kind === 'born' && monthOfDay(day) >= since)
      .map(({ day }) => monthOfDay(day))
    if (born.length === 0 || ofClass.some(({ kind }) => kind === 'counted')) return []
    const first = Math.min(...born) as Month
    return [
      {
        day: addDays(firstDayOf(first), -1),
        herdId: herd.id,
        kind: 'counted',
        headClass,
        count: expectedYoung(farm, herd, own, first, headClass),
      },
    ]
  })
  return [...begun, ...own]
}

const youngClasses = ['kept', 'young'] as const

/** Young that the plan has on the eve of a month and that are still young at its end; where those kept to breed are never told apart, they too. */
const expectedYoung = (
  farm: Farm,
  herd: Herd,
  own: readonly HeadMove[],
  first: Month,
  headClass: (typeof youngClasses)[number],
): number => {
  const limits = herdLimits(farm, herd.id)
  const months = herdMonths(toldOf(farm, herd, own, first), addMonths(first, -1), 2, limits)
  const kept = atLeastNone(months.replacements[0]! - months.joined[1]!)
  if (headClass === 'kept') return kept
  return months.young[0]! + (own.some((one) => one.headClass === 'kept') ? 0 : kept)
}

/** The herd with the counts that its own moves make. */
const toldOf = (farm: Farm, herd: Herd, own: readonly HeadMove[], month: Month): Herd => {
  const limits = herdLimits(farm, herd.id)
  const saysKept = own.some(({ headClass }) => headClass === 'kept')
  return countsOf(own, month).reduce(
    (so, count) => withCount(so, saysKept ? count : apart(so, count, limits)),
    herd,
  )
}

/** Sold, eaten or bartered within the month beyond what the projection lets go in it: it begins without these heads. */
const withoutGone = (herd: Herd, moves: readonly HeadMove[], month: Month, limits: Limits): Herd => {
  const gone = goneBeyond(herd, moves, month, limits, leaving)
  if (gone === null) return herd
  const there = headsAsBegan(herd, month, limits)
  const left = (heads: keyof HeadsGone) => there(heads) - gone[heads]
  return withCount(herd, {
    ...herd.counts.find((one) => one.month === monthText(month)),
    month: monthText(month),
    breedingFemales: left('breedingFemales'),
    ...(gone.replacements > 0 ? { replacements: left('replacements') } : {}),
    ...(gone.young > 0 ? { young: left('young') } : {}),
    ...(gone.males > 0 ? { males: left('males') } : {}),
  })
}

export interface SoldBeyond {
  sum: number
  /** Of the sum, by how it is taxed: sales of the farm, gain of section 1231, and gain taxed as ordinary income. */
  sales: number
  gain1231: number
  gainOrdinary: number
}

/** What is sold within the month beyond what the projection sells in it, at the plan's first prices: dollars, as when a herd is sold up. */
export const soldBeyond = (farm: Farm, moves: readonly HeadMove[], month: Month): SoldBeyond => {
  const all: SoldBeyond = { sum: 0, sales: 0, gain1231: 0, gainOrdinary: 0 }
  for (const herd of farm.herds) {
    const own = movesOf(farm, herd, moves, month)
    const gone = goneBeyond(toldOf(farm, herd, own, month), own, month, herdLimits(farm, herd.id), sold)
    if (gone === null) continue
    const grown = (gone.breedingFemales + gone.males) * herd.prices.cullFemale
    const young = (gone.young + gone.replacements) * youngWorth(herd).perHead
    // Which of them were raised here nobody has said: as of raised ones, all of the price is a gain.
    const { isGoods, raised1231 } = cullTax(herd)
    const asStock = isGoods ? 0 : grown
    all.sum += grown + young
    all.sales += grown + young - asStock
    all.gain1231 += asStock * raised1231
    all.gainOrdinary += asStock * (1 - raised1231)
  }
  return all
}

type Limits = ReturnType<typeof herdLimits>
type HeadsGone = Record<'breedingFemales' | 'replacements' | 'young' | 'males', number>

/** Heads that left in these ways within the month, beyond what it expects to sell itself; null where none did. */
const goneBeyond = (
  herd: Herd,
  moves: readonly HeadMove[],
  month: Month,
  limits: Limits,
  ways: ReadonlySet<HeadMove['kind']>,
): HeadsGone | null => {
  const went = between(moves, firstDayOf(month), lastDayOf(month)).filter(({ kind }) => ways.has(kind))
  if (went.length === 0 || classAsBegan(moves, 'females', month) === null) return null
  const then = herdMonths(herd, month, 1, limits)
  const there = headsAsBegan(herd, month, limits)
  const beyond = (headClass: HeadClass, heads: keyof HeadsGone, expected: number) => {
    const left = -headsMoved(went.filter((one) => one.headClass === headClass))
    return Math.max(0, Math.min(left - expected, there(heads)))
  }
  const gone = {
    breedingFemales: beyond('females', 'breedingFemales', then.culledHeads[0]!),
    replacements: beyond('kept', 'replacements', 0),
    young: beyond('young', 'young', then.soldYoungHeads[0]!),
    males: beyond('males', 'males', 0),
  }
  return Object.values(gone).every((heads) => heads === 0) ? null : gone
}

const headsAsBegan = (herd: Herd, month: Month, limits: Limits) => {
  const eve = herdMonths(herd, addMonths(month, -1), 1, limits)
  const counted = herd.counts.find((one) => one.month === monthText(month))
  return (heads: keyof HeadsGone): number => counted?.[heads] ?? eve[heads][0]!
}

const leaving: ReadonlySet<HeadMove['kind']> = new Set(['sold', 'kitchen', 'bartered'])
const sold: ReadonlySet<HeadMove['kind']> = new Set(['sold'])

const withCount = (herd: Herd, count: HeadCount): Herd => ({
  ...herd,
  counts: [...herd.counts.filter(({ month }) => month !== count.month), count],
})

/** Where the notebook never tells those kept to breed, its young are all the young: they are told apart in the proportion expected of them. */
const apart = (herd: Herd, count: HeadCount, limits: ReturnType<typeof herdLimits>): HeadCount => {
  if (count.young === undefined) return count
  const eve = herdMonths(herd, addMonths(parseMonth(count.month)!, -1), 1, limits)
  const [kept, forSale] = [eve.replacements[0]!, eve.young[0]!]
  if (kept <= 0) return count
  const replacements = (count.young * kept) / (kept + forSale)
  return { ...count, young: count.young - replacements, replacements }
}

type HeadCount = Herd['counts'][number]

/** A count of each month that something was told as of since the females were counted: up to `month`, and of the next where that was late in it. */
const countsOf = (moves: readonly HeadMove[], month: Month): HeadCount[] => {
  const since = classAsBegan(moves, 'females', month)?.countedAsOf ?? Number.POSITIVE_INFINITY
  const asOf = headClasses
    .flatMap((headClass) => classAsBegan(moves, headClass, month)?.toldAsOf ?? [])
    .filter((begins) => begins >= since)
  const next = addMonths(month, 1)
  const late = moves.some(
    ({ kind, headClass, day }) => kind === 'counted' && headClass === 'females' && monthCounted(day) === next,
  )
  return [...new Set(late ? [...asOf, next] : asOf)]
    .sort((a, b) => a - b)
    .flatMap((begins) => countAsOf(moves, begins) ?? [])
}

/** The classes beside the breeding females, and how a count of the plan calls them. */
const othersOfPlan = [
  ['kept', 'replacements'],
  ['young', 'young'],
  ['males', 'males'],
] as const

const countAsOf = (moves: readonly HeadMove[], begins: Month): HeadCount | null => {
  const females = classAsBegan(moves, 'females', begins)
  if (females === null) return null
  // Heads of the others are sold and born within a year: what was told of them before has been overtaken.
  const fresh = othersOfPlan.flatMap(([headClass, name]) => {
    const told = classAsBegan(moves, headClass, begins)
    return told?.toldAsOf === begins ? [[name, told.heads] as const] : []
  })
  return { month: monthText(begins), breedingFemales: females.heads, ...Object.fromEntries(fresh) }
}

interface Told {
  heads: number
  /** The month that its last count stands as the beginning of. */
  countedAsOf: Month
  /** The last month as the beginning of which something was told. */
  toldAsOf: Month
}

/** Heads of a class as a month begins: its last count with what came and went since; null where it was not counted by then. */
const classAsBegan = (moves: readonly HeadMove[], headClass: HeadClass, begins: Month): Told | null => {
  const own = moves.filter((one) => one.headClass === headClass)
  const counted = own
    .filter(({ kind, day }) => kind === 'counted' && monthCounted(day) <= begins)
    .reduce<HeadMove | null>((last, one) => (last === null || one.day >= last.day ? one : last), null)
  if (counted === null) return null
  const first = firstDayOf(begins)
  const eve = addDays(first, -1)
  // Counted within the month itself: what came and went in it until then had not yet.
  if (counted.day >= first)
    return {
      heads: atLeastNone(counted.count - headsMoved(between(own, first, counted.day))),
      countedAsOf: begins,
      toldAsOf: begins,
    }
  const lastMove = between(own, addDays(counted.day, 1), eve).reduce<Day | null>(
    (last, { day }) => (last === null || day > last ? day : last),
    null,
  )
  const asCounted = monthCounted(counted.day)
  const moved = lastMove === null ? asCounted : addMonths(monthOfDay(lastMove), 1)
  return {
    heads: atLeastNone(headsOn(own, counted.herdId, eve)?.[headClass] ?? 0),
    countedAsOf: asCounted,
    toldAsOf: Math.max(moved, asCounted) as Month,
  }
}

const between = (moves: readonly HeadMove[], from: Day, to: Day): HeadMove[] =>
  moves.filter(({ day }) => day >= from && day <= to)

const atLeastNone = (heads: number): number => Math.max(0, heads)

const lastDayOfFirstHalf = 15

/** The month whose beginning lies nearer: a count stands as a month begins. */
export const monthCounted = (day: Day): Month =>
  Number(day.slice(8)) <= lastDayOfFirstHalf ? monthOfDay(day) : addMonths(monthOfDay(day), 1)
