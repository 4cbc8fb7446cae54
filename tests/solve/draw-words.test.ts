// What the answer about draws says of steps beside one level, and of what is worse with either. Figures of a farm of our own invention.
import { expect, test } from 'vitest'
import { type Month, month } from '#calendar/month.ts'
import type { ComparedDraws, Draw } from '#solve/draw-answer.ts'
import { sayDraw } from '#solve/draw-words.ts'

const firstMonth: Month = month(2026, 11)
/** January 2036. */
const until = 110

type Steps = [from: string, perMonth: number][]

const rowOf = (as: ComparedDraws['as'], steps: Steps, floor: number, more: Partial<ComparedDraws> = {}) =>
  ({
    as,
    draw: {
      policy: 'steps',
      steps: steps.map(([from, perMonth]) => ({ from, perMonth })),
      growth: 0,
      withPrices: true,
    },
    standing: {
      held: { share: 1 },
      aboveFloor: { share: floor },
      monthsLeft: { median: 38 },
      atEnd: { median: 70_000 },
    },
    worse: false,
    worseIn: null,
    ...more,
  }) as ComparedDraws

const amount = (value: number) => ({ value, low: value, high: value })

const told = (
  level: Steps,
  steps: Steps,
  more: Partial<ComparedDraws> = {},
  ofLevel: Partial<ComparedDraws> = {},
  starts: Draw['starts'] = [],
) => {
  const monthsTo = (text: string) => Number(text.slice(0, 4)) * 12 + Number(text.slice(5)) - 1 - firstMonth
  const [first, after] = level
  const of: Pick<Draw, 'answer' | 'starts' | 'untilMonth' | 'compared'> = {
    answer: {
      kind: 'reached',
      fromMonth: monthsTo(first![0]),
      level: amount(first![1]),
      paths: 400,
      after: after ? { fromMonth: monthsTo(after[0]), level: amount(after[1]), paths: 400 } : null,
      steps: steps.map(([from, perMonth]) => ({ fromMonth: monthsTo(from), perMonth })),
      paidInWorstYear: 0.9,
    },
    starts,
    untilMonth: until,
    compared: [
      rowOf('plan', [['2026-11', 3000]], 0.34),
      rowOf('level', level, 0.95, ofLevel),
      rowOf('steps', steps, 0.95, more),
    ],
  }
  return sayDraw(of, { firstMonth, months: 400 }, 0.9, after !== undefined)
}

const begun = (fromMonth: number, value: number, paths = 400): Draw['starts'][number] => ({
  fromMonth,
  level: amount(value),
  paths,
})

/** All that follows the answer. */
const said = (...of: Parameters<typeof told>): string => told(...of).more.join(' ')

test('where the level begins later, what can be drawn now is told first, and only once', () => {
  const level = [['2029-01', 1900]] as Steps
  const at = (starts: Draw['starts']) => told(level, level, {}, {}, starts)
  const some = at([begun(0, 640, 40), begun(14, 1100, 40), begun(26, 1900)])
  expect(some.sentence).toBe(
    'The farm can pay draws of about $640 a month from now on to the end of the plan, rising with prices, or $1,900 a month from January 2029.',
  )
  expect(some.more.join(' ')).toContain(
    'Begun at other times, from 40 simulations: $1,100 from January 2028.',
  )
  expect(at([begun(0, 0), begun(26, 1900)]).sentence).toBe(
    'The farm can pay no draws that begin now; it can pay $1,900 a month from January 2029 to the end of the plan, rising with prices.',
  )
})

test('the answer is one sentence: the level and its months, and that the plan does better or the floor is not kept', () => {
  const level: Steps = [
    ['2027-01', 2374],
    ['2036-01', 700],
  ]
  const { sentence, more } = told(level, level)
  expect(sentence).toBe(
    'The farm can pay draws of $2,374 a month from January 2027 until January 2036, rising with prices.',
  )
  expect(more[0]).toBe('The farm keeps its reserve then in 90% of simulations. Margin of error: $2,374.')
  expect(more[1]).toBe('From January 2036 on, in the slower years, it can pay $700.')
  const steps = [['2026-11', 1500]] as Steps
  expect(
    told(steps, steps, {}, { worse: true, worseIn: 'floor', standing: standing(1, 0.3, 38) }).sentence,
  ).toBe(
    'The farm can pay draws of $1,500 a month from November 2026 to the end of the plan, rising with prices, but today’s plan does better.',
  )
  expect(told(steps, steps, {}, { standing: standing(1, 0.34, 38) }).sentence).toMatch(
    /, but savings do not stay above the floor\.$/,
  )
})

test('steps that bring more and then less say both', () => {
  expect(
    said(
      [
        ['2027-01', 2374],
        ['2036-01', 2088],
      ],
      [
        ['2026-11', 880],
        ['2028-01', 4950],
        ['2036-01', 1590],
      ],
    ),
  ).toContain(
    'By steps it can pay $880 from November 2026, $4,950 from January 2028, $1,590 from January 2036: more in all until January 2036 than one level, and less from then on; each year’s draws',
  )
})

test('steps that are the one level say that they bring nothing more', () => {
  const level: Steps = [['2026-11', 1500]]
  const same = said(level, [['2026-11', 1490]])
  expect(same).toContain('Steps would come to the same')
  expect(same).not.toMatch(/more/)
  const slower: Steps = [
    ['2026-11', 1500],
    ['2036-01', 700],
  ]
  expect(said(slower, slower)).toContain('Steps would come to the same')
})

test('steps that bring more or less than one level to the end of the plan say which', () => {
  const level: Steps = [['2026-11', 1500]]
  const rising: Steps = [
    ['2026-11', 1490],
    ['2030-01', 2600],
  ]
  expect(said(level, rising)).toContain('$2,600 from January 2030: more in all than one level; each year’s')
  expect(said(level, [['2028-01', 1500]])).toContain(
    '$1,500 from January 2028: less in all than one level; each',
  )
})

const standing = (held: number, floor: number, month: number, atEnd = 70_000) =>
  ({
    held: { share: held },
    aboveFloor: { share: floor },
    monthsLeft: { median: month },
    atEnd: { median: atEnd },
  }) as ComparedDraws['standing']

test('draws that are worse only in that savings fall below the floor sooner say that alone', () => {
  const level: Steps = [['2026-11', 1500]]
  // As planned the same: all paid, 34 in a hundred above the floor, in the middle one until January 2030.
  const sooner = { worse: true, worseIn: 'sooner', standing: standing(1, 0.34, 38) } as const
  expect(said(level, level, sooner)).toMatch(
    /^Not so well as today’s plan: with the steps savings tend to fall below the floor sooner\. /,
  )
  expect(said(level, level, { ...sooner, standing: standing(1, 0.34, 36) })).toMatch(
    /tend to fall below the floor sooner, in November 2029 in the middle simulation instead of in January 2030\. /,
  )
})

test('draws that are worse say what differs from the plan, and nothing that is the same', () => {
  const level: Steps = [['2026-11', 1500]]
  expect(said(level, level, { worse: true, worseIn: 'held', standing: standing(0.9, 0.34, 38) })).toMatch(
    /^Not so well as today’s plan: with the steps nothing goes unpaid in 90% of simulations instead of 100%\. /,
  )
  expect(said(level, level, { worse: true, worseIn: 'held', standing: standing(0.997, 0.3, 38) })).toMatch(
    /^Not so well as today’s plan: with the steps nothing goes unpaid in 99\.7% of simulations instead of 100%, savings stay above the floor in 30% of simulations instead of 34%\. /,
  )
  expect(said(level, level, { worse: true, worseIn: 'short', standing: standing(1, 0.34, 38) })).toMatch(
    /^Not so well as today’s plan: with the steps money tends to run short sooner\. /,
  )
})

test('draws that are worse in one thing and leave more at the end say both', () => {
  const level: Steps = [['2026-11', 1500]]
  const short = { worse: true, worseIn: 'short' } as const
  expect(said(level, level, { ...short, standing: standing(1, 0.34, 38, 91_000) })).toMatch(
    /^Not so well as today’s plan: with the steps money tends to run short sooner, and yet more is left at the end in the middle simulation\. /,
  )
  expect(said(level, level, { ...short, standing: standing(1, 0.34, 38, 60_000) })).not.toContain('and yet')
})

test('steps that bring as much until the slower years and in them say it once', () => {
  const level: Steps = [
    ['2026-11', 1500],
    ['2036-01', 700],
  ]
  // 110 months until then: 60 of 1,300 and 50 of 1,740 are 1,500 a month.
  const steps: Steps = [
    ['2026-11', 1300],
    ['2031-11', 1740],
    ['2036-01', 700],
  ]
  expect(said(level, steps)).toContain(
    'as much in all as one level, until January 2036 and from then on; each year’s',
  )
})

test('a level that leaves savings below the floor as often as the plan does says that nothing differs', () => {
  const level: Steps = [['2026-11', 1500]]
  const low = said(level, level, { standing: standing(1, 0.34, 38) })
  expect(low).toMatch(
    /^What the farm can pay does not keep savings above the floor: with the steps they stay above it in 34% of simulations, no more and no fewer than as planned\. /,
  )
})
