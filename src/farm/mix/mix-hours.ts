// The work part of the mix: hours by period against the crew's and hired hours, and against each person's own where work is theirs.

import type { Row } from '#farm/program.ts'
import { weightOf } from '#farm/work-months.ts'
import type { MixFrame, MixLine, Period } from './mix-frame.ts'
import { addColumn, addRow, type MixProgram, monthsInWords, sumOver, total, tripColumn } from './mix-parts.ts'

export const addHours = (
  mix: MixProgram,
  frame: MixFrame,
  periods: readonly Period[],
  seasons: readonly Period[],
) => {
  const keeps = frame.lines.map((line, l) => keepColumn(mix, line, mix.lineColumns[l]!))
  for (const period of periods) {
    const season = seasons.findIndex((one) => period.every((k) => one.includes(k)))
    const hired = addColumn(mix, { upper: sumOver(frame.hired.hours, period) })
    mix.hiredColumns.push(hired)
    // What is promised costs the same whatever the mix; an hour of it more or less changes nothing.
    if (frame.hired.isPromised) mix.fixedCosts += sumOver(frame.hired.hours, period) * frame.hired.hourlyCost
    else mix.netTerms.push([hired, -frame.hired.hourlyCost])
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
const keepColumn = (mix: MixProgram, line: MixLine, column: number): number | null => {
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
  mix: MixProgram,
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
  return whole > 0 ? weightOf(weights, who) / whole : 0
}
