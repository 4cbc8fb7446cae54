// What the sample family wrote down in the field: hours, heads, Saturdays, miles, two years of lambs and a summer of flowers. All invented.
import { addDays, type Day, day, monthOfDay, weekdayOf } from '#calendar/day.ts'
import { monthOfYear } from '#calendar/month.ts'
import { allUntiedLines, tieLines } from '#db/notebook/batch-lines.ts'
import type { BatchRest } from '#db/notebook/batch-rest.ts'
import { changeBatch, startBatch, writeMark } from '#db/notebook/batch-store.ts'
import { writeGoods, writeHeads, writeMarketDay, writeTrip } from '#db/notebook/field-notes.ts'
import { writeHours } from '#db/notebook/hours-store.ts'
import type { BatchDraft } from '#db/notebook/schema-batches.ts'
import { settleMarketDay } from '#db/notebook/settle-market.ts'
import type { HeadClass, HeadKind } from '#farm/notebook/kinds.ts'
import type { Subject } from '#farm/notebook/subject.ts'
import type { Outcome } from '#ledger/problem.ts'
import { cents } from '#money/cents.ts'
import { type Dice, throwDice } from './sample-dice.ts'
import type { YearEndGround } from './year-ends.ts'

/** The last day they wrote before the sample opens. */
const lastDay = day('2026-11-24')

export const writeNotebook = (ground: YearEndGround): void => {
  const dice = throwDice(1911)
  const batches = writeBatches(ground)
  writeWork(ground, dice, batches)
  writeFlock(ground, batches.lambsSold)
  writeSaturdays(ground, dice)
  writeMiles(ground)
  writeGoodsGiven(ground)
}

interface Batches {
  flowers: string
  lambs: string
  lambsSold: number
}

const writeBatches = (ground: YearEndGround): Batches => {
  const ofBefore: BatchDraft = {
    enterpriseId: 'sheep',
    name: 'Lambs of 2025',
    startedDay: day('2025-04-12'),
    endedDay: day('2025-11-08'),
    size: 13,
    unit: 'lambs',
    place: 'East pasture',
    hopedPriceCents: cents(315_00),
    note: '',
  }
  const before = batch(ground, ofBefore)
  mark(ground, before.id, '2025-04-19', 'lost', 2)
  mark(ground, before.id, '2025-11-01', 'sold', before.sales)
  end(ground, before.id, ofBefore, { sold: 0, lost: 0, kitchen: 0, kept: 11 - before.sales })
  const lambs = batch(ground, {
    enterpriseId: 'sheep',
    name: 'Lambs of 2026',
    startedDay: day('2026-04-08'),
    endedDay: null,
    size: 26,
    unit: 'lambs',
    place: 'East pasture',
    hopedPriceCents: cents(325_00),
    note: 'What is left: ewe lambs to keep',
  })
  mark(ground, lambs.id, '2026-04-11', 'lost', 2)
  mark(ground, lambs.id, '2026-05-21', 'lost', 1)
  mark(ground, lambs.id, '2026-10-24', 'sold', lambs.sales)
  const ofFlowers: BatchDraft = {
    enterpriseId: 'flowers',
    name: 'Cut flowers 2026',
    startedDay: day('2026-02-06'),
    endedDay: day('2026-10-10'),
    size: 5,
    unit: 'beds',
    place: 'South beds',
    hopedPriceCents: null,
    note: 'Hail in June took half',
  }
  const flowers = batch(ground, ofFlowers)
  mark(ground, flowers.id, '2026-06-14', 'lost', 2)
  end(ground, flowers.id, ofFlowers, { sold: 3, lost: 0, kitchen: 0, kept: 0 })
  return { flowers: flowers.id, lambs: lambs.id, lambsSold: lambs.sales }
}

/** Starts the batch and ties what was booked for its enterprise in its days, nothing of what serves the whole farm; `sales` counts the lines that came in. */
const batch = (ground: YearEndGround, draft: BatchDraft): { id: string; sales: number } => {
  const { books } = ground
  const { batchId } = done(startBatch(books, ground.act(draft.startedDay), { ...draft, endedDay: null }))
  const lines = allUntiedLines(books, draft.enterpriseId, draft.startedDay).filter(
    (line) => line.enterpriseId === draft.enterpriseId && line.day <= (draft.endedDay ?? lastDay),
  )
  done(
    tieLines(books, ground.act(draft.endedDay ?? lastDay), {
      batchId,
      postingIds: lines.map(({ postingId }) => postingId),
    }),
  )
  return { id: batchId, sales: lines.filter(({ accountKind }) => accountKind === 'income').length }
}

const end = ({ books, act }: YearEndGround, id: string, draft: BatchDraft, rest: BatchRest): void => {
  done(changeBatch(books, act(draft.endedDay!), { id, basedOn: 1, draft, rest }))
}

const mark = (
  { books, act }: YearEndGround,
  batchId: string,
  on: string,
  kind: 'lost' | 'sold',
  quantity: number,
): void => {
  const written = { batchId, day: day(on), kind, quantity, pounds: null, marketId: null, note: '' }
  done(writeMark(books, act(on), written))
}

/** Hours a week by month, January first: near what the plan counts on. */
const weeks: readonly { of: Subject; by: string; hours: readonly number[] }[] = [
  {
    of: { kind: 'enterprise', id: 'vegetables' },
    by: 'teo',
    hours: [1, 3, 8, 13, 15, 17, 17, 16, 13, 9, 4, 1],
  },
  {
    of: { kind: 'enterprise', id: 'shares' },
    by: 'mara',
    hours: [3, 5, 10, 16, 19, 20, 20, 19, 17, 11, 3, 2],
  },
  { of: { kind: 'enterprise', id: 'flowers' }, by: 'mara', hours: [0, 1, 2, 3, 4, 5, 5, 5, 4, 2, 0, 0] },
  { of: { kind: 'enterprise', id: 'honey' }, by: 'teo', hours: [0, 1, 2, 4, 5, 4, 4, 6, 3, 1, 1, 0] },
  { of: { kind: 'herd', id: 'sheep' }, by: 'teo', hours: [5, 5, 6, 8, 4, 3, 3, 3, 3, 4, 4, 5] },
  { of: { kind: 'overhead', id: '' }, by: 'mara', hours: [3, 3, 2, 2, 2, 2, 2, 2, 2, 2, 3, 3] },
]

/** A line for each thing a week, the day moving along; hired help on Wednesdays in summer. */
const writeWork = ({ books, act }: YearEndGround, dice: Dice, batches: Batches): void => {
  const rest = { hired: false, payCents: null, note: '' }
  for (let monday = day('2026-01-05'); monday <= lastDay; monday = addDays(monday, 7)) {
    const at = monthOfYear(monthOfDay(monday)) - 1
    for (const [index, { of, by, hours }] of weeks.entries()) {
      const on = addDays(monday, index)
      const minutes = Math.round((hours[at]! * dice.whole(48, 72)) / 15) * 15
      if (minutes === 0 || on > lastDay) continue
      const subject = subjectOn(of, on, batches)
      done(writeHours(books, act(on), { ...rest, day: on, person: by, subject, minutes }))
    }
    if (at < 5 || at > 7) continue
    const on = addDays(monday, 2)
    const subject = { kind: 'enterprise', id: 'vegetables' } as const
    const hand = {
      day: on,
      person: 'Asa',
      hired: true,
      subject,
      minutes: 240,
      payCents: cents(68_00),
      note: '',
    }
    done(writeHours(books, act(on), hand))
  }
}

/** What was a batch's is written for it. */
const subjectOn = (of: Subject, on: Day, batches: Batches): Subject => {
  if (of.id === 'flowers' && on >= '2026-02-06' && on <= '2026-10-10')
    return { kind: 'batch', id: batches.flowers }
  return of.id === 'sheep' && on >= '2026-04-08' && on <= '2026-10-31'
    ? { kind: 'batch', id: batches.lambs }
    : of
}

/** Counted when the ewes go to the ram and after lambing, as the plan has them too: a count that says otherwise would start the plan's flock anew. */
const writeFlock = ({ books, act }: YearEndGround, lambsSold: number): void => {
  const heads: readonly [string, HeadKind, HeadClass, number][] = [
    ['2025-11-15', 'counted', 'females', 12],
    ['2025-11-15', 'counted', 'males', 1],
    ['2026-02-17', 'died', 'females', 1],
    ['2026-04-08', 'born', 'young', 12],
    ['2026-04-10', 'born', 'young', 9],
    ['2026-04-11', 'died', 'young', 2],
    ['2026-04-15', 'born', 'young', 5],
    ['2026-05-01', 'counted', 'females', 11],
    ['2026-05-21', 'died', 'young', 1],
    ['2026-10-24', 'sold', 'young', lambsSold],
  ]
  for (const [on, kind, headClass, count] of heads)
    done(writeHeads(books, act(on), { day: day(on), herdId: 'sheep', kind, headClass, count, note: '' }))
}

/** Each Saturday of the season: cards as the bank shows them a few days later, cash beside them. */
const writeSaturdays = (ground: YearEndGround, dice: Dice): void => {
  const { books } = ground
  const cards = books.sqlite.prepare(
    `SELECT sum(amount_cents) FROM statement_lines WHERE payee LIKE '%SATURDAY MARKET%' AND day BETWEEN ? AND ?`,
  )
  const sales = ground.account('farm', 'Vegetables and fruit sold')
  for (let on = day('2026-05-02'); on <= '2026-11-21'; on = addDays(on, 7)) {
    if (weekdayOf(on) !== 6) throw new Error(`Not a Saturday: ${on}`)
    const card = (cards.pluck().get(on, addDays(on, 6)) as number | null) ?? dice.around(340, 0.2)
    const cash = Math.round(dice.around(110, 0.3) / 100) * 100
    const { id } = done(
      writeMarketDay(books, ground.act(on), {
        day: on,
        marketId: 'saturday',
        minutes: dice.whole(46, 52) * 15,
        people: dice.whole(1, 3) === 1 ? ['mara'] : ['mara', 'teo'],
        miles: dice.whole(1, 6) === 1 ? 51 : 44,
        feeCents: cents(28_00),
        note: '',
        takings: [
          { enterpriseId: '', means: 'card', amountCents: cents(card) },
          { enterpriseId: 'vegetables', means: 'cash', amountCents: cents(cash) },
        ],
      }),
    )
    const settle = {
      id,
      cashAccountId: null,
      sales: [{ accountId: sales, batchId: null }],
      fee: { how: 'line' } as const,
      payee: 'Saturday market',
    }
    if (on < '2026-11-14') done(settleMarketDay(books, ground.act(addDays(on, 1)), settle))
  }
}

const writeMiles = ({ books, act }: YearEndGround): void => {
  const reading = (on: string, odometer: number) =>
    done(
      writeTrip(books, act(on), {
        day: day(on),
        kind: 'reading',
        vehicle: 'Van',
        miles: null,
        odometer,
        purpose: '',
      }),
    )
  reading('2026-03-09', 84_210)
  for (const month of ['04', '05', '06', '07', '08', '09', '10', '11'])
    done(
      writeTrip(books, act(`2026-${month}-11`), {
        day: day(`2026-${month}-11`),
        kind: 'farm',
        vehicle: 'Van',
        miles: 36,
        odometer: null,
        purpose: 'Feed and supplies',
      }),
    )
  reading('2026-11-01', 88_460)
}

/** They wait for the table at home. */
const writeGoodsGiven = ({ books, act }: YearEndGround): void => {
  const rest = { batchId: null, herdId: null, headClass: null }
  done(
    writeGoods(books, act('2026-11-19'), {
      ...rest,
      day: day('2026-11-19'),
      kind: 'kitchen',
      what: 'vegetables',
      enterpriseId: 'vegetables',
      quantity: 2,
      unit: 'boxes',
      unitPriceCents: cents(12_00),
      tradedFor: '',
    }),
  )
  done(
    writeGoods(books, act('2026-11-21'), {
      ...rest,
      day: day('2026-11-21'),
      kind: 'bartered',
      what: 'honey',
      enterpriseId: 'honey',
      quantity: 6,
      unit: 'jars',
      unitPriceCents: cents(12_00),
      tradedFor: 'a neighbor’s firewood',
    }),
  )
}

const done = <Result>(outcome: Outcome<Result>): Result => {
  if (!outcome.ok)
    throw new Error(`The sample’s notebook cannot be written: ${JSON.stringify(outcome.problems)}`)
  return outcome.result
}
