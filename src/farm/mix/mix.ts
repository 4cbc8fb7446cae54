// The mix: which scales and market trips keep the net at the hours there are, what an hour, an acre and a market day are worth.
import type { Farm, Phase } from '#farm/farm-document.ts'
import { farmYear } from '#farm/farm-year.ts'
import { endlessColumns, limitsThatClash, type Optimum, type Solver, solveProgram } from '#farm/program.ts'
import { everyMonth, fourSeasons, type MixFrame, mixFrame, type Period } from './mix-frame.ts'
import { type MixAim, type MixProgram, monthsInWords, total } from './mix-parts.ts'
import { writeMix } from './mix-program.ts'

export interface MixQuestion extends MixAim {
  /** Whose scales, trips, prices and hours are today's. */
  year: number
  /** Hours a week by person, where they differ from the plan's. */
  weeklyHours?: Record<string, number>
  /** Hours and markets are balanced by period (each month when left out); trips are whole by season. Periods lie within seasons. */
  periods?: readonly Period[]
  seasons?: readonly Period[]
}

export interface MixFound {
  kind: 'found'
  /** Dollars a year at plan prices: sales − direct costs − market costs − hired help − overheads. */
  net: number
  netToday: number
  /** Hours of a year, the crew's and hired together. */
  hours: number
  hoursToday: number
  /** Lines that run before or in it and say no hours: what the hours leave out. */
  withoutHours: string[]
  /** Net with every scale and trip as before, at the same hours; null where that does not fit. */
  netAsItIs: number | null
  lines: { id: string; name: string; unit: string; isHerd: boolean; today: number; scale: number }[]
  /** Trips of the season; `monthly` spreads them as the plan's full trips are. */
  markets: {
    id: string
    name: string
    today: number
    trips: number
    bySeason: { season: number; today: number; trips: number; worthOfOneMore: number }[]
    monthly: number[]
  }[]
  periods: {
    months: Period
    name: string
    needed: number
    crew: number
    hired: number
    worthOfHour: number
  }[]
  worthOfAcre: number | null
}

export type MixAnswer =
  | MixFound
  | { kind: 'limits clash'; clashes: { limit: string; by: number }[]; because: string }
  /** Lines that take no hours, land or market that is scarce, and have no largest scale. */
  | { kind: 'nothing limits'; lines: string[]; because: string }

/** Worths are dollars a year for one more; under `fewest hours` they are hours saved a year. */
export const solveMix = (solver: Solver, farm: Farm, question: MixQuestion): MixAnswer => {
  const frame = mixFrame(farm, question.year, question.weeklyHours)
  const periods = question.periods ?? everyMonth
  const seasons = question.seasons ?? fourSeasons
  const mix = writeMix(frame, periods, seasons, question)
  const solved = solveProgram(solver, mix.program)
  if (solved.kind === 'no end') return noEnd(solver, frame, mix)
  if (solved.kind === 'nothing fits') return clash(solver, mix)
  const today = farmYear(farm, question.year)
  const found = answer(frame, periods, seasons, mix, solved)
  return {
    ...found,
    netToday: today.net,
    hoursToday: today.hours,
    netAsItIs: netAsItIs(solver, frame, periods, seasons),
  }
}

const netAsItIs = (
  solver: Solver,
  frame: MixFrame,
  periods: readonly Period[],
  seasons: readonly Period[],
): number | null => {
  const pinned = [...frame.lines, ...frame.markets].map(({ id }) => id)
  const mix = writeMix(frame, periods, seasons, { kind: 'most net', pinned })
  const solved = solveProgram(solver, mix.program)
  return solved.kind === 'optimum' ? solved.objective - mix.fixedCosts : null
}

/**
 * One mix a year, each from the one before, with no line changing by more than the share a year. Stops early at a clash.
 * The last answer that does not change any more is repeated.
 */
export const mixPath = (
  solver: Solver,
  farm: Farm,
  question: MixQuestion & { largestChange: number },
  years: number,
  inYear: (farm: Farm, year: number) => Farm = (same) => same,
): MixAnswer[] => {
  const answers: MixAnswer[] = []
  let at = farm
  for (let k = 0; k < years; k += 1) {
    const year = question.year + k
    const found = solveMix(solver, inYear(at, year), { ...question, year })
    answers.push(found)
    if (found.kind !== 'found') break
    at = withMix(at, found, `${year}-01`)
  }
  return answers
}

/** The farm with the answer's scales, trips and herd limits in force from a month on. */
export const withMix = (farm: Farm, mix: MixFound, from: string, name = 'Mix'): Farm => {
  const later = farm.phases.filter((phase) => phase.from < from)
  const replaced = farm.phases.find((phase) => phase.from === from)
  const phase = {
    from,
    name: replaced?.name ?? name,
    weeklyHours: replaced?.weeklyHours ?? [],
    scales: mix.lines
      .filter((line) => !line.isHerd)
      .map((line) => ({ enterprise: line.id, value: line.scale })),
    trips: mix.markets.map((market) => ({ market: market.id, value: market.monthly })),
    herdLimits: mix.lines.filter((line) => line.isHerd).map((line) => ({ herd: line.id, value: line.scale })),
    sales: replaced?.sales ?? [],
    landLeasedOut: replaced?.landLeasedOut ?? 0,
    leasePerAcreAndYear: replaced?.leasePerAcreAndYear ?? 0,
  }
  const dropSteps = <Step extends { from: string }>(steps: Step[]) =>
    steps.filter((step) => step.from <= from)
  return {
    ...farm,
    enterprises: farm.enterprises.map((one) => ({ ...one, scaleSteps: dropSteps(one.scaleSteps) })),
    markets: farm.markets.map((one) => ({ ...one, tripsSteps: dropSteps(one.tripsSteps) })),
    phases: [...later, phase],
  }
}

/** A phase of the slower years with the answer's scales, trips and herd limits; everything else of it stays. */
export const phaseWithMix = (phase: Phase, mix: MixFound): Phase => ({
  ...phase,
  scales: mix.lines
    .filter((line) => !line.isHerd)
    .map((line) => ({ enterprise: line.id, value: asPlanned(line.scale) })),
  trips: mix.markets.map((market) => ({ market: market.id, value: market.monthly })),
  herdLimits: mix.lines
    .filter((line) => line.isHerd)
    .map((line) => ({ herd: line.id, value: asPlanned(line.scale) })),
})

/** Rounded down at the fourth decimal: no limit of the mix is passed by rounding. */
const asPlanned = (scale: number) => Math.floor(scale * 1e4 + 1e-6) / 1e4

/** The farm at a phase's beginning, as it was just before: the phase's hours and land, the scales and trips still of today. */
export const farmBeforePhase = (farm: Farm, phase: Phase): Farm => ({
  ...farm,
  phases: [
    ...farm.phases.filter((one) => one.from < phase.from),
    { ...phase, scales: [], trips: [], herdLimits: [] },
  ],
})

/** The solver may say "no end" of a program in which nothing fits either; then the limits are what clashes. */
const noEnd = (solver: Solver, frame: MixFrame, mix: MixProgram): MixAnswer => {
  const endless = endlessColumns(solver, mix.program)
  const lines = frame.lines.filter((_, l) => endless.includes(mix.lineColumns[l]!)).map(({ name }) => name)
  if (lines.length === 0) return clash(solver, mix)
  return {
    kind: 'nothing limits',
    lines,
    because: `Nothing in the plan limits ${lines.join(', ')}: no mix can be found before it has hours per unit, land per unit, or a largest number of units`,
  }
}

const clash = (solver: Solver, mix: MixProgram): MixAnswer => {
  const clashes = limitsThatClash(solver, mix.program, (row) => !mix.structural.has(row)).map(
    ({ row, by }) => ({
      limit: row.name,
      by,
    }),
  )
  const short = clashes.filter(({ by }) => by > 0).map(({ limit, by }) => `${limit} (short by ${show(by)})`)
  const against = clashes.filter(({ by }) => by === 0).map(({ limit }) => limit)
  return {
    kind: 'limits clash',
    clashes,
    because: [
      'No mix keeps to all limits at once',
      ...(short.length ? [`What would have to give: ${short.join('; ')}`] : []),
      ...(against.length ? [`It is pressed by: ${against.join('; ')}`] : []),
    ].join('. '),
  }
}

const answer = (
  frame: MixFrame,
  periods: readonly Period[],
  seasons: readonly Period[],
  mix: MixProgram,
  solved: Optimum,
): Omit<MixFound, 'netToday' | 'hoursToday' | 'netAsItIs'> => {
  const weigh = (terms: readonly [number, number][], values: readonly number[]) =>
    terms.reduce((sum, [column, amount]) => sum + amount * values[column]!, 0)
  const sign = mix.program.sense === 'max' ? 1 : -1
  return {
    kind: 'found',
    net: weigh(mix.netTerms, solved.values) - mix.fixedCosts,
    hours: weigh(mix.hourTerms, solved.values) + mix.fixedHours,
    withoutHours: withoutHours(frame, (l) => solved.values[mix.lineColumns[l]!]!),
    lines: frame.lines.map((line, l) => ({
      id: line.id,
      name: line.name,
      unit: line.unit,
      isHerd: line.isHerd,
      today: line.today,
      scale: tidy(solved.values[mix.lineColumns[l]!]!),
    })),
    markets: marketsOf(frame, seasons, mix, solved, sign),
    periods: periods.map((months, p) => {
      const row = mix.program.rows[mix.hourRows[p]!]!
      const fixed = months.reduce((sum, k) => sum + frame.overheadHours[k]!, 0)
      const beyond = weigh(row.terms, solved.values) + solved.values[mix.hiredColumns[p]!]! - row.limit
      return {
        months,
        name: monthsInWords(months),
        needed: beyond + row.limit + fixed,
        crew: row.limit + fixed,
        // Hours that are promised cost nothing more, so that the program may take more of them than it needs.
        hired: Math.max(0, beyond),
        worthOfHour: sign * solved.rowWorth[mix.hourRows[p]!]!,
      }
    }),
    worthOfAcre: mix.landRow === null ? null : sign * solved.rowWorth[mix.landRow]!,
  }
}

const marketsOf = (
  frame: MixFrame,
  seasons: readonly Period[],
  mix: MixProgram,
  solved: Optimum,
  sign: number,
): MixFound['markets'] =>
  frame.markets.map((market, m) => {
    const bySeason = mix.tripColumns
      .filter((one) => one.market === m)
      .map(({ season, column, today }) => ({
        season,
        today,
        trips: tidy(solved.values[column]!),
        worthOfOneMore: sign * solved.columnWorth[column]!,
      }))
    return {
      id: market.id,
      name: market.name,
      today: bySeason.reduce((sum, one) => sum + one.today, 0),
      trips: bySeason.reduce((sum, one) => sum + one.trips, 0),
      bySeason,
      // A plan's trips are those of a market that is had: the chance of a seat is counted on top of them.
      monthly: market.full.map((full, k) => {
        const season = bySeason.find((one) => seasons[one.season]!.includes(k))
        const whole = season ? seasons[season.season]!.reduce((sum, j) => sum + market.full[j]!, 0) : 0
        return whole > 0 && full > 0 ? (season!.trips * full) / whole / market.seats[k]! : 0
      }),
    }
  })

const withoutHours = ({ lines }: MixFrame, scaleOf: (line: number) => number): string[] =>
  lines
    .filter(
      (line, l) => total(line.hours) + total(line.hoursFixed) <= 0 && Math.max(line.today, scaleOf(l)) > 1e-6,
    )
    .map(({ name }) => name)

const tidy = (value: number) => {
  const near = Math.round(value)
  return Math.abs(value - near) < 1e-7 ? near : Math.max(0, value)
}
const show = (value: number) => String(Math.round(value * 10) / 10)
