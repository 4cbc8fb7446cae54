// The command line as a whole: every failure is a line that says what to do, with one set of exit codes, and never a stack trace.
import { spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { runCommandLine } from '#src/cli/run-command-line.ts'
import { serveLog } from '#src/cli/serve-log.ts'
import { freshBooks } from '../db/fresh-books.ts'

let folder: string

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  freshBooks(join(folder, 'books.sqlite')).close()
  mkdirSync(join(folder, 'inside'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const say = async (args: string[], { input = '', env = {} }: { input?: string; env?: object } = {}) => {
  const out: string[] = []
  const err: string[] = []
  const code = await runCommandLine(args, {
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    readInput: async () => input,
    env: { DOORYARD_DATA: folder, ...env },
    now: () => new Date('2026-02-01T08:00:00Z'),
  })
  return { code, out, err }
}

const file = (name: string, content: string | Uint8Array) => {
  writeFileSync(join(folder, name), content)
  return join(folder, name)
}

const plan = {
  startMonth: '2027-01',
  years: 3,
  household: { living: [{ id: 'living', name: 'Living', perMonth: 2600 }] },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_000 }] },
}
const withSlip = { ...plan, household: { livingg: plan.household.living, living: [] } }

describe('a plan written by hand', () => {
  test.each(['project', 'solve income-room'])(
    'a key that no plan has is refused by %s, by its path',
    async (words) => {
      const path = file('slip.json', JSON.stringify(withSlip))
      const { code, out, err } = await say([...words.split(' '), path])
      expect([code, out]).toEqual([2, []])
      expect(err).toEqual([
        expect.stringMatching(/^dooryard \w+: household\.livingg: there is no such key here$/),
      ])
    },
  )

  test('every wrong value is a line of its own with its path, in plain words', async () => {
    const bent = {
      ...plan,
      household: { living: [{ id: 'living', name: 'Living', perMonth: '2,600' }], floor: { kind: 'weeks' } },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'jar' }] },
      draw: 7,
    }
    const { code, err } = await say(['project', file('bent.json', JSON.stringify(bent))])
    expect(code).toBe(2)
    const text = err.join('\n')
    for (const path of [
      'household.living.0.perMonth',
      'savings.accounts.0.kind',
      'savings.accounts.0.balance',
      'draw',
    ])
      expect(text).toContain(`dooryard project: ${path}: `)
    expect(text).toContain('Choose "cash", "taxable", "traditional", "roth", or "health"')
    expect(text).not.toMatch(/Invalid|expected|received|undefined|ZodError|\n\s*at /)
  })

  test('a byte-order mark, UTF-16 and Windows line ends are read as any other text', async () => {
    const text = JSON.stringify(plan, null, 1).replaceAll('\n', '\r\n')
    const said = await Promise.all(
      [
        file('plain.json', text),
        file('marked.json', `\uFEFF${text}`),
        file('wide.json', Buffer.from(`\uFEFF${text}`, 'utf16le')),
      ].map(async (path) => await say(['project', path])),
    )
    expect(said.map(({ code }) => code)).toEqual([0, 0, 0])
    expect(new Set(said.map(({ out }) => out.join())).size).toBe(1)
    expect((await say(['project', '-'], { input: `\uFEFF${text}` })).code).toBe(0)
  })

  test('what is not JSON says where it stops being so', async () => {
    expect(
      (await say(['project', file('comma.json', '{"startMonth": "2027-01",\n  "years": 3,\n}')])).err,
    ).toEqual([
      'dooryard project: plan: It is not JSON: line 3, letter 1. Look for a missing comma, quotation mark or bracket',
    ])
    expect((await say(['estimate', file('cut.json', '{"taxYear": 2026')])).err).toEqual([
      'dooryard estimate: input: It is not JSON: line 1, letter 17. Look for a missing comma, quotation mark or bracket',
    ])
    expect((await say(['solve', 'draw', file('empty.json', '')])).code).toBe(2)
  })
})

describe('what cannot be read', () => {
  const readers = ['project', 'solve draw', 'estimate', 'estimate --kind rmd', 'import', 'verify', 'restore']
  test.each(readers)('a missing file is one line and exit code 1 for %s', async (words) => {
    const { code, err } = await say([...words.split(' '), join(folder, 'nothing.here')])
    expect([code, err]).toEqual([
      1,
      [expect.stringMatching(/: There is no (file|backup) at .*nothing\.here\. Check the name\.$/)],
    ])
  })
  test.each(['project', 'solve draw', 'estimate', 'import'])(
    'a folder is told as one for %s',
    async (words) => {
      const { code, err } = await say([...words.split(' '), join(folder, 'inside')])
      expect([code, err]).toEqual([1, [expect.stringContaining('is a folder. Name a file in it.')]])
    },
  )
  test('a place for books that is a file is told, and nothing is made', async () => {
    const notes = file('notes.txt', 'Dear diary')
    for (const command of ['serve', 'backup'])
      expect(
        await say([command, ...(command === 'backup' ? [join(folder, 'x.sqlite')] : []), '--data', notes]),
      ).toMatchObject({
        code: 1,
        err: [expect.stringMatching(/notes\.txt/)],
      })
  })
})

test('the mix is told in words and as JSON, beside what the plan has', async () => {
  const hens = {
    ...plan,
    household: { ...plan.household, people: [{ id: 'ida', name: 'Ida', born: '1980-05-01' }] },
    farm: {
      crew: [{ who: 'ida', weeklyHours: 10 }],
      enterprises: [
        { id: 'hens', name: 'Hens', salesPerUnit: Array(12).fill(900), hoursPerUnit: Array(12).fill(40) },
      ],
    },
  }
  const path = file('hens.json', JSON.stringify(hens))
  const told = await say(['solve', 'mix', path])
  // 900 a month in 40 hours are planned; 10 hours a week are 43.5 a month: a little more of the same.
  expect(told.out[0]).toMatch(
    /^January 2028, As it is: \$11,\d{3} a year in 5\d\d hours\.\nThat is \$\d{3} more: as it stands, the plan makes \$10,800/,
  )
  expect(told.code).toBe(0)
  const json = JSON.parse((await say(['solve', 'mix', path, '--json'])).out[0]!) as {
    mixes: { there: { net: number } }[]
  }
  expect(json.mixes[0]!.there.net).toBe(10_800)
  const fewest = await say(['solve', 'mix', path, '--aim', 'hours'])
  expect(fewest.out[0]).toContain('The plan has this mix already')
  expect((await say(['solve', 'mix', path, '--aim', 'money'])).code).toBe(2)
})

describe('options', () => {
  test('more workers than the machine has processors are asked for by a script of another one: as many as there are work', async () => {
    const path = file('few.json', JSON.stringify(plan))
    const told = await say(['project', path, '--paths', '3', '--workers', '1024'])
    expect(told.code).toBe(0)
    expect(told.out).toEqual((await say(['project', path, '--paths', '3', '--workers', '1'])).out)
  })
  test('the help of solve says of each option which questions take it', async () => {
    const help = (await say(['solve', '--help'])).out.join('\n')
    expect(help).toContain(
      'Every question but income-room and mix, which simulate nothing, takes\n--confidence P',
    )
    for (const line of [
      /--later-rate P +account-order and losses:/,
      /--hours H +slow-down:/,
      /--aim .* +mix:/,
    ])
      expect(help).toMatch(line)
  })
  const unused: [string, string][] = [
    ['project PLAN --seed 3', '--seed'],
    ['project PLAN --history --paths 50', '--paths'],
    ['project PLAN --history --seed 3', '--seed'],
    ['project PLAN --workers 2', '--workers'],
    ['solve income-room PLAN --paths 60', '--paths'],
    ['solve income-room PLAN --confidence 80', '--confidence'],
    ['solve mix PLAN --paths 60', '--paths'],
    ['solve mix PLAN --workers 2', '--workers'],
    ['solve draw PLAN --workers 0', '--workers'],
    ['solve draw PLAN --workers many', '--workers'],
    ['solve draw PLAN --aim net', '--aim'],
    ['solve draw PLAN --hours 20', '--hours'],
    ['solve slow-down PLAN --later-rate 10', '--later-rate'],
    ['import CSV --statement 5 --account Feed', '--statement'],
    ['import OFX --mapping {}', '--mapping'],
    ['verify CSV --data .', '--data'],
    ['plan-schema x', 'x'],
    ['plan-schema --json', '--json'],
    ['verify --everything', '--everything'],
    ['project', 'PLAN.json'],
    ['project PLAN --bad-year', '--bad-year'],
    ['serve here', 'here'],
    ['frobnicate', 'frobnicate'],
  ]
  test.each(unused)('“%s” is refused in one line that names what does not apply', async (words, named) => {
    const names: Record<string, string> = {
      PLAN: file('plan.json', JSON.stringify(plan)),
      CSV: file('bank.csv', 'Date,What,Amount\n01/25/2026,Feed,-12.50\n'),
      OFX: file(
        'bank.ofx',
        '<OFX><STMTRS><BANKACCTFROM><ACCTID>1</BANKACCTFROM><BANKTRANLIST><STMTTRN><DTPOSTED>20260105<TRNAMT>-5<FITID>1<NAME>x</STMTTRN></BANKTRANLIST></STMTRS>',
      ),
    }
    const { code, out, err } = await say(words.split(' ').map((word) => names[word] ?? word))
    expect([code, out]).toEqual([2, []])
    expect(err).toHaveLength(1)
    expect(err[0]).toContain(named)
    expect(err[0]).not.toContain('\n')
  })

  test('the help of one kind of estimate is that kind’s; of all, theirs; and the codes are listed', async () => {
    const kind = await say(['estimate', '--kind', 'medicare', '--help'])
    expect([kind.code, kind.out[0]]).toEqual([0, expect.stringContaining('medicare')])
    const all = await say(['estimate', '--help'])
    expect(all.out[0]).toContain('dooryard estimate FILE')
    expect(kind.out).not.toEqual(all.out)
    expect((await say(['estimate', '--kind', 'nothing', '--help'])).code).toBe(2)
    expect((await say(['--help'])).out[0]).toMatch(/Exit codes:\n {2}0 {2}done\n {2}1 .*\n {2}2 /)
  })

  test('a log level that there is none of is refused', async () => {
    expect(await say(['serve'], { env: { DOORYARD_LOG: 'loud' } })).toMatchObject({
      code: 2,
      err: [expect.stringContaining('debug, info, warn, error, silent')],
    })
  })
})

test('the server speaks plain lines to people, and JSON only when asked', async () => {
  const lines: string[] = []
  const io = {
    out: () => {},
    err: (text: string) => void lines.push(text),
    readInput: async () => '',
    env: {},
    now: () => new Date(0),
  }
  const log = await serveLog(io)
  log.info({ status: 200 }, 'answered')
  log.warn({ waiting: 2 }, 'standing transfers wait for a person')
  log.error({ route: '/farm', error: 'RangeError', at: ['at a', 'at b'] }, 'a page broke')
  expect(lines).toEqual([
    'Dooryard: standing transfers wait for a person (waiting 2)',
    'Dooryard: a page broke (route /farm, error RangeError, at at a < at b)',
  ])
})

describe('as a process', { timeout: 120_000 }, () => {
  const run = (script: string) =>
    new Promise<{ code: number | null; said: string }>((resolve) => {
      const child = spawn('bash', ['-c', `set -o pipefail; ${script}`], {
        cwd: new URL('../..', import.meta.url),
      })
      let said = ''
      const hear = (text: Buffer) => {
        said += text.toString()
      }
      child.stdout.on('data', hear)
      child.stderr.on('data', hear)
      child.on('exit', (code) => resolve({ code, said }))
    })

  test('a reader who has enough before the end is no failure', async () => {
    const { code, said } = await run('node src/start.mjs sources | head -n 2')
    expect(code).toBe(0)
    expect(said).not.toMatch(/EPIPE|\bat \w/)
    expect(said.trim().split('\n').length).toBeLessThanOrEqual(2)
  })

  test('a certificate that is none is told in one line', async () => {
    const [certificate, key] = [file('a.pem', 'no certificate'), file('b.pem', 'no key')]
    const { code, said } = await run(
      `node src/start.mjs serve --data ${folder} --port 0 --certificate ${certificate} --key ${key}`,
    )
    expect([code, said.trim().split('\n')]).toEqual([
      1,
      [expect.stringContaining('are not a certificate and its key')],
    ])
  })
})
