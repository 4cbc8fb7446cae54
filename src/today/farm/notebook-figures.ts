// What the notebook's page shows on a day: what was chosen last, clocks that run, sums of the week and the year, and what waits for the table.
import { addDays, type Day, firstDayOfYear, weekdayOf } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import {
  headMoves,
  type KeptMarketDay,
  latestMarketDays,
  listGoods,
  listMarketDays,
  listTrips,
} from '#db/notebook/field-notes.ts'
import {
  latestHours,
  listHours,
  minutesBetween,
  type RunningClock,
  runningClocks,
} from '#db/notebook/hours-store.ts'
import { type NoteKind, notesOfDay } from '#db/notebook/note-rows.ts'
import { waitingMarketDays } from '#db/notebook/settle-market.ts'
import { waitingGoods } from '#db/notebook/settle-notes.ts'
import type { Books } from '#db/open.ts'
import type { HerdKind } from '#farm/herd/herd-document.ts'
import { headsOn } from '#farm/notebook/heads.ts'
import type { HeadClass } from '#farm/notebook/kinds.ts'
import { subjectText } from '#farm/notebook/subject.ts'
import { byPart } from '#kept/by-part.ts'
import { noteSays } from './note-says.ts'
import { type NotebookNames, notebookNames, subjectChoices } from './notebook-names.ts'

export interface WrittenToday {
  kind: NoteKind
  id: string
  says: string
}

export interface NotebookFigures {
  today: Day
  people: readonly { id: string; name: string }[]
  subjects: readonly { value: string; label: string }[]
  /** What this browser, or else anyone, wrote last. */
  last: { person: string; subject: string; minutes: number } | null
  clocks: readonly (RunningClock & { personName: string; subjectName: string; minutes: number })[]
  weekMinutes: number
  herds: readonly {
    id: string
    name: string
    kind: HerdKind
    heads: Partial<Record<HeadClass, number>> | null
  }[]
  markets: readonly { id: string; name: string }[]
  /** The plan that a first market would be named in. */
  plan: { planId: string; revisionNo: number } | null
  enterprises: readonly { id: string; name: string }[]
  lastMarketDay: KeptMarketDay | null
  goods: readonly { value: string; label: string }[]
  kitchenThisYear: number
  milesThisYear: number
  vehicles: readonly string[]
  writtenToday: readonly WrittenToday[]
  waiting: { goods: number; marketDays: number }
}

export const notebookFigures = (books: Books, today: Day, at: string, actor: string): NotebookFigures => {
  const names = notebookNames(books)
  const latest = latestHours(books, 40)
  const mine = latest.find(({ recordedBy }) => recordedBy === actor) ?? latest[0]
  const newYear = firstDayOfYear(yearIn(today))
  return byPart<NotebookFigures>({
    today: () => today,
    people: () => names.people,
    subjects: () =>
      subjectChoices(
        names,
        latest.map(({ subject }) => subject),
      ),
    last: () =>
      mine ? { person: mine.person, subject: subjectText(mine.subject), minutes: mine.minutes } : null,
    clocks: () =>
      runningClocks(books).map((clock) => ({
        ...clock,
        personName: names.ofPerson(clock.person),
        subjectName: names.ofSubject(clock.subject),
        minutes: minutesBetween(clock.startedAt, at),
      })),
    weekMinutes: () => minutesOf(books, mondayOf(today), today),
    herds: () => {
      const moves = headMoves(books, today)
      return names.herds.map(({ id, name, kind }) => ({ id, name, kind, heads: headsOn(moves, id, today) }))
    },
    markets: () => names.markets,
    plan: () => names.plan,
    enterprises: () => sellersOf(names),
    lastMarketDay: () => latestMarketDays(books, 1)[0] ?? null,
    goods: () => goodsChoices(names),
    kitchenThisYear: () => listGoods(books, newYear, today).filter(({ kind }) => kind === 'kitchen').length,
    milesThisYear: () =>
      [...listTrips(books, newYear, today), ...listMarketDays(books, newYear, today)].reduce(
        (sum, { miles }) => sum + (miles ?? 0),
        0,
      ),
    vehicles: () => [
      ...new Set(
        listTrips(books, addDays(today, -730), today)
          .map(({ vehicle }) => vehicle)
          .reverse(),
      ),
    ],
    writtenToday: () => writtenOn(books, names, today),
    waiting: () => ({ goods: waitingGoods(books).length, marketDays: waitingMarketDays(books).length }),
  })
}

/** Weeks begin on Monday. */
export const mondayOf = (day: Day): Day => addDays(day, -((weekdayOf(day) + 6) % 7))

/** Hours of everybody, those of market days with them. */
export const minutesOf = (books: Books, from: Day, to: Day): number =>
  [...listHours(books, from, to), ...listMarketDays(books, from, to)].reduce(
    (sum, { minutes }) => sum + (minutes ?? 0),
    0,
  )

/** What goods may be of: open batches, enterprises, and what herds and flocks give, like eggs. Heads have a form of their own. */
const goodsChoices = (names: NotebookNames) => [
  ...subjectChoices(names, []).filter(({ value }) => value.startsWith('batch:')),
  ...sellersOf(names).map(({ id, name }) => ({ value: `enterprise:${id}`, label: name })),
]

/** All that sells, by its tag in the books. */
const sellersOf = ({ enterprises, herds }: NotebookNames): { id: string; name: string }[] => [
  ...enterprises.map(({ id, name }) => ({ id, name })),
  ...herds.map(({ tag, name }) => ({ id: tag, name })),
]

const writtenOn = (books: Books, names: NotebookNames, today: Day): WrittenToday[] =>
  notesOfDay(books, today).map((note) => ({
    kind: note.kind,
    id: note.row.id,
    says: noteSays(names, note),
  }))
