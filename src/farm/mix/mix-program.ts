// Writes the mix as a mixed-integer program: scales, whole trips by season, what each market sells, hired hours.

import type { Row } from '#farm/program.ts'
import type { MixFrame, MixMarket, Period } from './mix-frame.ts'
import { addHours } from './mix-hours.ts'
import {
  addColumn,
  addRow,
  emptyMix,
  type MixAim,
  type MixProgram,
  monthsInWords,
  show,
  sumOver,
  total,
} from './mix-parts.ts'
import { addSales } from './mix-sales.ts'

export const writeMix = (
  frame: MixFrame,
  periods: readonly Period[],
  seasons: readonly Period[],
  aim: MixAim,
): MixProgram => {
  const mix = emptyMix(frame)
  addLines(mix, frame, aim)
  addTrips(mix, frame, seasons, aim)
  addSales(mix, frame, periods, seasons)
  addHours(mix, frame, periods, seasons)
  addPlaces(mix, frame)
  addAim(mix, aim)
  return mix
}

/** Limits of a line are rows, so that a clash can name them. Fixed hours hang on a whole 0-or-1 column. */
const addLines = (mix: MixProgram, frame: MixFrame, aim: MixAim) => {
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

const addTrips = (mix: MixProgram, frame: MixFrame, seasons: readonly Period[], aim: MixAim) => {
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
      addOpening(mix, market, season, column, most, fixed === true)
    })
  })
}

/** A whole 0-or-1 column where a season's fees, or a least number of trips, hang on the market being run at all. */
const addOpening = (
  mix: MixProgram,
  market: MixMarket,
  season: Period,
  column: number,
  most: number,
  fixed: boolean,
) => {
  const fees = sumOver(
    market.feePerMonth,
    season.filter((k) => market.full[k]! > 0),
  )
  const least = fixed ? 0 : Math.floor(market.leastShareWhenRun * most)
  if (fees <= 0 && least <= 0) return
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
  if (least > 0)
    addRow(
      mix,
      `${market.name} run`,
      [
        [column, 1],
        [open, -least],
      ],
      '>=',
      0,
      true,
    )
  mix.netTerms.push([open, -fees])
}

/** Land, winter feed, facilities. Land not used is leased out where the plan says for how much. */
const addPlaces = (mix: MixProgram, frame: MixFrame) => {
  const land = frame.lines.map((line, l): [number, number] => [mix.lineColumns[l]!, line.land])
  if (frame.land > 0 && land.some(([, acres]) => acres > 0))
    mix.landRow = addRow(mix, 'land', land, '<=', frame.land)
  const feed = frame.lines.map((line, l): [number, number] => [mix.lineColumns[l]!, line.winterFeed])
  if (frame.winterFeed !== undefined && feed.some(([, each]) => each > 0))
    addRow(mix, 'winter feed', feed, '<=', frame.winterFeed)
  for (const facility of frame.facilities) {
    for (let k = 0; k < 12; k += 1) {
      const terms = frame.lines.flatMap((line, l): Row['terms'] => {
        const each = (facility.perUnit.get(line.id)?.[k] ?? 0) * line.standing[k]!
        return each > 0 ? [[mix.lineColumns[l]!, each]] : []
      })
      if (terms.length > 0)
        addRow(mix, `${facility.name} in ${monthsInWords([k])}`, terms, '<=', facility.capacity[k]!)
    }
  }
}

const addAim = (mix: MixProgram, aim: MixAim) => {
  const { program } = mix
  if (aim.netAtLeast !== undefined)
    mix.netRow = addRow(mix, 'net', mix.netTerms, '>=', aim.netAtLeast + mix.fixedCosts)
  program.sense = aim.kind === 'most net' ? 'max' : 'min'
  for (const [column, amount] of aim.kind === 'most net' ? mix.netTerms : mix.hourTerms)
    program.columns[column]!.objective += amount
}
