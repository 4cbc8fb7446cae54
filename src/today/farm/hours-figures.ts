// Hours as they were worked: a week by day and person, the seasons of a year by what they were for, sales per market hour.
import { addDays, type Day, firstDayOfYear, lastDayOfYear, monthOfDay } from '#calendar/day.ts'
import { monthOfYear, yearIn } from '#calendar/month.ts'
import { type KeptMarketDay, listMarketDays } from '#db/notebook/field-notes.ts'
import { listHours } from '#db/notebook/hours-store.ts'
import type { Books } from '#db/open.ts'
import { byPart } from '#kept/by-part.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import { mondayOf } from './notebook-figures.ts'
import { notebookNames } from './notebook-names.ts'

export interface WorkedRow {
  /** Null for hours of a market day, which stand with its takings. */
  id: string | null
  day: Day
  person: string
  what: string
  minutes: number
  payCents: Cents | null
  note: string
}

export interface SeasonRow {
  what: string
  /** Winter (December to February), spring, summer, fall. */
  minutes: readonly [number, number, number, number]
  total: number
}

export interface MarketRow {
  market: string
  days: number
  takenCents: Cents
  minutes: number
  /** Taken an hour, fees and miles not yet off. */
  perHourCents: Cents | null
  feesCents: Cents
  miles: number
}

export interface HoursFigures {
  monday: Day
  before: Day
  after: Day
  days: readonly Day[]
  people: readonly { name: string; minutes: readonly number[]; total: number }[]
  rows: readonly WorkedRow[]
  year: number
  seasons: readonly SeasonRow[]
  markets: readonly MarketRow[]
}

export const hoursFigures = (books: Books, week: Day): HoursFigures => {
  const monday = mondayOf(week)
  const days = Array.from({ length: 7 }, (_, at) => addDays(monday, at))
  const year = yearIn(week)
  const rows = workedRows(books, monday, days[6]!)
  const [first, last] = [firstDayOfYear(year), lastDayOfYear(year)]
  return byPart<HoursFigures>({
    monday: () => monday,
    before: () => addDays(monday, -7),
    after: () => addDays(monday, 7),
    days: () => days,
    people: () =>
      [...new Set(rows.map(({ person }) => person))].map((name) => {
        const mine = rows.filter(({ person }) => person === name)
        return {
          name,
          minutes: days.map((day) => sumOf(mine.filter((row) => row.day === day))),
          total: sumOf(mine),
        }
      }),
    rows: () => rows,
    year: () => year,
    seasons: () => seasonRows(workedRows(books, first, last)),
    markets: () => marketRows(books, listMarketDays(books, first, last)),
  })
}

const sumOf = (rows: readonly { minutes: number }[]): number =>
  rows.reduce((sum, { minutes }) => sum + minutes, 0)

/** Hours written down, and those of market days: of each who sold an equal part, to the minute. */
export const workedRows = (books: Books, from: Day, to: Day): WorkedRow[] => {
  const names = notebookNames(books)
  const written = listHours(books, from, to).map(({ id, day, person, subject, minutes, payCents, note }) => ({
    id,
    day,
    person: names.ofPerson(person),
    what: names.ofSubject(subject),
    minutes,
    payCents,
    note,
  }))
  const atMarket = listMarketDays(books, from, to).flatMap(({ day, marketId, minutes, people }) =>
    sharesOf(minutes ?? 0, Math.max(1, people.length)).map((part, at) => ({
      id: null,
      day,
      person: people[at] === undefined ? 'Not entered who' : names.ofPerson(people[at]),
      what: names.ofMarket(marketId),
      minutes: part,
      payCents: null,
      note: 'market day',
    })),
  )
  return [...written, ...atMarket]
    .filter(({ minutes }) => minutes > 0)
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
}

const sharesOf = (minutes: number, count: number): number[] => {
  const each = Math.floor(minutes / count)
  return Array.from({ length: count }, (_, at) => each + (at < minutes - each * count ? 1 : 0))
}

const seasonRows = (rows: readonly WorkedRow[]): SeasonRow[] =>
  [...new Set(rows.map(({ what }) => what))]
    .map((what): SeasonRow => {
      const mine = rows.filter((row) => row.what === what)
      const minutes = [0, 1, 2, 3].map((season) =>
        sumOf(mine.filter(({ day }) => seasonOf(day) === season)),
      ) as unknown as SeasonRow['minutes']
      return { what, minutes, total: sumOf(mine) }
    })
    .sort((a, b) => b.total - a.total)

/** 0 for December to February … 3 for September to November. */
const seasonOf = (day: Day): number => Math.floor((monthOfYear(monthOfDay(day)) % 12) / 3)

const marketRows = (books: Books, days: readonly KeptMarketDay[]): MarketRow[] => {
  const names = notebookNames(books)
  return [...new Set(days.map(({ marketId }) => marketId))].map((id) => {
    const mine = days.filter(({ marketId }) => marketId === id)
    const timed = mine.filter(({ minutes }) => minutes !== null)
    const minutes = timed.reduce((sum, one) => sum + one.minutes!, 0)
    return {
      market: names.ofMarket(id),
      days: mine.length,
      takenCents: takenOf(mine),
      minutes,
      perHourCents:
        minutes > 0
          ? cents(new Decimal(takenOf(timed)).times(60).dividedBy(minutes).toDecimalPlaces(0).toNumber())
          : null,
      feesCents: sumCents(mine.map(({ feeCents }) => feeCents ?? cents(0))),
      miles: mine.reduce((sum, one) => sum + (one.miles ?? 0), 0),
    }
  })
}

const takenOf = (days: readonly KeptMarketDay[]): Cents =>
  sumCents(days.flatMap(({ takings }) => takings.map(({ amountCents }) => amountCents)))
