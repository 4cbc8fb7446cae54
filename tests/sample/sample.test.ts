import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { CoursePool } from '#chance/pool.ts'
import { prepareChance } from '#chance/prepare.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { householdMonths } from '#db/ledger/household-months.ts'
import { headMoves } from '#db/notebook/field-notes.ts'
import { waitingNotes } from '#db/notebook/settle-notes.ts'
import { type Books, openBooksOrThrow } from '#db/open.ts'
import { readSetting, writeSetting } from '#db/settings-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { headsOn } from '#farm/notebook/heads.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { makeMovements } from '#sample/movements.ts'
import { openSampleBooks } from '#sample/open-sample.ts'
import { openingCents } from '#sample/sample-bank.ts'
import { makeStatements } from '#sample/statement-texts.ts'
import { currentPlan } from '#today/current-plan.ts'
import { batchRows } from '#today/farm/batch-figures.ts'
import { farmFigures } from '#today/farm/farm-figures.ts'
import { preparerFigures } from '#today/farm/preparer-figures.ts'
import { firstSteps } from '#today/now/first-steps.ts'
import { nowFigures } from '#today/now/now-figures.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { stormRunsOf } from '#today/projection/courses.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-sample-'))
let books: Books

/** Built here, since what lies ready is of other sources. */
beforeAll(async () => {
  const now = new Date('2026-11-25T12:00:00Z')
  const ofOthers = join(folder, 'of-others.sqlite')
  const empty = openBooksOrThrow(ofOthers, { now })
  writeSetting(empty, { at: now.toISOString(), actor: 'test' }, 'sample.made_from', 'other', 0)
  empty.close()
  books = await openSampleBooks(folder, now, ofOthers)
}, 120_000)

afterAll(() => {
  books.close()
  rmSync(folder, { recursive: true, force: true })
})

const statementsFolder = join(import.meta.dirname, '../../sample/statements')

test('the committed statements are what the generator makes, byte for byte', () => {
  const made = makeStatements()
  expect(readdirSync(statementsFolder).sort()).toEqual(made.map((each) => each.fileName).sort())
  for (const { fileName, text } of made)
    expect(readFileSync(join(statementsFolder, fileName), 'utf8') === text, fileName).toBe(true)
})

test('the sample books prove sound', () => {
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('each bank account in the books stands where its bank says, once the last lines are sorted', () => {
  const bank = { ...openingCents }
  for (const movement of makeMovements()) bank[movement.account] += movement.cents
  const waiting = new Map<string, number>()
  for (const { line } of sortingDesk(books).lines)
    waiting.set(line.accountName, (waiting.get(line.accountName) ?? 0) + line.amount)
  const balances = balancesOn(books)
  const inBooks = (name: string) => {
    const account = listAccounts(books).find((each) => each.name === name)!
    return (balances.get(account.id) ?? 0) + (waiting.get(name) ?? 0)
  }
  expect(inBooks('Farm checking')).toBe(bank.farm)
  expect(inBooks('Household checking')).toBe(bank.household)
  expect(inBooks('Savings')).toBe(bank.savings)
})

test('a few lines of the last days wait on the desk, none doubtful', () => {
  const desk = sortingDesk(books)
  expect(desk.waiting).toBeGreaterThan(3)
  expect(desk.waiting).toBeLessThan(15)
  expect(desk.doubtful).toBe(0)
})

test('the story is in the books: contributions, draws that begin, one bad season, savings thinned to a third', () => {
  const crossed = (kind: string, from: string, to: string) =>
    listCrossings(books, { to: day('2026-10-31'), limit: 1000 })
      .filter((each) => each.kind === kind && each.fromSideId === from && each.toSideId === to)
      .reverse()
  const draws = crossed('draw', 'farm', 'household')
  expect(draws[0]!.day.slice(0, 7)).toBe('2025-04')
  const drawn = (at: string) =>
    draws.filter((each) => each.day.startsWith(at)).reduce((sum, each) => sum + each.amountCents, 0)
  expect([drawn('2025-04'), drawn('2025-12'), drawn('2026-05'), drawn('2026-07'), drawn('2026-10')]).toEqual([
    80_000, 120_000, 160_000, 60_000, 170_000,
  ])
  const contributed = crossed('contribution', 'household', 'farm')
  expect(contributed.filter((each) => each.amountCents >= 100_000).map((each) => each.amountCents)).toEqual([
    400_000, 500_000, 300_000, 250_000,
  ])
  const months = householdMonths(books, month(2023, 11), month(2026, 10))
  const [first, last] = [months[0]!.spendableCents, months.at(-1)!.spendableCents]
  expect(first).toBeGreaterThan(150_000_00)
  expect(last).toBeGreaterThan(50_000_00)
  expect(last).toBeLessThan(62_000_00)
})

test('the plan is the close call that the story tells', () => {
  const { plan } = nowFigures(books, day('2026-11-25'))
  if (plan.status !== 'read') throw new Error(plan.status)
  expect(plan.monthsLeft).toBeNull()
  expect([plan.lowestMonth, plan.marginMonth]).toEqual([month(2035, 1), month(2035, 1)])
  expect(plan.lowestDollars).toBeGreaterThan(38_000)
  expect(plan.lowestDollars).toBeLessThan(44_000)
  expect(plan.marginDollars).toBeGreaterThan(9000)
  expect(plan.marginDollars).toBeLessThan(14_000)
  expect(plan.carryMonth).toBeGreaterThanOrEqual(month(2030, 1))
  expect(plan.carryMonth).toBeLessThan(month(2031, 1))
  expect(plan.badYears).toEqual({ count: 9, reachFloor: 5 })
  const { plan: ongoing } = continuedPlan(books, inUse().plan, day('2026-11-25'))
  const season = stormRunsOf(ongoing).find(({ storm }) => storm.id === 'bad-season')!
  expect(season.milestones.monthsLeft).toBeLessThanOrEqual(12)
})

test('a thousand simulations say what the story says of them', { timeout: 120_000 }, async () => {
  const { plan } = continuedPlan(books, inUse().plan, day('2026-11-25'))
  const pool = new CoursePool(1)
  try {
    const { outcome } = await pool.run(prepareChance(plan, publishedRules(plan), { seed: 1, paths: 1000 }))
    // Seven in ten never reach the floor; the worst tenth do within about eight years.
    expect(outcome.aboveFloor.share).toBeGreaterThan(0.65)
    expect(outcome.aboveFloor.share).toBeLessThan(0.75)
    expect(outcome.monthsLeft.p10).toBeGreaterThan(85)
    expect(outcome.monthsLeft.p10).toBeLessThan(110)
  } finally {
    await pool.close()
  }
})

const inUse = () => {
  const current = currentPlan(books)
  if (current.status !== 'read') throw new Error(current.status)
  return current
}

test('the notebook tells of the flock and the lambs what the books say too, and waits with two notes', () => {
  const today = day('2026-11-25')
  expect(headsOn(headMoves(books, today), 'sheep', today)).toEqual({ females: 11, males: 1, young: 6 })
  const lambs = batchRows(books).filter(({ batch }) => batch.enterpriseId === 'sheep')
  expect(lambs.map(({ result }) => [result.sold, result.tooMany, result.salesCents > 0])).toEqual([
    [17, 0, true],
    [11, 0, true],
  ])
  // What serves the whole farm is no batch's: a lamb costs some hundred dollars in feed, vet and cutting, a bed of flowers its plants.
  for (const { batch, result } of batchRows(books))
    expect(result.costPerUnitCents!, batch.name).toBeLessThan(batch.unit === 'lambs' ? 40_000 : 35_000)
  expect(Math.min(...batchRows(books).map(({ result }) => result.costPerUnitCents!))).toBeGreaterThan(50_00)
  const { plan, planId, name, revisionNo } = inUse()
  // No more ewe lambs join the flock than the notebook has lambs left.
  const { joinNext } = farmFigures(books, plan, { planId, name, revisionNo }, today, null, { of: 'year' })
    .herds[0]!
  expect(joinNext!.heads).toBeGreaterThan(5)
  expect(joinNext!.heads).toBeLessThanOrEqual(6)
  expect(waitingNotes(books, today)).toBeGreaterThanOrEqual(2)
  expect(preparerFigures(books, 2026, today)).toMatchObject({ unpriced: 0, hired: [{ person: 'Asa' }] })
})

test('nothing of the sample’s setting up is left to do', () => {
  const current = currentPlan(books)
  if (current.status !== 'read') throw new Error(current.status)
  expect(firstSteps(books, current.plan, day('2026-11-25')).map((step) => step.id)).toEqual([])
})

test('the household’s costs and the farm’s takings are of a size a family would believe', () => {
  const months = householdMonths(books, month(2024, 1), month(2026, 9))
  for (const each of months) {
    expect(each.costCents - each.taxCents).toBeGreaterThan(2_500_00)
    expect(each.costCents - each.taxCents).toBeLessThan(8_000_00)
  }
  const average = months.reduce((sum, each) => sum + each.livingCents, 0) / months.length
  expect(average).toBeGreaterThan(3_400_00)
  expect(average).toBeLessThan(4_200_00)
  const lowest = {
    farm: Number.POSITIVE_INFINITY,
    household: Number.POSITIVE_INFINITY,
    savings: Number.POSITIVE_INFINITY,
  }
  const balance = { ...openingCents }
  for (const movement of makeMovements()) {
    balance[movement.account] += movement.cents
    lowest[movement.account] = Math.min(lowest[movement.account], balance[movement.account])
  }
  expect(lowest.farm).toBeGreaterThan(0)
  expect(lowest.household).toBeGreaterThan(0)
})

test('a sample built before is copied where it is of the same sources', {
  timeout: 120_000,
}, async () => {
  const now = new Date('2026-12-01T12:00:00Z')
  const [built, other] = [mkdtempSync(join(folder, 'built-')), mkdtempSync(join(folder, 'other-'))]
  const before = join(built, 'sample.sqlite')
  await books.sqlite.backup(before)
  const mark = (file: string, text: string) => {
    const marked = openBooksOrThrow(file, { now })
    writeSetting(marked, { at: now.toISOString(), actor: 'test' }, text, true, 0)
    marked.close()
  }
  mark(before, 'test.copied')
  const copy = await openSampleBooks(other, now, before)
  expect(readSetting(copy, 'test.copied').value).toBe(true)
  expect(verifyBooks(copy.sqlite).findings).toEqual([])
  copy.close()
  // What lies in the data folder goes before it, and it stays as it is.
  mark(join(other, 'sample.sqlite'), 'test.own')
  const own = await openSampleBooks(other, now, before)
  expect(readSetting(own, 'test.own').value).toBe(true)
  // One of other sources gives way to the one built before.
  own.sqlite.prepare("UPDATE settings SET value = '\"other\"' WHERE key = 'sample.made_from'").run()
  own.close()
  const anew = await openSampleBooks(other, now, before)
  expect([readSetting(anew, 'test.copied').value, readSetting(anew, 'test.own').value]).toEqual([
    true,
    undefined,
  ])
  expect(verifyBooks(anew.sqlite).findings).toEqual([])
  anew.close()
  expect(
    [...readdirSync(built), ...readdirSync(other)].filter((name) => !name.startsWith('sample.sqlite')),
  ).toEqual([])
})

test('opening the sample again takes the file as it is', { timeout: 60_000 }, async () => {
  const before = books.sqlite.prepare('SELECT count(*) FROM entries').pluck().get()
  const again = await openSampleBooks(folder, new Date('2026-12-01T12:00:00Z'))
  expect(again.sqlite.prepare('SELECT count(*) FROM entries').pluck().get()).toBe(before)
  again.close()
  expect(readdirSync(folder).filter((name) => name.includes('unfinished'))).toEqual([])
})
