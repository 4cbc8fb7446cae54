// Hours of the farm: written as a total or by a clock that runs, read by days.
import { and, asc, between, desc, eq, isNotNull, isNull, or, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { Subject } from '#farm/notebook/subject.ts'
import { hoursText } from '#farm/notebook/words.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import type { Cents } from '#money/cents.ts'
import { listMarketDays } from './field-notes.ts'
import { writeNote, writtenBy } from './note-rows.ts'
import { workHours } from './schema-notes.ts'

export interface NewHours {
  day: Day
  /** Short name of a person of the plan, or the name of a hired hand. */
  person: string
  hired: boolean
  subject: Subject
  minutes: number
  payCents: Cents | null
  note: string
}

export interface KeptHours extends NewHours {
  id: string
  recordedAt: string
}

export const writeHours = (books: Books, act: Act, hours: NewHours): Outcome<{ id: string }> =>
  writeNote(books, act, 'hours', hours, () => {
    const { subject, ...rest } = hours
    const before = minutesOfPerson(books, hours)
    if (before + hours.minutes > minutesOfDay)
      return [
        {
          path: 'time',
          message: `With ${hoursText(before)} hours written down already that day would have more than 24. Correct the hours or the day`,
        },
      ]
    books.db
      .insert(workHours)
      .values({ id: act.formId, ...rest, ...columnsOf(subject), ...writtenBy(act) })
      .run()
    return []
  })

/** What a person has of a day already, the part in its market days too. */
const minutesOfPerson = (books: Books, { day, person }: NewHours): number =>
  listHours(books, day, day)
    .filter((one) => one.person === person)
    .reduce((sum, { minutes }) => sum + minutes, 0) +
  listMarketDays(books, day, day)
    .filter(({ people }) => people.includes(person))
    .reduce((sum, { minutes, people }) => sum + Math.floor((minutes ?? 0) / people.length), 0)

export interface RunningClock {
  id: string
  person: string
  subject: Subject
  /** Instant, UTC. */
  startedAt: string
  day: Day
}

export const runningClocks = (books: Books): RunningClock[] =>
  books.db
    .select()
    .from(workHours)
    .where(isNull(workHours.minutes))
    .orderBy(asc(workHours.startedAt))
    .all()
    .map((row) => ({
      id: row.id,
      person: row.person,
      subject: subjectOf(row),
      startedAt: row.startedAt!,
      day: row.day,
    }))

/** One clock a person: a second one is refused while the first runs. */
export const startClock = (
  books: Books,
  act: Act,
  clock: { day: Day; person: string; hired: boolean; subject: Subject },
): Outcome<{ id: string }> =>
  writeNote(books, act, 'hours', clock, () => {
    const { subject, ...rest } = clock
    if (runningClocks(books).some(({ person }) => person === clock.person))
      return [{ path: 'person', message: 'A clock runs already. Stop it first, then start the next' }]
    books.db
      .insert(workHours)
      .values({ id: act.formId, ...rest, ...columnsOf(subject), startedAt: act.at, ...writtenBy(act) })
      .run()
    return []
  })

const minutesOfDay = 24 * 60

/** Minutes since the start, at least one; a clock left running for more than a day is asked to be written as a total. */
export const stopClock = (books: Books, act: Act, id: string): Outcome<{ minutes: number }> =>
  once(books, act, 'clock.stop', { id }, () => {
    const clock = runningClocks(books).find((one) => one.id === id)
    if (!clock) return refuse({ path: '', message: 'That clock was stopped already. Open the page again' })
    const minutes = minutesBetween(clock.startedAt, act.at)
    if (minutes > minutesOfDay)
      return refuse({
        path: '',
        message: 'This clock ran for more than a day. Throw it away and write the hours as a total',
      })
    books.db.update(workHours).set({ minutes }).where(eq(workHours.id, id)).run()
    logChange(books, act, {
      kind: 'clock.stopped',
      subject: id,
      sideId: 'farm',
      summary: 'A clock was stopped, and its hours are written down',
    })
    return { ok: true, result: { minutes } }
  })

export const minutesBetween = (startedAt: string, at: string): number =>
  Math.max(1, Math.round((Date.parse(at) - Date.parse(startedAt)) / 60_000))

/** Both days included, oldest first; a clock that runs is not in it. */
export const listHours = (books: Books, from: Day, to: Day): KeptHours[] =>
  books.db
    .select()
    .from(workHours)
    .where(and(between(workHours.day, from, to), isNotNull(workHours.minutes)))
    .orderBy(asc(workHours.day), asc(workHours.recordedAt))
    .all()
    .map(keptHours)

export interface BatchWork {
  batchId: string
  day: Day
  hired: boolean
  minutes: number
  payCents: Cents | null
}

/** All that was worked for batches, oldest first. */
export const batchWork = (books: Books): BatchWork[] =>
  books.db
    .select({
      batchId: sql<string>`${workHours.batchId}`,
      day: workHours.day,
      hired: workHours.hired,
      minutes: sql<number>`${workHours.minutes}`,
      payCents: workHours.payCents,
    })
    .from(workHours)
    .where(and(isNotNull(workHours.batchId), isNotNull(workHours.minutes)))
    .orderBy(asc(workHours.day))
    .all()

/** Hours written for an enterprise, or for a herd of it, that a batch of it turns out to have had. */
export const tieHours = (
  books: Books,
  act: Act,
  tie: { batchId: string; enterpriseId: string; herdIds: readonly string[]; ids: readonly string[] },
): Outcome<{ tied: number }> =>
  once(books, act, 'batch.tie-hours', { batchId: tie.batchId, ids: tie.ids }, () => {
    const { batchId, enterpriseId, herdIds, ids } = tie
    const tied = books.db
      .update(workHours)
      .set({ batchId, enterpriseId: null, herdId: null })
      .where(
        and(
          isAmong(workHours.id, ids),
          or(eq(workHours.enterpriseId, enterpriseId), isAmong(workHours.herdId, herdIds)),
        ),
      )
      .returning({ id: workHours.id })
      .all().length
    if (tied !== new Set(ids).size)
      return refuse({
        path: '',
        message: 'Some of these hours are for something else now. Open the page again',
      })
    logChange(books, act, {
      kind: 'batch.hours-tied',
      subject: batchId,
      sideId: 'farm',
      summary: 'Hours of an enterprise were tied to a batch of it',
      details: { ids },
    })
    return { ok: true, result: { tied } }
  })

/** The newest hours first, whoever wrote them: what was chosen last is offered first. */
export const latestHours = (books: Books, limit: number): (KeptHours & { recordedBy: string })[] =>
  books.db
    .select()
    .from(workHours)
    .where(isNotNull(workHours.minutes))
    .orderBy(desc(workHours.recordedAt), desc(workHours.id))
    .limit(limit)
    .all()
    .map((row) => ({ ...keptHours(row), recordedBy: row.recordedBy }))

type Row = typeof workHours.$inferSelect

const keptHours = (row: Row): KeptHours => ({
  id: row.id,
  day: row.day,
  person: row.person,
  hired: row.hired,
  subject: subjectOf(row),
  minutes: row.minutes!,
  payCents: row.payCents,
  note: row.note,
  recordedAt: row.recordedAt,
})

const columnsOf = ({ kind, id }: Subject) => ({
  enterpriseId: kind === 'enterprise' ? id : null,
  herdId: kind === 'herd' ? id : null,
  batchId: kind === 'batch' ? id : null,
  marketId: kind === 'market' ? id : null,
})

export const subjectOf = (row: Pick<Row, 'enterpriseId' | 'herdId' | 'batchId' | 'marketId'>): Subject => {
  if (row.enterpriseId !== null) return { kind: 'enterprise', id: row.enterpriseId }
  if (row.herdId !== null) return { kind: 'herd', id: row.herdId }
  if (row.batchId !== null) return { kind: 'batch', id: row.batchId }
  if (row.marketId !== null) return { kind: 'market', id: row.marketId }
  return { kind: 'overhead', id: '' }
}
