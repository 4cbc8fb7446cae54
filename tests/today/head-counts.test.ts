// A flock of our own invention that goes on from its heads as they were counted in the notebook.

import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { logChange } from '#db/change-log.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { headTallies } from '#db/notebook/schema-notes.ts'
import { atomically } from '#db/once.ts'
import { farmCourse } from '#farm/course.ts'
import { farmSchema } from '#farm/farm-document.ts'
import { herdSchema } from '#farm/herd/herd-document.ts'
import { herdMonths } from '#farm/herd/herd-months.ts'
import type { HeadMove } from '#farm/notebook/heads.ts'
import type { HeadClass } from '#farm/notebook/kinds.ts'
import { cents } from '#money/cents.ts'
import { readPlan } from '#plan/upgrade.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { countedHerds, soldBeyond } from '#today/projection/head-counts.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp | undefined
afterEach(() => {
  app?.close()
  app = undefined
})

const ewes = {
  id: 'ewes',
  name: 'Ewes',
  kind: 'sheep' as const,
  start: '2026-01',
  breedingFemales: 10,
  carryingLimit: 10,
  ownedAlready: true,
}
/** None of the young is kept, so that young are young. */
const herd = herdSchema.parse({ ...ewes, rates: { keepOfFemaleYoung: 0 } })
const farmOf = (...herds: (typeof herd)[]) => farmSchema.parse({ herds })
const counted = (headClass: HeadClass, count: number, on: string, of = 'ewes') => ({
  herdId: of,
  kind: 'counted' as const,
  headClass,
  count,
  day: day(on),
})

const moved = (kind: HeadMove['kind'], headClass: HeadClass, count: number, on: string): HeadMove => ({
  herdId: 'ewes',
  kind,
  headClass,
  count,
  day: day(on),
})
const december = month(2026, 12)
const countsOf = (...moves: HeadMove[]) => countedHerds(farmOf(herd), moves, december)[0]!.counts

test('a count stands as the nearer month begins, with what was counted of the other heads by then', () => {
  expect(countsOf()).toEqual([])
  expect(countsOf(counted('females', 7, '2026-11-15'))).toEqual([{ month: '2026-11', breedingFemales: 7 }])
  expect(countsOf(counted('females', 7, '2026-11-16'))).toEqual([{ month: '2026-12', breedingFemales: 7 }])
  expect(
    countsOf(
      counted('females', 9, '2026-05-02'),
      counted('young', 14, '2026-05-02'),
      counted('females', 8, '2026-11-20'),
      counted('males', 1, '2026-12-03'),
      counted('females', 40, '2026-12-04', 'hens'),
    ),
  ).toEqual([{ month: '2026-12', breedingFemales: 8, males: 1 }])
  // Counted late in the month that is projected: as the next one begins, and the month itself goes on from the count before.
  expect(countsOf(counted('females', 9, '2026-10-30'), counted('females', 7, '2026-12-28'))).toEqual([
    { month: '2026-11', breedingFemales: 9 },
    { month: '2027-01', breedingFemales: 7 },
  ])
  // Young alone say nothing of the flock that bears them.
  expect(countsOf(counted('young', 14, '2026-05-02'))).toEqual([])
})

test('what came and went since the count is in the heads that a month begins with', () => {
  const [ewesCounted, lambsCounted] = [
    counted('females', 20, '2026-08-03'),
    counted('young', 30, '2026-08-03'),
  ]
  // 30 lambs less 12 sold and 2 eaten by the end of September; 20 ewes less 3 sold and 1 lost, one more bought, by the end of November.
  expect(
    countsOf(
      moved('sold', 'young', 12, '2026-09-20'),
      moved('kitchen', 'young', 2, '2026-09-28'),
      ewesCounted,
      lambsCounted,
      moved('sold', 'females', 3, '2026-10-04'),
      moved('died', 'females', 1, '2026-11-10'),
      moved('bought', 'females', 1, '2026-11-30'),
    ),
  ).toEqual([
    { month: '2026-10', breedingFemales: 20, young: 16 },
    { month: '2026-12', breedingFemales: 17 },
  ])
  // What was noted before the first count is in it: 20 ewes on the 3rd of August after 9 were sold on the 1st.
  expect(countsOf(moved('sold', 'females', 9, '2026-08-01'), ewesCounted)).toEqual([
    { month: '2026-08', breedingFemales: 29 },
  ])
  // More went than were counted: none, not less.
  expect(countsOf(ewesCounted, moved('sold', 'females', 25, '2026-11-02'))).toEqual([
    { month: '2026-12', breedingFemales: 0 },
  ])
})

test('a sale of the month under way takes its heads at once, as far as the month does not expect it itself', () => {
  // No ewe is culled in December by the flock's own rates: counted 10 as it began, 4 sold on the 2nd, and 6 stand there that month.
  const tenEwes = counted('females', 10, '2026-11-30')
  const sold = moved('sold', 'females', 4, '2026-12-02')
  expect(countsOf(tenEwes, sold)).toEqual([{ month: '2026-12', breedingFemales: 6 }])
  const heads = (...moves: HeadMove[]) =>
    herdMonths(countedHerds(farmOf(herd), moves, december)[0]!, december, 1)
  expect(heads(tenEwes, sold).breedingFemales[0]! / heads(tenEwes).breedingFemales[0]!).toBeCloseTo(0.6, 9)
  // Counted on the 9th, after the sale: the same 6.
  expect(countsOf(sold, counted('females', 6, '2026-12-09'))).toEqual([
    { month: '2026-12', breedingFemales: 6 },
  ])
  // One eaten and one bartered go too; what died is what the month's own losses expect.
  expect(
    countsOf(
      tenEwes,
      moved('kitchen', 'females', 1, '2026-12-03'),
      moved('bartered', 'females', 1, '2026-12-04'),
      moved('died', 'females', 1, '2026-12-05'),
    ),
  ).toEqual([{ month: '2026-12', breedingFemales: 8 }])
  // All lambs are sold in November by the plan: 7 of 12 sold by then are among them, 15 of 12 are three too many, and none below none.
  const november = month(2026, 11)
  const flock = [counted('females', 10, '2026-11-01'), counted('young', 12, '2026-11-01')]
  const inNovember = (...moves: HeadMove[]) => {
    const [told] = countedHerds(farmOf(herd), [...flock, ...moves], november)
    return { counts: told!.counts, sold: herdMonths(told!, november, 1).soldYoungHeads[0]! }
  }
  const expected = inNovember().sold
  expect(expected).toBeGreaterThan(11.5)
  expect(inNovember(moved('sold', 'young', 7, '2026-11-05'))).toEqual(inNovember())
  expect(inNovember(moved('sold', 'young', 15, '2026-11-05')).counts).toEqual([
    { month: '2026-11', breedingFemales: 10, young: 12 - (15 - expected) },
  ])
})

test('what is sold within the month brings its money then, at the prices of a herd sold up; what is eaten or bartered brings none', () => {
  const priced = herdSchema.parse({
    ...ewes,
    rates: { keepOfFemaleYoung: 0 },
    prices: { cullFemale: 90, youngSold: 140 },
  })
  const moneyOf = (at: number, ...moves: HeadMove[]) =>
    soldBeyond(farmOf(priced), moves, at as typeof december).sum
  const tenEwes = counted('females', 10, '2026-11-30')
  const males = counted('males', 2, '2026-11-30')
  expect(moneyOf(december, tenEwes)).toBe(0)
  expect(moneyOf(december, tenEwes, moved('sold', 'females', 4, '2026-12-02'))).toBeCloseTo(360, 9)
  expect(
    moneyOf(
      december,
      tenEwes,
      males,
      moved('sold', 'males', 1, '2026-12-02'),
      moved('kitchen', 'females', 1, '2026-12-03'),
      moved('bartered', 'females', 1, '2026-12-04'),
    ),
  ).toBeCloseTo(90, 9)
  // Sold the month before: in the books by now. More sold than stood there: the money of those that stood there.
  expect(moneyOf(december, tenEwes, moved('sold', 'females', 4, '2026-11-29'))).toBe(0)
  expect(moneyOf(december, tenEwes, moved('sold', 'females', 25, '2026-12-02'))).toBeCloseTo(900, 9)
  // The plan sells the lambs in November itself: only what goes beyond them is added.
  const november = month(2026, 11)
  const flock = [counted('females', 10, '2026-11-01'), counted('young', 12, '2026-11-01')]
  expect(moneyOf(november, ...flock, moved('sold', 'young', 7, '2026-11-05'))).toBe(0)
  const expected = herdMonths(countedHerds(farmOf(priced), flock, november)[0]!, november, 1)
    .soldYoungHeads[0]!
  const fifteen = moved('sold', 'young', 15, '2026-11-05')
  expect(moneyOf(november, ...flock, fifteen)).toBeCloseTo((15 - expected) * 140, 9)
})

test('young that were counted are those kept to breed too, in the proportion expected of them', () => {
  const keeps = herdSchema.parse({ ...ewes, carryingLimit: 20 })
  const eve = herdMonths(keeps, month(2026, 9), 1)
  const [kept, forSale] = [eve.replacements[0]!, eve.young[0]!]
  expect(kept).toBeGreaterThan(2)
  expect(forSale).toBeGreaterThan(2)
  const [count] = countedHerds(
    farmOf(keeps),
    [counted('females', 10, '2026-10-01'), counted('young', 12, '2026-10-01')],
    december,
  )[0]!.counts
  expect(count!.young! + count!.replacements!).toBeCloseTo(12, 9)
  expect(count!.replacements! / count!.young!).toBeCloseTo(kept / forSale, 9)
})

test('once the notebook tells those kept to breed apart, its young are those for sale', () => {
  const keeps = herdSchema.parse({ ...ewes, carryingLimit: 20 })
  const counts = countedHerds(
    farmOf(keeps),
    [
      counted('females', 10, '2026-10-01'),
      counted('kept', 4, '2026-10-01'),
      counted('young', 12, '2026-10-01'),
      counted('young', 9, '2026-11-02'),
    ],
    december,
  )[0]!.counts
  expect(counts).toEqual([
    { month: '2026-10', breedingFemales: 10, replacements: 4, young: 12 },
    { month: '2026-11', breedingFemales: 10, young: 9 },
  ])
})

test('young that were never counted are those noted as born since the ewes were, on top of those expected then', () => {
  // Ewe lambs join at a year, with the births of April: of the year before none is left as lambs are born, so that all lambs are noted ones.
  const keeps = herdSchema.parse({
    ...ewes,
    carryingLimit: 20,
    rates: { birthMonths: [4], breedingAgeMonths: 12 },
  })
  const noted = [
    counted('females', 10, '2026-02-03'),
    moved('born', 'young', 9, '2026-04-08'),
    moved('born', 'young', 8, '2026-04-20'),
    moved('died', 'young', 2, '2026-05-02'),
    moved('sold', 'young', 12, '2026-10-24'),
  ]
  const going = (of: typeof herd, ...moves: HeadMove[]) => countedHerds(farmOf(of), moves, december)[0]!
  const { counts } = going(keeps, ...noted)
  expect(counts.map((one) => one.month)).toEqual(['2026-02', '2026-11'])
  const left = counts.at(-1)!
  expect(left.young! + left.replacements!).toBeCloseTo(3, 9)
  // No more ewe lambs join in April than were noted.
  const ahead = herdMonths(going(keeps, ...noted), december, 6)
  expect(ahead.joined.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(3)
  expect(ahead.joined.reduce((a, b) => a + b, 0)).toBeGreaterThan(1)
  // Once they are counted, the count is what holds.
  const recounted = going(keeps, ...noted, counted('young', 5, '2026-11-28')).counts.at(-1)!
  expect(recounted.young! + recounted.replacements!).toBeCloseTo(5, 9)
  // Litters in March and September, sold at nine months: those of March are there when those of September are noted.
  const twice = herdSchema.parse({
    ...ewes,
    rates: { keepOfFemaleYoung: 0, birthMonths: [3, 9], saleAgeMonths: 9 },
  })
  const tenEwes = counted('females', 10, '2026-02-03')
  const before = herdMonths(going(twice, tenEwes), month(2026, 8), 1).young[0]!
  expect(before).toBeGreaterThan(5)
  const september = going(twice, tenEwes, moved('born', 'young', 14, '2026-09-10')).counts.at(-1)!
  expect(september.month).toBe('2026-10')
  expect(september.young).toBeCloseTo(before + 14, 9)
  // Sales alone tell nothing of how many there were.
  expect(going(twice, tenEwes, moved('sold', 'young', 4, '2026-10-02')).counts).toEqual([
    { month: '2026-02', breedingFemales: 10 },
  ])
})

test('a count of the plan stays, unless it is of the same month', () => {
  const told = herdSchema.parse({
    ...ewes,
    counts: [
      { month: '2026-06', breedingFemales: 9 },
      { month: '2026-12', breedingFemales: 6 },
    ],
  })
  expect(countedHerds(farmOf(told), [counted('females', 8, '2026-11-20')], december)[0]!.counts).toEqual([
    { month: '2026-06', breedingFemales: 9 },
    { month: '2026-12', breedingFemales: 8 },
  ])
})

test('the plan of the day goes on from what the notebook counted', () => {
  app = testApp({ today: '2026-12-10' })
  app.openSides()
  const read = readPlan({
    planVersion: 4,
    startMonth: '2026-01',
    household: { living: [{ id: 'living', name: 'Living', perMonth: 1000 }] },
    farm: { cash: 1000, herds: [{ ...ewes, prices: { cullFemale: 90 } }] },
    tax: { method: 'none' },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
  const { books } = app
  const ongoing = () => continuedPlan(books, read.plan, day('2026-12-10')).plan
  expect(ongoing().farm.herds[0]!.counts).toEqual([])
  const noted = (id: string, on: string, kind: 'counted' | 'sold', count: number) =>
    atomically(books, () => {
      const at = `${on}T08:00:00Z`
      books.db
        .insert(headTallies)
        .values({ id, day: day(on), herdId: 'ewes', kind, headClass: 'females', count, recordedAt: at })
        .run()
      const change = { kind: 'heads.noted', subject: id, summary: 'A head count was noted' }
      logChange(books, { at, actor: 'test' }, change)
      return { ok: true }
    })
  noted('tally', '2026-11-02', 'counted', 8)
  noted('sale', '2026-11-21', 'sold', 2)
  const { farm } = ongoing()
  expect(farm.herds[0]!.counts).toEqual([{ month: '2026-12', breedingFemales: 6 }])
  expect(farmCourse(farm, month(2026, 12), 1).herds[0]!.breedingFemales[0]).toBeLessThan(7)
  // Three more within the month, at 90 each of the plan's first year: gone at once, and their money there at once.
  noted('within', '2026-12-04', 'sold', 3)
  const within = ongoing().farm
  expect(within.herds[0]!.counts).toEqual([{ month: '2026-12', breedingFemales: 3 }])
  expect(within.cash - farm.cash).toBeCloseTo(270, 9)
  // Once: the books hold it from its day on, at what it brought. December begins without it there, January with it, and adds nothing.
  const post = (on: string, from: string, dollars: number) => {
    const idOf = (name: string) =>
      listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
    const lines = [
      { accountId: idOf('Farm checking'), amountCents: cents(dollars * 100) },
      { accountId: idOf(from), amountCents: cents(-dollars * 100) },
    ]
    const entry = { sideId: 'farm', day: day(on), payee: '', memo: '', source: 'form', lines } as const
    done(postEntry(books, act(), entry))
  }
  post('2026-11-30', 'Opening balances', 5000)
  post('2026-12-04', 'Vegetables and fruit sold', 255)
  expect(ongoing().farm.cash).toBeCloseTo(5000 + 270, 9)
  const january = continuedPlan(books, read.plan, day('2027-01-05')).plan.farm
  expect(january.herds[0]!.counts.at(-1)!.breedingFemales).toBe(3)
  expect(january.cash).toBeCloseTo(5255, 9)
})
