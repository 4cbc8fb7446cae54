import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openBooksOrThrow } from '#db/open.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { CommandError } from '#src/cli/command.ts'
import { importCommand } from '#src/cli/import.ts'
import { freshBooks } from '../db/fresh-books.ts'

let folder: string

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  freshBooks(join(folder, 'books.sqlite')).close()
})
afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

const say = async (...args: string[]) => {
  const lines: string[] = []
  const io = {
    out: (text: string) => void lines.push(text),
    err: (text: string) => void lines.push(text),
    readInput: async () => '',
    env: { DOORYARD_DATA: folder },
    now: () => new Date('2026-02-01T08:00:00Z'),
  }
  try {
    return { code: await importCommand.run(args, io), said: lines.join('\n') }
  } catch (error) {
    if (!(error instanceof CommandError)) throw error
    return { code: error.exitCode, said: error.message }
  }
}

const file = (name: string, text: string) => {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}

const waiting = () => {
  const books = openBooksOrThrow(join(folder, 'books.sqlite'), { now: new Date(0) })
  const count = sortingDesk(books).waiting
  books.close()
  return count
}

const csv = 'Posted,What,Out,In\n01/22/2026,Market,,150.00\n01/03/2026,Fuel,40.10,\n'
const ofx = (id: string) =>
  `<OFX><STMTRS><BANKACCTFROM><ACCTID>${id}</BANKACCTFROM><BANKTRANLIST><STMTTRN><DTPOSTED>20260105<TRNAMT>-5<FITID>${id}1<NAME>x</STMTTRN></BANKTRANLIST></STMTRS>`

test('a file is shown without --yes, read in with it, and adds nothing the second time', async () => {
  const path = file('bank.csv', csv)
  const shown = await say(path, '--account', 'Household checking')
  expect(shown).toMatchObject({ code: 0 })
  expect(shown.said).toContain('2 new, 0 seen, 0 doubtful')
  expect(shown.said).toContain('Nothing was stored')
  expect(waiting()).toBe(0)
  expect(await say(path, '--account', 'household/Household checking', '--yes')).toMatchObject({
    code: 0,
    said: expect.stringContaining('2 new transactions not yet'),
  })
  // The account is known by the header now.
  expect((await say(path, '--yes')).said).toContain(
    '0 new transactions not yet sorted, 0 doubtful ones to be decided; 0 took the place of earlier ones, 2 were seen',
  )
  expect(waiting()).toBe(2)
})

test('the mapping that the look prints can be changed and given back', async () => {
  const path = file('bank.csv', 'Posted,What,Out,In\n01/02/2026,Market,,150.00\n01/03/2026,Fuel,40.10,\n')
  const printed = /--mapping '(.*)'/.exec((await say(path, '--account', 'Farm checking')).said)![1]!
  const mapping = { ...JSON.parse(printed), dayOrder: 'day-month-year' }
  const read = await say(path, '--account', 'Farm checking', '--yes', '--mapping', JSON.stringify(mapping))
  expect(read.code).toBe(0)
  const books = openBooksOrThrow(join(folder, 'books.sqlite'), { now: new Date(0) })
  expect(sortingDesk(books).lines.map(({ line }) => line.day)).toEqual(['2026-02-01', '2026-03-01'])
  books.close()
  expect(await say(path, '--account', 'Farm checking', '--mapping', '{"delimiter":"x"}')).toMatchObject({
    code: 2,
  })
})

test('several bank accounts in one file are told apart', async () => {
  const path = file('two.ofx', `${ofx('A')}${ofx('B')}</OFX>`)
  expect(await say(path, '--account', 'Farm checking')).toMatchObject({
    code: 2,
    said: expect.stringContaining('A, B'),
  })
  expect(await say(path, '--account', 'Farm checking', '--statement', 'B', '--yes')).toMatchObject({
    code: 0,
    said: expect.stringContaining('The file also holds A'),
  })
  expect(await say(path, '--statement', 'B')).toMatchObject({
    code: 0,
    said: expect.stringContaining('0 new, 1 seen'),
  })
})

test('the rows of several accounts in a CSV go each to their own, those known in one go', async () => {
  const rows = (day: string) =>
    file(
      `rows-${day}.csv`,
      `Account Number,Date,Description,Amount\n9110077,01/${day}/2026,Feed ${day},-8.00\n9110085,01/${day}/2026,Bread ${day},-5.10\n`,
    )
  const before = waiting()
  expect((await say(rows('13'), '--account', 'Farm checking', '--yes')).code).not.toBe(0)
  for (const [number, account] of [
    ['9110077', 'Farm reserve'],
    ['9110085', 'Savings'],
  ] as const) {
    const one = await say(rows('13'), '--statement', number, '--account', account, '--yes')
    expect(one).toMatchObject({ code: 0 })
  }
  expect(waiting()).toBe(before + 2)
  const next = await say(rows('20'), '--yes')
  expect(next.said).toContain('Farm reserve: 1 new')
  expect(next.said).toContain('Savings: 1 new')
  expect(waiting()).toBe(before + 4)
})

test('every part of a file whose account is known is read in one go, the others are named', async () => {
  const one = (name: string) => file(`${name}.ofx`, `${ofx(name)}</OFX>`)
  for (const [name, account] of [
    ['A', 'Farm checking'],
    ['B', 'household/Household checking'],
  ] as const)
    expect((await say(one(name), '--account', account, '--yes')).code).toBe(0)
  const more = (name: string) =>
    ofx(name)
      .replace('<FITID>', '<FITID>later-')
      .replaceAll(/<DTPOSTED>\d{8}/g, '<DTPOSTED>20260120')
  const three = file('three.ofx', `${more('A')}${more('B')}${more('C')}</OFX>`)
  const looked = await say(three)
  expect(looked.said).toContain('Farm checking: 1 new')
  expect(looked.said).toContain('Household checking: 1 new')
  expect(waiting()).toBe(2)
  const read = await say(three, '--yes')
  expect(read.code).toBe(0)
  expect(read.said).toContain('The file also holds C')
  expect(waiting()).toBe(4)
})

test('several files are compared with one another, in the look as in the reading, and read all or none', async () => {
  const rows = (name: string, ...lines: string[]) =>
    file(`${name}.csv`, ['Posted,What,Out,In', ...lines, ''].join('\n'))
  expect(
    (await say(rows('may', '05/30/2025,Seed,7.00,'), '--account', 'Farm checking', '--yes')).said,
  ).toContain('1 new transaction not yet sorted')
  // June ends and July begins with the same two days, as banks' files overlap.
  const june = rows('june', '06/02/2025,Feed,61.25,', '06/30/2025,Market,,318.00')
  const july = rows('july', '06/30/2025,Market,,318.00', '07/03/2025,Fuel,44.10,')
  const looked = await say(june, july)
  expect(looked.said.match(/Farm checking: .*/g)).toEqual([
    'Farm checking: 2 new, 0 seen, 0 doubtful, 0 in place of earlier ones.',
    'Farm checking: 1 new, 1 seen, 0 doubtful, 0 in place of earlier ones.',
  ])
  expect(looked.said).toContain('Nothing was stored')
  expect(waiting()).toBe(1)
  const broken = rows('august', '08/44/2025,Fuel,44.10,')
  expect(await say(june, july, broken, '--yes')).toMatchObject({
    code: 1,
    said: expect.stringContaining('august.csv: Line 2'),
  })
  expect(waiting()).toBe(1)
  expect((await say(june, july, '--yes')).code).toBe(0)
  expect(waiting()).toBe(4)
  expect(await say(june, july, '--account', 'Farm checking')).toMatchObject({
    code: 2,
    said: expect.stringContaining('leave out --account'),
  })
})

test.for([
  ['no file named', [], 2, 'Name the file'],
  ['a file that is not there', ['nowhere.ofx'], 1, 'There is no file'],
  [
    'an account that is not there',
    ['FILE', '--account', 'Piggy bank'],
    2,
    'There is no account “Piggy bank”',
  ],
  ['a name that two accounts have', ['FILE', '--account', 'Opening balances'], 2, 'There is no account'],
  ['no account', ['FILE'], 2, 'Say which account'],
] as const)('%s: exit code and one line that says what to do', async ([, args, code, message]) => {
  const path = file('bank.csv', csv)
  const reply = await say(...args.map((arg) => (arg === 'FILE' ? path : arg)))
  expect(reply.code).toBe(code)
  expect(reply.said).toContain(message)
})

test('a broken file is refused with its line, and nothing is stored', async () => {
  const path = file('broken.csv', csv.replace('01/03', '01/33'))
  const reply = await say(path, '--account', 'Farm checking', '--yes')
  expect(reply).toMatchObject({
    code: 1,
    said: expect.stringContaining('Line 3: “01/33/2026” is not a date'),
  })
  expect(waiting()).toBe(0)
})

test('what is doubtful about a file is asked, and read in only with a yes to each question', async () => {
  const path = file('early.csv', 'Date,Description,Amount\n01/02/2026,Feed,-5\n01/03/2026,Seed,-6\n')
  const shown = await say(path, '--account', 'Farm checking')
  expect(shown.said).toContain('Dates like 01/02/2026 can be read in more than one way')
  expect(shown.said).toContain('--sure dayOrder')
  expect(await say(path, '--account', 'Farm checking', '--yes')).toMatchObject({
    code: 1,
    said: expect.stringContaining('--sure dayOrder'),
  })
  expect(waiting()).toBe(0)
  expect((await say(path, '--account', 'Farm checking', '--sure', 'dayOrder', '--yes')).code).toBe(0)
  expect(waiting()).toBe(2)
})

test('bytes that are no text are refused in one line', async () => {
  const path = join(folder, 'noise.csv')
  writeFileSync(
    path,
    Uint8Array.from({ length: 900 }, (_, at) => (at * 167 + (at >> 8) * 13) % 256),
  )
  const refused = await say(path, '--account', 'Farm checking')
  expect(refused.code).toBe(1)
  expect(refused.said).toMatch(/^[^\n]*no text file[^\n]*$/)
})
