// Writes the mix as a mixed-integer programme: scales, whole trips by season, what each market sells, hired hours.
import type { MixFrame, MixLine, MixMarket, Period } from './mix-frame.ts'
import type { Column, Programme, Row } from './programme.ts'

export interface MixAim {
  kind: 'most net' | 'fewest hours'
  /** Least net for `fewest hours`, dollars a year. */
  netAtLeast?: number | undefined
  /** Largest change from today, as a share of today's scale (and of full trips). */
  largestChange?: number | undefined
  /** Ids of lines and markets kept as they are, beside those the plan pins. */
  pinned?: readonly string[] | undefined
}

/** The programme with where its parts lie: columns of lines, of trips by season, of hired hours; rows of hours, land, net. */
export interface MixProgramme {
  programme: Programme
  lineColumns: number[]
  tripColumns: { market: number; season: number; column: number; today: number }[]
  hiredColumns: number[]
  hourRows: number[]
  landRow: number | null
  netRow: number | null
  /** Net = Σ netTerms − fixedCosts. */
  netTerms: [number, number][]
  fixedCosts: number
  hourTerms: [number, number][]
  fixedHours: number
  /** Rows that state what a market or a field is, and can never give. */
  structural: Set<Row>
}

export const writeMix = (
  frame: MixFrame,
  periods: readonly Period[],
  seasons: readonly Period[],
  aim: MixAim,
): MixProgramme => {
  const mix = emptyMix(frame)
  addLines(mix, frame, aim)
  addTrips(mix, frame, seasons, aim)
  addSales(mix, frame, periods, seasons)
  addHours(mix, frame, periods, seasons)
  addPlaces(mix, frame)
  addAim(mix, aim)
  return mix
}

const emptyMix = (frame: MixFrame): MixProgramme => ({
  programme: { sense: 'max', columns: [], rows: [] },
  lineColumns: [],
  tripColumns: [],
  hiredColumns: [],
  hourRows: [],
  landRow: null,
  netRow: null,
  netTerms: [],
  fixedCosts: frame.overheads,
  hourTerms: [],
  fixedHours: total(frame.overheadHours),
  structural: new Set(),
})

const addColumn = (mix: MixProgramme, column: Partial<Column> = {}): number =>
  mix.programme.columns.push({
    objective: 0,
    lower: 0,
    upper: Number.POSITIVE_INFINITY,
    whole: false,
    ...column,
  }) - 1

const addRow = (
  mix: MixProgramme,
  name: string,
  terms: Row['terms'],
  relation: Row['relation'],
  limit: number,
  structural = false,
): number => {
  const row = { name, terms, relation, limit }
  if (structural) mix.structural.add(row)
  return mix.programme.rows.push(row) - 1
}

/** Limits of a line are rows, so that a clash can name them. Fixed hours hang on a whole 0-or-1 column. */
const addLines = (mix: MixProgramme, frame: MixFrame, aim: MixAim) => {
  for (const line of frame.lines) {
    const column = addColumn(mix, { whole: line.whole && Number.isInteger(line.today) })
    mix.lineColumns.push(column)
    const direct = line.markets.length === 0 ? total(line.sales) : 0
    mix.netTerms.push([column, direct - total(line.costs)])
    mix.hourTerms.push([column, total(line.hours)])
    const one: Row['terms'] = [[column, 1]]
    if (line.pinned || aim.pinned?.includes(line.id)) {
      addRow(mix, `${line.name} kept at ${show(line.today)}`, one, '=', line.today)
      continue
    }
    if (line.least > 0) addRow(mix, `at least ${show(line.least)} of ${line.name}`, one, '>=', line.least)
    if (Number.isFinite(line.most))
      addRow(mix, `at most ${show(line.most)} of ${line.name}`, one, '<=', line.most)
    if (aim.largestChange !== undefined) {
      const change = aim.largestChange * Math.max(line.today, line.whole ? 1 / aim.largestChange : 0)
      const words = `${line.name} within ${show(aim.largestChange * 100)} % of today’s ${show(line.today)}`
      addRow(mix, words, one, '<=', line.today + change)
      if (line.today > change) addRow(mix, words, one, '>=', line.today - change)
    }
  }
}

const addTrips = (mix: MixProgramme, frame: MixFrame, seasons: readonly Period[], aim: MixAim) => {
  frame.markets.forEach((market, m) => {
    seasons.forEach((season, s) => {
      const most = sumOver(market.full, season)
      if (most <= 0) return
      const today = sumOver(market.today, season)
      const fixed = market.pinned || aim.pinned?.includes(market.id)
      const column = addColumn(mix, {
        upper: most,
        whole: Number.isInteger(most) && (!fixed || Number.isInteger(today)),
      })
      mix.tripColumns.push({ market: m, season: s, column, today })
      const perTrip = season.reduce((sum, k) => sum + (market.full[k]! / most) * market.costPerTrip[k]!, 0)
      mix.netTerms.push([column, -perTrip])
      mix.hourTerms.push([column, market.hoursPerTrip])
      if (fixed) addRow(mix, `${market.name} kept at ${show(today)} trips`, [[column, 1]], '=', today)
      else if (aim.largestChange !== undefined) {
        const change = Math.max(1, aim.largestChange * most)
        const words = `${market.name} within ${show(change)} trips of today’s ${show(today)}`
        addRow(mix, words, [[column, 1]], '<=', today + change)
        if (today > change) addRow(mix, words, [[column, 1]], '>=', today - change)
      }
      const fees = sumOver(
        market.feePerMonth,
        season.filter((k) => market.full[k]! > 0),
      )
      if (fees > 0) {
        const open = addColumn(mix, { upper: 1, whole: true })
        addRow(
          mix,
          `${market.name} open`,
          [
            [column, 1],
            [open, -most],
          ],
          '<=',
          0,
          true,
        )
        mix.netTerms.push([open, -fees])
      }
    })
  })
}

const tripColumn = (mix: MixProgramme, market: number, season: number) =>
  mix.tripColumns.find((one) => one.market === market && one.season === season)

/** What each market sells of each line: no more than is grown, no more than its trips and followers buy, nothing when closed. */
const addSales = (
  mix: MixProgramme,
  frame: MixFrame,
  periods: readonly Period[],
  seasons: readonly Period[],
) => {
  for (const period of periods) {
    const season = seasons.findIndex((one) => period.every((k) => one.includes(k)))
    if (season < 0) throw new Error(`A period of the mix lies in two seasons: ${period}`)
    const soldAt: Row['terms'][] = frame.markets.map(() => [])
    frame.lines.forEach((line, l) => {
      const grown = sumOver(line.sales, period)
      if (line.markets.length === 0 || grown <= 0) return
      const terms: Row['terms'] = [[mix.lineColumns[l]!, -grown]]
      frame.markets.forEach((market, m) => {
        if (!line.markets.includes(market.id) || !tripColumn(mix, m, season)) return
        const sold = addColumn(mix)
        mix.netTerms.push([sold, 1])
        terms.push([sold, 1])
        soldAt[m]!.push([sold, 1])
      })
      addRow(mix, `${line.name} grown`, terms, '<=', 0, true)
    })
    frame.markets.forEach((_, m) => {
      if (soldAt[m]!.length > 0) addMarketRoom(mix, frame, period, seasons[season]!, season, m, soldAt[m]!)
    })
  }
}

const addMarketRoom = (
  mix: MixProgramme,
  frame: MixFrame,
  period: Period,
  seasonMonths: Period,
  season: number,
  m: number,
  sold: Row['terms'],
) => {
  const own = tripColumn(mix, m, season)!
  const market = frame.markets[m]!
  const perTrip = buysPerTrip(market, period, seasonMonths)
  const room: Row['terms'] = [...sold, [own.column, -perTrip]]
  let followers = 0
  frame.markets.forEach((other, from) => {
    const trips = tripColumn(mix, from, season)
    if (from === m || !trips || other.followShare === 0) return
    const following = period.reduce(
      (sum, k) =>
        sum + other.full[k]! * other.salesPerTrip[k]! * other.followShare * followWeight(frame, from, m, k),
      0,
    )
    if (following <= 0) return
    followers += following
    room.push([trips.column, following / sumOver(other.full, seasonMonths)])
  })
  addRow(mix, `room at ${market.name}`, room, '<=', followers, true)
  const perTripWithFollowers = perTrip + followers / sumOver(market.full, seasonMonths)
  if (followers > 0)
    addRow(mix, `${market.name} runs`, [...sold, [own.column, -perTripWithFollowers]], '<=', 0, true)
}

/** Dollars that one trip of the season sells in these months. */
const buysPerTrip = (market: MixMarket, period: Period, season: Period): number => {
  const trips = sumOver(market.full, season)
  return period.reduce((sum, k) => sum + (market.full[k]! / trips) * market.salesPerTrip[k]!, 0)
}

/** The part of a market's followers that goes to another, by what the others sell at full trips. */
const followWeight = (frame: MixFrame, from: number, to: number, k: number): number => {
  const others = frame.markets.map((one, m) => (m === from ? 0 : one.full[k]! * one.salesPerTrip[k]!))
  const whole = total(others)
  return whole > 0 ? others[to]! / whole : 0
}

const addHours = (
  mix: MixProgramme,
  frame: MixFrame,
  periods: readonly Period[],
  seasons: readonly Period[],
) => {
  const keeps = frame.lines.map((line, l) => keepColumn(mix, line, mix.lineColumns[l]!))
  for (const period of periods) {
    const season = seasons.findIndex((one) => period.every((k) => one.includes(k)))
    const hired = addColumn(mix, { upper: sumOver(frame.hired.hours, period) })
    mix.hiredColumns.push(hired)
    mix.netTerms.push([hired, -frame.hired.hourlyCost])
    const work = workIn(mix, frame, period, seasons[season]!, season, keeps, () => 1)
    const crew = frame.workers.reduce((sum, one) => sum + sumOver(one.hours, period), 0)
    const fixed = sumOver(frame.overheadHours, period)
    mix.hourRows.push(
      addRow(mix, `hours in ${monthsInWords(period)}`, [...work, [hired, -1]], '<=', crew - fixed),
    )
    for (const worker of frame.workers) {
      const own = workIn(mix, frame, period, seasons[season]!, season, keeps, (weights) =>
        shareOf(weights, worker.who),
      )
      if (own.length > 0)
        addRow(
          mix,
          `hours of ${worker.who} in ${monthsInWords(period)}`,
          own,
          '<=',
          sumOver(worker.hours, period),
        )
    }
  }
}

/** A whole column that is 1 when a line with fixed hours is kept at all. */
const keepColumn = (mix: MixProgramme, line: MixLine, column: number): number | null => {
  if (total(line.hoursFixed) <= 0 || !Number.isFinite(line.most)) return null
  const keep = addColumn(mix, { upper: 1, whole: true })
  const most = Math.max(line.most, line.today, 1e-6)
  addRow(
    mix,
    `${line.name} kept at all`,
    [
      [column, 1],
      [keep, -most],
    ],
    '<=',
    0,
    true,
  )
  mix.hourTerms.push([keep, total(line.hoursFixed)])
  return keep
}

const workIn = (
  mix: MixProgramme,
  frame: MixFrame,
  period: Period,
  seasonMonths: Period,
  season: number,
  keeps: readonly (number | null)[],
  part: (hoursBy: Record<string, number>) => number,
): Row['terms'] => {
  const terms: Row['terms'] = []
  const add = (column: number, hours: number) => {
    if (hours !== 0) terms.push([column, hours])
  }
  frame.lines.forEach((line, l) => {
    add(mix.lineColumns[l]!, sumOver(line.hours, period) * part(line.hoursBy))
    if (keeps[l] !== null) add(keeps[l]!, sumOver(line.hoursFixed, period) * part(line.hoursBy))
  })
  frame.markets.forEach((market, m) => {
    const trips = tripColumn(mix, m, season)
    if (!trips) return
    const share = sumOver(market.full, period) / sumOver(market.full, seasonMonths)
    add(trips.column, share * market.hoursPerTrip * part(market.hoursBy))
  })
  return terms
}

const shareOf = (weights: Record<string, number>, who: string): number => {
  const whole = total(Object.values(weights))
  return whole > 0 ? (weights[who] ?? 0) / whole : 0
}

/** Land, winter feed, facilities. Land not used is leased out where the plan says for how much. */
const addPlaces = (mix: MixProgramme, frame: MixFrame) => {
  const land = frame.lines.map((line, l): [number, number] => [mix.lineColumns[l]!, line.land])
  if (frame.land > 0 && land.some(([, acres]) => acres > 0))
    mix.landRow = addRow(mix, 'land', land, '<=', frame.land)
  const feed = frame.lines.map((line, l): [number, number] => [mix.lineColumns[l]!, line.winterFeed])
  if (frame.winterFeed !== undefined && feed.some(([, each]) => each > 0))
    addRow(mix, 'winter feed', feed, '<=', frame.winterFeed)
  for (const facility of frame.facilities) {
    for (let k = 0; k < 12; k += 1) {
      const terms = frame.lines.flatMap((line, l): Row['terms'] => {
        const each = facility.perUnit.get(line.id)?.[k] ?? 0
        return each > 0 ? [[mix.lineColumns[l]!, each]] : []
      })
      if (terms.length > 0)
        addRow(mix, `${facility.name} in ${monthsInWords([k])}`, terms, '<=', facility.capacity[k]!)
    }
  }
}

const addAim = (mix: MixProgramme, aim: MixAim) => {
  const { programme } = mix
  if (aim.netAtLeast !== undefined)
    mix.netRow = addRow(mix, 'net', mix.netTerms, '>=', aim.netAtLeast + mix.fixedCosts)
  programme.sense = aim.kind === 'most net' ? 'max' : 'min'
  for (const [column, amount] of aim.kind === 'most net' ? mix.netTerms : mix.hourTerms)
    programme.columns[column]!.objective += amount
}

const monthWords = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]

export const monthsInWords = (period: Period): string =>
  period.length === 1
    ? monthWords[period[0]!]!
    : `${monthWords[period[0]!]!.slice(0, 3)}–${monthWords[period.at(-1)!]!.slice(0, 3)}`

const total = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)
const sumOver = (values: readonly number[], months: Period) => months.reduce((sum, k) => sum + values[k]!, 0)
const show = (value: number) => String(Math.round(value * 100) / 100)
