// The in-step check: stock, markets, places, land, winter feed and hours, season by season, and what is out of step by how much.
import { month } from '#calendar/month.ts'
import {
  addedCapacity,
  fourSeasons,
  type Period,
  seasonNames,
  everyMonth as singleMonths,
} from '#farm/mix/mix-frame.ts'
import { formatDollars } from '#money/format.ts'
import { type FarmCourse, farmCourse } from './course.ts'
import type { Farm } from './farm-document.ts'
import { speciesWords } from './herd/species-words.ts'
import { heldEachMonth } from './seasonal.ts'

export type StepMeasure = 'hours' | 'land' | 'winter feed' | 'stock' | 'market' | 'place' | 'unsold'

export interface StepCheck {
  measure: StepMeasure
  /** What is measured: "Hours of the crew", "Saturday market", "Winter feed". */
  name: string
  unit: string
  /** Winter, spring, summer, fall. What has no season stands in all four alike. */
  seasons: { season: string; needed: number; room: number; over: number }[]
  /** Largest share of the room that is used in any season; above 1 is out of step. */
  tightest: number
  isOut: boolean
  says: string
}

/** In which dollars what markets take is told: with the growth that the plan adds to prices, times a factor. */
export interface StepDollars {
  grown: (course: FarmCourse) => FarmCourse
  factor: number
}

const atFirstPrices: StepDollars = { grown: (course) => course, factor: 1 }

/** Checks one calendar year of the plan at expected yields. Winter counts January, February and December of that year. */
export const inStepCheck = (farm: Farm, year: number, dollars = atFirstPrices): StepCheck[] => {
  const course = dollars.grown(farmCourse(farm, month(year, 1), 12))
  return [
    ...hoursChecks(course),
    ...hiredCheck(course),
    ...landCheck(farm, course),
    ...stockChecks(farm, course),
    ...waitingChecks(farm, course),
    ...winterFeedCheck(farm, course),
    ...marketChecks(course, dollars.factor),
    ...placeChecks(farm, course, year),
  ]
}

const at = (values: Float64Array, row: number, k: number) => values[row * 12 + k]!

/** Work given to hired help by name, in months without so many hours of it: it is hired and paid beyond them. */
const hiredCheck = (course: FarmCourse): StepCheck[] => {
  const room = (k: number) => at(course.hoursAvailable, course.workers.length - 1, k)
  const needed = (months: Period) => total(months, (k) => course.hiredByPlan[k]!)
  // Hours of one month are of no use in another.
  const there = (months: Period) => total(months, (k) => Math.min(course.hiredByPlan[k]!, room(k)))
  return singleMonths.some((months) => needed(months) > there(months) + 0.5)
    ? [check('hours', 'Work given to hired help, beside the hours entered for it', 'hours', needed, there)]
    : []
}

const landCheck = (farm: Farm, course: FarmCourse): StepCheck[] => {
  if (farm.land <= 0) return []
  const used = (months: Period) => highest(months, (k) => course.landUsed[k]!)
  return [check('land', 'Land', 'acres', used, () => farm.land)]
}

const stockChecks = (farm: Farm, course: FarmCourse): StepCheck[] =>
  farm.herds.map((herd, index) => {
    const { breedingFemales } = course.herds[index]!
    const standing = (months: Period) => highest(months, (k) => breedingFemales[k]!)
    return check('stock', herd.name, speciesWords[herd.kind].female[1], standing, () => herd.carryingLimit)
  })

/** Young that found no market and went to auction. */
const waitingChecks = (farm: Farm, course: FarmCourse): StepCheck[] =>
  farm.herds.flatMap(({ name, kind }, index) => {
    const row = farm.enterprises.length + index
    const auctioned = (months: Period) => total(months, (m) => at(course.atAuction, row, m))
    if (auctioned(everyMonth) <= 0.05) return []
    const found = check(
      'unsold',
      `${name}, ${speciesWords[kind].sold[1]} without a market`,
      'heads',
      auctioned,
      () => 0,
    )
    const says = ({ season, needed }: StepCheck['seasons'][number]) =>
      `${name}: in ${season} ${rounded(needed)} ${speciesWords[kind].sold[1]} find no market and go to auction`
    return [saidAtWorst(found, says)]
  })

const winterFeedCheck = (farm: Farm, course: FarmCourse): StepCheck[] => {
  const { winterFeed } = farm
  if (winterFeed === undefined) return []
  const needed = farm.herds.reduce((sum, herd, index) => {
    const { breedingFemales } = course.herds[index]!
    return sum + herd.winterFeedPerFemale * highest([0, 1, 11], (k) => breedingFemales[k]!)
  }, 0)
  const inWinter = (months: Period) => (months.includes(0) ? needed : 0)
  return [check('winter feed', 'Winter feed', 'measures', inWinter, () => winterFeed)]
}

/** What each market sells of what it could; and for each line, what is grown and finds no market. */
const marketChecks = (course: FarmCourse, factor: number): StepCheck[] => [
  ...course.markets.map(({ name }, k) =>
    check(
      'market',
      name,
      'dollars',
      (months) => factor * total(months, (m) => at(course.marketSales, k, m)),
      (months) => factor * total(months, (m) => at(course.marketCapacity, k, m)),
    ),
  ),
  ...course.rows.flatMap((line, row) => {
    const grown = (months: Period) =>
      factor * total(months, (m) => at(course.offered, row, m) * course.work.share[m]!)
    const sold = (months: Period) => factor * total(months, (m) => at(course.sales, row, m))
    if (grown(everyMonth) - sold(everyMonth) <= 0.5) return []
    const found = check('unsold', `${line.name}, grown against sold`, 'dollars', grown, sold)
    const says = ({ season, needed, over }: StepCheck['seasons'][number]) =>
      `${line.name}: of the ${formatDollars(needed)} grown in ${season} ${formatDollars(over)} finds no market`
    return [saidAtWorst(found, says)]
  }),
]

const placeChecks = (farm: Farm, course: FarmCourse, year: number): StepCheck[] =>
  farm.facilities.map((facility) => {
    const uses = facility.uses.flatMap((use) => {
      const row = course.rows.findIndex((line) => line.id === use.by)
      return row < 0 ? [] : [{ row, perUnit: heldEachMonth(use.perUnit) }]
    })
    const capacity = heldEachMonth(facility.capacity)
    const used = (k: number) =>
      uses.reduce((sum, { row, perUnit }) => sum + at(course.units, row, k) * perUnit[k]!, 0)
    return check(
      'place',
      facility.name,
      facility.unit,
      (months) => highest(months, used),
      (months) => lowest(months, (k) => capacity[k]! + addedCapacity(farm, facility.id, month(year, k + 1))),
    )
  })

/** By season; and where hours of a season are enough and those of one month in it are not, which is what the plan goes by, by month. */
const hoursChecks = ({ hoursNeeded, hoursAvailable, workers }: FarmCourse): StepCheck[] => {
  const needed = (k: number) => hoursNeeded[k]!
  const room = (k: number) => workers.reduce((sum, _, worker) => sum + at(hoursAvailable, worker, k), 0)
  const bySeason = check(
    'hours',
    'Hours of crew and hired help',
    'hours',
    (months) => total(months, needed),
    (months) => total(months, room),
  )
  const over = (k: number) => needed(k) - room(k)
  const fullest = (months: Period) => months.reduce((most, k) => (over(k) > over(most) ? k : most))
  const isHidden = fourSeasons.some(
    (months, s) => bySeason.seasons[s]!.over === 0 && over(fullest(months)) > 0.5,
  )
  return [
    bySeason,
    ...(isHidden
      ? [
          check(
            'hours',
            'Hours in the fullest month',
            'hours',
            (months) => needed(fullest(months)),
            (months) => room(fullest(months)),
          ),
        ]
      : []),
  ]
}

const check = (
  measure: StepMeasure,
  name: string,
  unit: string,
  needed: (months: Period) => number,
  room: (months: Period) => number,
): StepCheck => {
  const seasons = fourSeasons.map((months, s) => {
    const [wanted, has] = [needed(months), room(months)]
    return { season: seasonNames[s]!, needed: wanted, room: has, over: Math.max(0, wanted - has) }
  })
  const worst = worstOf(seasons)
  const amount = (value: number) => (unit === 'dollars' ? formatDollars(value) : `${rounded(value)} ${unit}`)
  return {
    measure,
    name,
    unit,
    seasons,
    tightest: Math.max(
      0,
      ...seasons.map((one) => (one.room > 0 ? one.needed / one.room : one.needed > 0 ? 9.99 : 0)),
    ),
    isOut: worst !== undefined,
    says: worst
      ? `${name}: short by ${amount(worst.over)} in ${worst.season} (${amount(worst.needed)} needed, ${amount(worst.room)} there)`
      : `${name}: fits`,
  }
}

/** The season that is most out of step. */
const worstOf = (seasons: StepCheck['seasons']): StepCheck['seasons'][number] | undefined =>
  seasons
    .filter((one) => one.over > 0.005 * Math.max(1, one.room))
    .reduce<StepCheck['seasons'][number] | undefined>(
      (most, one) => (most === undefined || one.over > most.over ? one : most),
      undefined,
    )

const saidAtWorst = (one: StepCheck, says: (worst: StepCheck['seasons'][number]) => string): StepCheck => {
  const worst = worstOf(one.seasons)
  return worst ? { ...one, says: says(worst) } : one
}

const everyMonth = singleMonths.flat()
const total = (months: Period, value: (k: number) => number) => months.reduce((sum, k) => sum + value(k), 0)
const highest = (months: Period, value: (k: number) => number) => Math.max(...months.map(value))
const lowest = (months: Period, value: (k: number) => number) => Math.min(...months.map(value))
const rounded = (value: number) =>
  value >= 100 ? Math.round(value).toLocaleString('en-US') : String(Math.round(value * 10) / 10)
