// What a room of the farm says first, in one sentence; null where the plan holds nothing to say it of.

import { type Month, monthName, nameOfMonth } from '#calendar/month.ts'
import { fromTo, spell } from '#calendar/spell.ts'
import { formatDollarsAndCents } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { hourInWords } from './hour-chart.tsx'

export const enterpriseAnswer = (figures: FarmFigures): string | null =>
  figures.lines.every((line) => line.returnPerHour === null) ? null : hourInWords(figures)

/** Where an hour at market leaves most after fees and miles, and where least. */
export function marketAnswer({ markets, year }: Pick<FarmFigures, 'markets' | 'year'>): string | null {
  const ranked = markets
    .flatMap(({ name, perHour, isNamed }) => (perHour === null || !isNamed ? [] : [{ name, perHour }]))
    .sort((a, b) => b.perHour - a.perHour)
  const [best, worst] = [ranked[0], ranked.at(-1)]
  if (!best || !worst) return null
  return best === worst
    ? `In ${year} an hour at ${best.name} leaves ${formatDollarsAndCents(best.perHour)} after fees and miles.`
    : `In ${year} an hour leaves most after fees and miles at ${best.name}, ${formatDollarsAndCents(best.perHour)}, and least at ${worst.name}, ${formatDollarsAndCents(worst.perHour)}.`
}

/** What is bought next, of all that is wanted. */
export function buyingAnswer({ purchases: { queue } }: Pick<FarmFigures, 'purchases'>): string | null {
  const wanted = queue.filter(({ isBought }) => !isBought)
  if (wanted.length === 0) return null
  const [next] = wanted
    .flatMap(({ name, bought }) => (bought === null ? [] : [{ name, bought }]))
    .sort((a, b) => a.bought - b.bought)
  return next === undefined
    ? 'Cash allows nothing on the list within the plan.'
    : `Next comes ${next.name}, in ${monthName(next.bought as Month)}, from the farm’s own cash.`
}

/** When what was put into each herd is back; of more than one the last. */
export function herdAnswer({ herds }: Pick<FarmFigures, 'herds'>): string | null {
  const told = herds.flatMap(({ name, payback }) => (payback === null ? [] : [{ name, ...payback }]))
  if (told.length === 0) return null
  const named = (of: typeof told) => allOf(of.map(({ name }) => name))
  const isOut = told.filter(({ isPutIn, paidBack }) => isPutIn && paidBack === null)
  if (isOut.length > 0) return `The money put into ${named(isOut)} does not come back within 30 years.`
  const back = told.flatMap(({ name, isPutIn, paidBack, monthsToPayBack }) =>
    isPutIn && paidBack !== null ? [{ name, paidBack, monthsToPayBack }] : [],
  )
  const last = back.sort((a, b) => (a.paidBack < b.paidBack ? 1 : -1))[0]
  if (!last)
    return `No money has to come back from ${named(told)}: each pays its own way from the first month.`
  const after =
    last.monthsToPayBack === null ? '' : `, ${spell(last.monthsToPayBack)} after the first of it went in`
  const others = back.length === 1 ? '' : ' That of the others is back before.'
  return `The money put into ${last.name} is back in ${nameOfMonth(last.paidBack)}${after}.${others}`
}

/** What does not fit first, or that all does. */
export function fitAnswer({ fit }: Pick<FarmFigures, 'fit'>): string | null {
  const years = fit.flatMap(({ seasons }) => seasons.map(({ year }) => year))
  if (years.length === 0) return null
  const over = fit
    .flatMap(({ name, firstOver, seasons }) =>
      firstOver === null ? [] : [{ name, ...firstOver, at: seasons.findIndex(({ isOver }) => isOver) }],
    )
    .sort((a, b) => a.at - b.at)
  const [first, ...others] = over
  if (!first)
    return `Everything fits in every season of ${fromTo(String(Math.min(...years)), String(Math.max(...years)))}.`
  const more =
    others.length === 0
      ? ''
      : ` ${others.length} more ${others.length === 1 ? 'does' : 'do'} not fit then or later.`
  return `Does not fit from ${first.season} ${first.year}: ${first.name}.${more}`
}
