import fc from 'fast-check'
import { expect, test } from 'vitest'
import { balancesOn } from '#db/ledger/balances.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { correctEntry, postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import type { Books } from '#db/open.ts'
import { listSetAside, takeUpLine } from '#db/statements/set-aside.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortingHistory } from '#db/statements/sorting-history.ts'
import { archiveRule, forgetRule, listRules, saveRule } from '#db/statements/sorting-rule-store.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { importStatement, listStatements, previewImport } from '#db/statements/statement-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { dryRun } from '#ledger/statements/dry-run.ts'
import type { Statement, StatementLine } from '#ledger/statements/statement.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on } from './fresh-books.ts'

const line = (day: string, amount: number, payee: string, bankNumber = ''): StatementLine => ({
  fileLine: 1,
  bankNumber,
  day: on(day),
  amount: cents(amount),
  payee,
  memo: '',
  checkNumber: '',
})

const statement = (lines: StatementLine[], bankAccount = ''): Statement => ({
  bankAccount,
  kind: 'bank',
  currency: 'USD',
  closing: null,
  lines,
  remarks: [],
})

const today = on('2026-12-31')
let files = 0
const read = (books: Books, accountId: number, lines: StatementLine[], hash = `hash-${++files}`) =>
  done(
    importStatement(
      books,
      act(),
      accountId,
      {
        format: 'ofx',
        fileName: 'january.ofx',
        contentHash: hash,
        statement: statement(lines),
        mappingId: null,
      },
      today,
    ),
  )

const deskOf = (books: Books, payee: string) =>
  sortingDesk(books).lines.find(({ line }) => line.payee === payee)!

const sort = (books: Books, ...sortings: Sorting[]) => done(sortLines(books, act(), sortings))

const sound = (books: Books) => expect(verifyBooks(books.sqlite).findings).toEqual([])

test('a file read in twice, as the same bytes or not, adds nothing the second time', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  const lines = [line('2026-01-02', -1250, 'Hollow Feed', '1'), line('2026-01-03', 9900, 'Market', '2')]
  expect(read(books, checking, lines, 'h')).toMatchObject({ newLines: 2, seenLines: 0, doubtfulLines: 0 })
  expect(read(books, checking, lines, 'h')).toMatchObject({ newLines: 0, seenLines: 2 })
  expect(read(books, checking, lines, 'other bytes')).toMatchObject({ newLines: 0, seenLines: 2 })
  expect(sortingDesk(books).waiting).toBe(2)
  expect(listStatements(books)).toHaveLength(2)
})

test('the same form sent twice reads in once; the same lines in another account are new there', () => {
  const books = freshBooks()
  const file = {
    format: 'csv' as const,
    fileName: 'a.csv',
    contentHash: 'h',
    statement: statement([line('2026-01-02', -1250, 'Hollow Feed')]),
    mappingId: null,
  }
  const farm = books.account('farm', 'Farm checking').id
  const form = act()
  expect(importStatement(books, form, farm, file, today)).toMatchObject({ ok: true, repeated: false })
  expect(importStatement(books, form, farm, file, today)).toMatchObject({ ok: true, repeated: true })
  const household = books.account('household', 'Household checking').id
  expect(done(importStatement(books, act(), household, file, today)).newLines).toBe(1)
  expect(importStatement(books, act(), books.account('farm', 'Feed').id, file, today)).toMatchObject({
    ok: false,
  })
})

test('a doubtful line waits apart, and is posted only after a person said it is its own', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  const lines = [line('2026-01-02', -1250, 'Hollow Feed', '1'), line('2026-01-02', -1300, 'Hollow Feed', '1')]
  expect(read(books, checking, lines)).toMatchObject({ newLines: 1, doubtfulLines: 1 })
  const doubtful = sortingDesk(books).lines.find((each) => each.line.state === 'doubtful')!
  expect(doubtful.proposal).toBeNull()
  expect(doubtful.line.note).toContain('number 1')
  const target = { kind: 'account', accountId: books.account('farm', 'Feed').id, enterpriseId: null } as const
  const lineId = doubtful.line.id
  expect(sortLines(books, act(), [{ lineId, kind: 'target', target }])).toMatchObject({ ok: false })
  sort(books, { lineId, kind: 'genuine' })
  expect(sort(books, { lineId, kind: 'target', target }).posted).toBe(1)
  expect(read(books, checking, lines)).toMatchObject({ newLines: 0, doubtfulLines: 0, seenLines: 2 })
})

test('a sorted line posts one entry, teaches a rule, and the next like line is proposed by it', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  const feed = books.account('farm', 'Feed').id
  read(books, checking, [line('2026-01-02', -1250, 'POS 4711 HOLLOW FEED #3')])
  const target = { kind: 'account', accountId: feed, enterpriseId: 'sheep' } as const
  const first = deskOf(books, 'POS 4711 HOLLOW FEED #3')
  expect(first.proposal).toBeNull()
  expect(sort(books, { lineId: first.line.id, kind: 'target', target })).toMatchObject({
    posted: 1,
    rulesLearned: 1,
  })
  expect(balancesOn(books).get(feed)).toBe(1250)
  expect(balancesOn(books).get(checking)).toBe(-1250)
  read(books, checking, [line('2026-01-09', -900, 'POS 9302 HOLLOW FEED #3')])
  const next = deskOf(books, 'POS 9302 HOLLOW FEED #3')
  expect(next.proposal).toMatchObject({ kind: 'rule', proposal: { target, how: 'equals' } })
  // Nothing is applied by itself.
  expect(balancesOn(books).get(feed)).toBe(1250)
  sound(books)
})

test('the same form of choices sent twice posts once; a line sorted by someone else meanwhile is refused, all or nothing', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  read(books, checking, [line('2026-01-02', -100, 'A'), line('2026-01-03', -200, 'B')])
  const target = { kind: 'account', accountId: books.account('farm', 'Feed').id, enterpriseId: null } as const
  const [a, b] = ['A', 'B'].map((payee) => deskOf(books, payee).line.id)
  const form = act()
  const choice: Sorting[] = [{ lineId: a!, kind: 'target', target }]
  done(sortLines(books, form, choice))
  expect(sortLines(books, form, choice)).toMatchObject({ ok: true, repeated: true })
  const both: Sorting[] = [{ lineId: b!, kind: 'target', target }, ...choice]
  expect(sortLines(books, act(), both)).toMatchObject({ ok: false, problems: [{ path: `lines.${a}` }] })
  expect(sortingDesk(books).waiting).toBe(1)
  expect(balancesOn(books).get(checking)).toBe(-100)
  sound(books)
})

test('a transfer within the household seen in both statements becomes one entry', () => {
  const books = freshBooks()
  const [checking, savings] = [
    books.account('household', 'Household checking').id,
    books.account('household', 'Savings').id,
  ]
  read(books, savings, [line('2026-01-02', -300_000, 'To checking')])
  read(books, checking, [line('2026-01-05', 300_000, 'From savings')])
  const out = deskOf(books, 'To checking')
  const into = deskOf(books, 'From savings')
  expect(out.proposal).toMatchObject({ kind: 'transfer', otherLine: { id: into.line.id } })
  expect(into.proposal).toMatchObject({ kind: 'transfer', otherLine: { id: out.line.id } })
  const result = sort(
    books,
    { lineId: out.line.id, kind: 'transfer', otherLineId: into.line.id },
    { lineId: into.line.id, kind: 'transfer', otherLineId: out.line.id },
  )
  expect(result).toMatchObject({ posted: 1, matched: 1 })
  expect(balancesOn(books).get(checking)).toBe(300_000)
  expect(balancesOn(books).get(savings)).toBe(-300_000)
  expect(sortingDesk(books).waiting).toBe(0)
  sound(books)
})

test('a transfer is never proposed above what a rule says of one of its lines', () => {
  const books = freshBooks()
  const [farm, house] = [
    books.account('farm', 'Farm checking').id,
    books.account('household', 'Household checking').id,
  ]
  const feed = { kind: 'account', accountId: books.account('farm', 'Feed').id, enterpriseId: null } as const
  read(books, farm, [line('2026-01-05', -5000, 'WIRE TRANSFER HOLLOW MILL')])
  sort(books, { lineId: deskOf(books, 'WIRE TRANSFER HOLLOW MILL').line.id, kind: 'target', target: feed })
  read(books, farm, [line('2026-01-12', -6000, 'WIRE TRANSFER HOLLOW MILL')])
  read(books, house, [line('2026-01-12', 6000, 'DEPOSIT')])
  expect(deskOf(books, 'WIRE TRANSFER HOLLOW MILL').proposal).toMatchObject({ kind: 'rule' })
  expect(deskOf(books, 'DEPOSIT').proposal).toBeNull()
  // A rule that sends the line to the other account leaves the pair.
  const draw = { kind: 'crossing', crossingKind: 'draw', otherAccountId: house } as const
  sort(books, { lineId: deskOf(books, 'WIRE TRANSFER HOLLOW MILL').line.id, kind: 'target', target: draw })
  read(books, farm, [line('2026-01-19', -7000, 'WIRE TRANSFER HOLLOW MILL')])
  read(books, house, [line('2026-01-20', 7000, 'DEPOSIT')])
  const half = sortingDesk(books).lines.find((each) => each.line.amount === 7000)!
  expect(half.proposal).toMatchObject({ kind: 'transfer', isTold: true })
})

test('a card payment that a person confirmed is known the next month, and asked about again once that is forgotten', () => {
  const books = freshBooks()
  const [house, card] = [
    books.account('household', 'Household checking').id,
    books.account('household', 'Household card').id,
  ]
  /** Neither names the other: the uncommon amount alone leads from one to the other. */
  const month = (no: number, amount: number) => {
    read(books, house, [line(`2026-0${no}-12`, -amount, 'NORLAND FINANCIAL')])
    read(books, card, [line(`2026-0${no}-13`, amount, 'RECEIVED HALDEN')])
    return sortingDesk(books).lines
  }
  const [first] = month(1, 41_237)
  expect(first!.proposal).toMatchObject({ kind: 'transfer', isTold: false, isLearned: false })
  const confirm = (half: typeof first) =>
    sort(books, {
      lineId: half!.line.id,
      kind: 'transfer',
      otherLineId: (half!.proposal as { otherLine: { id: number } }).otherLine.id,
    })
  expect(confirm(first)).toMatchObject({ posted: 1, matched: 1, rulesLearned: 2 })
  const second = month(2, 38_911)
  for (const half of second)
    expect(half.proposal).toMatchObject({ kind: 'transfer', isTold: true, isLearned: true })
  expect(confirm(second[0])).toMatchObject({ rulesLearned: 0 })
  expect(balancesOn(books).get(house)).toBe(-80_148)
  expect(balancesOn(books).get(card)).toBe(80_148)
  sound(books)
  for (const rule of listRules(books)) forgetRule(books, act(), { ruleId: rule.id, before: null })
  const [third] = month(3, 29_973)
  expect(third!.proposal).toMatchObject({ kind: 'transfer', isTold: false })
})

test('a draw seen in both statements becomes one crossing, not two', () => {
  const books = freshBooks()
  const [farm, house] = [
    books.account('farm', 'Farm checking').id,
    books.account('household', 'Household checking').id,
  ]
  read(books, farm, [line('2026-01-05', -80_000, 'Draw')])
  read(books, house, [line('2026-01-06', 80_000, 'From farm')])
  const { line: out } = deskOf(books, 'Draw')
  const { line: into } = deskOf(books, 'From farm')
  sort(books, { lineId: out.id, kind: 'transfer', otherLineId: into.id })
  expect(books.sqlite.prepare('SELECT kind, amount_cents AS cents FROM crossings').all()).toEqual([
    { kind: 'draw', cents: 80_000 },
  ])
  expect(balancesOn(books).get(house)).toBe(80_000)
  sound(books)
})

test('sorting each half by itself to the other account still gives one crossing', () => {
  const books = freshBooks()
  const [farm, house] = [
    books.account('farm', 'Farm checking').id,
    books.account('household', 'Household checking').id,
  ]
  read(books, farm, [line('2026-01-05', -80_000, 'Draw')])
  const draw = (otherAccountId: number) =>
    ({ kind: 'crossing', crossingKind: 'draw', otherAccountId }) as const
  sort(books, { lineId: deskOf(books, 'Draw').line.id, kind: 'target', target: draw(house) })
  read(books, house, [line('2026-01-06', 80_000, 'From farm')])
  const into = deskOf(books, 'From farm')
  expect(into.proposal).toMatchObject({ kind: 'entry' })
  expect(sort(books, { lineId: into.line.id, kind: 'target', target: draw(farm) })).toMatchObject({
    posted: 0,
    matched: 1,
  })
  expect(balancesOn(books).get(house)).toBe(80_000)
  sound(books)
})

test('a crossing recorded by hand before the statement came is matched to its lines', () => {
  const books = freshBooks()
  const [farm, house] = [
    books.account('farm', 'Farm checking').id,
    books.account('household', 'Household checking').id,
  ]
  done(
    postCrossing(books, act(), {
      kind: 'contribution',
      day: on('2026-01-03'),
      amountCents: cents(50_000),
      fromAccountId: house,
      toAccountId: farm,
      memo: 'Fence',
    }),
  )
  read(books, house, [line('2026-01-04', -50_000, 'Online transfer')])
  read(books, farm, [line('2026-01-05', 50_000, 'Transfer in')])
  for (const payee of ['Online transfer', 'Transfer in']) {
    const { line: waiting, proposal } = deskOf(books, payee)
    if (proposal?.kind !== 'entry') throw new Error(`No entry proposed for ${payee}`)
    sort(books, { lineId: waiting.id, kind: 'entry', postingId: proposal.postingId })
  }
  expect(balancesOn(books).get(farm)).toBe(50_000)
  expect(sortingDesk(books).waiting).toBe(0)
  sound(books)
})

test('an entry made by hand is matched, and a taken-back one is not proposed', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  const head = { id: '', sideId: 'farm', day: on('2026-01-03'), payee: 'Hollow Feed', memo: '' }
  const draft = moneyOut(head, checking, [
    { accountId: books.account('farm', 'Feed').id, amountCents: cents(4200) },
  ])
  const { entryId } = done(postEntry(books, act(), draft))
  read(books, checking, [line('2026-01-05', -4200, 'HOLLOW FEED')])
  expect(deskOf(books, 'HOLLOW FEED').proposal).toMatchObject({ kind: 'entry', payee: 'Hollow Feed' })
  done(voidEntry(books, act(), entryId, on('2026-01-31')))
  expect(deskOf(books, 'HOLLOW FEED').proposal).toBeNull()
})

test('a line split over two sides makes the crossing itself', () => {
  const books = freshBooks()
  const house = books.account('household', 'Household checking').id
  const [feed, groceries] = [books.account('farm', 'Feed').id, books.account('household', 'Groceries').id]
  read(books, house, [line('2026-01-05', -10_000, 'General store')])
  const lineId = deskOf(books, 'General store').line.id
  const parts = (one: number, other: number) => [
    { accountId: feed, size: cents(one) },
    { accountId: groceries, size: cents(other) },
  ]
  const wrong = sortLines(books, act(), [{ lineId, kind: 'split', parts: parts(6000, 3000) }])
  expect(wrong.ok ? '' : wrong.problems[0]!.message).toContain('$90.00')
  sort(books, { lineId, kind: 'split', parts: parts(6000, 4000) })
  expect(balancesOn(books).get(feed)).toBe(6000)
  expect(books.sqlite.prepare('SELECT kind, amount_cents AS cents FROM crossings').all()).toEqual([
    { kind: 'contribution', cents: 6000 },
  ])
  sound(books)
})

test('a customer’s payment that landed in the household’s account is farm income and a draw', () => {
  const books = freshBooks()
  const house = books.account('household', 'Household checking').id
  const shares = books.account('farm', 'CSA shares').id
  read(books, house, [line('2026-01-05', 62_000, 'Neighbor')])
  const target = { kind: 'account', accountId: shares, enterpriseId: null } as const
  sort(books, { lineId: deskOf(books, 'Neighbor').line.id, kind: 'target', target })
  expect(balancesOn(books).get(shares)).toBe(-62_000)
  expect(books.sqlite.prepare('SELECT kind FROM crossings').pluck().all()).toEqual(['draw'])
  sound(books)
})

test('a line set aside posts nothing and can be brought back; taking an entry back makes its line wait', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  read(books, checking, [line('2026-01-05', -700, 'A'), line('2026-01-05', -800, 'B')])
  const [a, b] = ['A', 'B'].map((payee) => deskOf(books, payee).line.id)
  const target = { kind: 'account', accountId: books.account('farm', 'Feed').id, enterpriseId: null } as const
  sort(
    books,
    { lineId: a!, kind: 'ignore', note: 'Entered elsewhere' },
    { lineId: b!, kind: 'target', target },
  )
  expect(sortingDesk(books).waiting).toBe(0)
  expect(listSetAside(books)).toMatchObject([{ id: a, payee: 'A', note: 'Entered elsewhere' }])
  done(takeUpLine(books, act(), a!))
  expect(listSetAside(books)).toEqual([])
  const entryId = books.sqlite
    .prepare("SELECT id FROM entries WHERE source = 'statement'")
    .pluck()
    .get() as string
  done(voidEntry(books, act(), entryId, on('2026-01-31')))
  expect(sortingDesk(books).lines.map((each) => each.line.payee)).toEqual(['A', 'B'])
  sort(books, { lineId: b!, kind: 'target', target })
  sound(books)
})

test('history knows where lines went, so that a rule can be tried on it', () => {
  const books = freshBooks()
  const [farm, house] = [
    books.account('farm', 'Farm checking').id,
    books.account('household', 'Household checking').id,
  ]
  const [feed, seeds] = [books.account('farm', 'Feed').id, books.account('farm', 'Seeds and plants').id]
  read(books, farm, [
    line('2026-01-01', -100, 'HOLLOW FEED'),
    line('2026-01-02', -200, 'HOLLOW SEED'),
    line('2026-01-03', -300, 'HOLLOW DRAW'),
    line('2026-01-04', -400, 'HOLLOW SPLIT'),
    line('2026-01-05', -500, 'HOLLOW LATER'),
  ])
  const id = (payee: string) => deskOf(books, payee).line.id
  const account = (accountId: number) => ({ kind: 'account', accountId, enterpriseId: null }) as const
  const crossing = { kind: 'crossing', crossingKind: 'draw', otherAccountId: house } as const
  sort(
    books,
    { lineId: id('HOLLOW FEED'), kind: 'target', target: account(feed) },
    { lineId: id('HOLLOW SEED'), kind: 'target', target: account(seeds) },
    { lineId: id('HOLLOW DRAW'), kind: 'target', target: crossing },
    {
      lineId: id('HOLLOW SPLIT'),
      kind: 'split',
      parts: [
        { accountId: feed, size: cents(100) },
        { accountId: seeds, size: cents(300) },
      ],
    },
  )
  const history = sortingHistory(books)
  expect(Object.fromEntries(history.map((each) => [each.payee, each.went]))).toEqual({
    'HOLLOW FEED': account(feed),
    'HOLLOW SEED': account(seeds),
    'HOLLOW DRAW': crossing,
    'HOLLOW SPLIT': 'other',
    'HOLLOW LATER': null,
  })
  const { ruleId } = done(
    saveRule(books, act(), null, {
      matchKind: 'starts',
      matchText: 'Hollow 77',
      onAccountId: null,
      sign: 'out',
      minimum: null,
      maximum: null,
      target: account(feed),
      priority: 1,
    }),
  )
  const rules = listRules(books)
  const rule = rules.find((each) => each.id === ruleId)!
  expect(rule.matchText).toBe('hollow')
  expect(dryRun(rule, rules, history).counts).toEqual({ same: 1, different: 2, unsorted: 1, other: 1 })
  expect(deskOf(books, 'HOLLOW LATER').proposal).toMatchObject({
    kind: 'rule',
    proposal: { ruleId, how: 'starts' },
  })
  done(archiveRule(books, act(), ruleId))
  expect(listRules(books).some((each) => each.id === ruleId)).toBe(false)
})

test('a payee whose lines went to several accounts is proposed as last time, but as one to check', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  const target = (name: string) =>
    ({ kind: 'account', accountId: books.account('farm', name).id, enterpriseId: null }) as const
  const store = 'VALLEY GENERAL STORE'
  const go = (day: string, name: string) => {
    read(books, checking, [line(day, -100, store)])
    sort(books, { lineId: deskOf(books, store).line.id, kind: 'target', target: target(name) })
  }
  const next = (day: string) => {
    read(books, checking, [line(day, -100, store)])
    return sortingDesk(books).lines.find((each) => each.line.day === on(day))!.proposal
  }
  go('2026-01-01', 'Feed')
  expect(next('2026-02-01')).toMatchObject({ kind: 'rule', isSure: true })
  go('2026-01-02', 'Seeds and plants')
  expect(next('2026-02-02')).toMatchObject({
    isSure: false,
    habit: { isVaried: true, clue: 'same amount', places: [target('Seeds and plants'), target('Feed')] },
    proposal: { target: target('Seeds and plants') },
  })
  // Twelve alike since then are a habit again.
  for (let at = 3; at <= 13; at += 1) go(`2026-01-${String(at).padStart(2, '0')}`, 'Seeds and plants')
  expect(next('2026-02-03')).toMatchObject({ isSure: true, habit: { isVaried: false } })
})

test('any file, read whole or in overlapping pieces, leaves the same lines', () => {
  const rows = fc.array(
    fc.record({
      days: fc.integer({ min: 1, max: 28 }),
      amount: fc.integer({ min: -500, max: 500 }).filter((amount) => amount !== 0),
    }),
    { minLength: 1, maxLength: 25 },
  )
  fc.assert(
    fc.property(rows, fc.array(fc.tuple(fc.nat(25), fc.nat(25)), { maxLength: 4 }), (made, cuts) => {
      const books = freshBooks()
      const [one, two] = [books.account('farm', 'Farm checking').id, books.account('farm', 'Farm reserve').id]
      const file = [...made]
        .sort((a, b) => a.days - b.days)
        .map((row, at) => line(`2026-01-${String(row.days).padStart(2, '0')}`, row.amount, 'Payee', `N${at}`))
      read(books, one, file)
      for (const [from, length] of cuts) {
        const piece = file.slice(from, from + length)
        if (piece.length > 0) read(books, two, piece)
      }
      read(books, two, file)
      expect(previewImport(books, two, file, today).every((each) => each.verdict === 'seen')).toBe(true)
      const kept = (accountId: number) =>
        books.sqlite
          .prepare(
            'SELECT line_key, day, amount_cents, state FROM statement_lines WHERE account_id = ? ORDER BY line_key',
          )
          .all(accountId)
      expect(kept(two)).toEqual(kept(one))
      books.close()
    }),
    { seed: 20261125, numRuns: 40 },
  )
})

test('a line whose entry is corrected to another amount comes back doubtful, with why, and proposes nothing', () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking').id
  const feed = books.account('farm', 'Feed').id
  read(books, checking, [line('2026-06-02', -9213, 'Hollow Feed'), line('2026-06-03', -1000, 'Hollow Feed')])
  const [first, second] = sortingDesk(books).lines.map(({ line }) => line.id) as [number, number]
  const target = { kind: 'account', accountId: feed, enterpriseId: null } as const
  sort(books, { lineId: first, kind: 'target', target }, { lineId: second, kind: 'target', target })
  const entryOf = (lineId: number) =>
    books.sqlite
      .prepare(
        `SELECT entries.id FROM statement_lines AS line JOIN postings ON postings.id = line.posting_id
         JOIN entries ON entries.no = postings.entry_no WHERE line.id = ?`,
      )
      .pluck()
      .get(lineId) as string
  const paid = (cost: number) => ({
    sideId: 'farm',
    day: on('2026-06-02'),
    payee: 'Hollow Feed',
    memo: '',
    source: 'form' as const,
    lines: [
      { accountId: feed, amountCents: cents(cost) },
      { accountId: checking, amountCents: cents(-cost) },
    ],
  })
  // The same amount on another day: the line stays tied.
  const moved = done(correctEntry(books, act(), entryOf(second), { ...paid(1000), day: on('2026-06-04') }))
  expect(moved.freedLines).toBe(0)
  expect(entryOf(second)).toBe(moved.entryId)
  const corrected = done(correctEntry(books, act(), entryOf(first), paid(8213)))
  expect(corrected.freedLines).toBe(1)
  const [waits, ...others] = sortingDesk(books).lines
  expect(others).toEqual([])
  expect(waits).toMatchObject({ line: { id: first, state: 'doubtful' }, proposal: null })
  expect(waits!.line.note).toBe(
    `Was booked as “Hollow Feed”, −$92.13, corrected to −$82.13 on Jun 2, 2026 (entry ${corrected.entryNo}): choose whether the books have it by that entry`,
  )
  expect(sortLines(books, act(), [{ lineId: first, kind: 'target', target }])).toMatchObject({ ok: false })
  expect(balancesOn(books).get(checking)).toBe(-9213)
  sound(books)
  // Corrected once more the line says what the entry is now; corrected back it stands for the entry again.
  const other = done(correctEntry(books, act(), corrected.entryId, paid(7213)))
  expect(sortingDesk(books).lines[0]!.line.note).toContain(
    `to −$72.13 on Jun 2, 2026 (entry ${other.entryNo})`,
  )
  const back = done(correctEntry(books, act(), other.entryId, paid(9213)))
  expect(sortingDesk(books).waiting).toBe(0)
  expect(entryOf(first)).toBe(back.entryId)
  expect(balancesOn(books).get(checking)).toBe(-10213)
  sound(books)
})

test('a payee that was split the same way twice is proposed so by itself, until that is forgotten', () => {
  const books = freshBooks()
  const house = books.account('household', 'Household checking').id
  const id = (name: string) => books.account('household', name).id
  const pay = (day: string, net: number, parts: [name: string, size: number][]) => {
    read(books, house, [line(day, net, 'LOWER MILL SCHOOL PAYROLL')])
    const { line: waiting } = deskOf(books, 'LOWER MILL SCHOOL PAYROLL')
    return sort(books, {
      lineId: waiting.id,
      kind: 'split',
      parts: parts.map(([name, size]) => ({ accountId: id(name), size: cents(size) })),
    })
  }
  const withheld: [string, number] = ['Federal taxes', -21_000]
  expect(pay('2026-01-15', 160_000, [['Off-farm pay', 181_000], withheld])).toMatchObject({ rulesLearned: 0 })
  expect(pay('2026-01-31', 172_000, [['Off-farm pay', 193_000], withheld])).toMatchObject({ rulesLearned: 1 })
  read(books, house, [line('2026-02-15', 166_000, 'LOWER MILL SCHOOL PAYROLL')])
  const next = deskOf(books, 'LOWER MILL SCHOOL PAYROLL')
  // 1,660.00 net is 1,870.00 less 210.00.
  expect(next.proposal).toMatchObject({ kind: 'rule', isSure: true })
  const { split, proposal } = next.proposal as Extract<typeof next.proposal, { kind: 'rule' }>
  expect(split).toHaveLength(2)
  sort(books, { lineId: next.line.id, kind: 'rule', ruleId: proposal.ruleId })
  expect(balancesOn(books).get(id('Off-farm pay'))).toBe(-(181_000 + 193_000 + 187_000))
  expect(balancesOn(books).get(id('Federal taxes'))).toBe(63_000)
  sound(books)
})

test('what comes back of a purchase for the other side is a crossing back by itself', () => {
  const books = freshBooks()
  const card = books.account('household', 'Household card').id
  const feed = books.account('farm', 'Feed').id
  const target = { kind: 'account', accountId: feed, enterpriseId: null } as const
  read(books, card, [
    line('2026-03-02', -9000, 'HOLLOW FEED'),
    line('2026-03-09', 2500, 'HOLLOW FEED RETURN'),
  ])
  for (const { line: one } of sortingDesk(books).lines)
    sort(books, { lineId: one.id, kind: 'target', target })
  expect(balancesOn(books).get(card)).toBe(-6500)
  expect(balancesOn(books).get(feed)).toBe(6500)
  sound(books)
})
