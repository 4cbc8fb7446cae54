// House rules that no general linter knows: sizes, banned calls, words that do not belong.
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { expect, test } from 'vitest'
import { functionLengths } from './function-lengths.ts'

const root = new URL('..', import.meta.url).pathname

const filesUnder = (folder: string): string[] =>
  readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? filesUnder(join(folder, entry.name)) : [join(folder, entry.name)],
  )

const sources = [...filesUnder('src'), ...filesUnder('views')].filter((file) => /\.tsx?$/.test(file))
const text = new Map(sources.map((file) => [file, readFileSync(join(root, file), 'utf8')]))

const pureRooms = ['kept', 'money', 'calendar', 'rules', 'ledger', 'farm', 'plan', 'runway', 'solve', 'today']
const isPure = (file: string) =>
  pureRooms.some((room) => file.startsWith(`src/${room}/`)) || file.startsWith('views/')

/** Law and history as data may be as long as the publications they carry. */
const isData = (file: string) =>
  /^src\/rules\/(years|data)\//.test(file) || /market-history|life-table/.test(file)

const offenders = (pattern: RegExp, files = sources): string[] =>
  files.flatMap((file) =>
    text
      .get(file)!
      .split('\n')
      .flatMap((line, index) => (pattern.test(line) ? [`${file}:${index + 1}: ${line.trim()}`] : [])),
  )

test('no file outgrows 300 lines, but for data carried over from publications', () => {
  const long = sources
    .filter((file) => !isData(file))
    .map((file) => [file, text.get(file)!.split('\n').length] as const)
  expect(long.filter(([, lines]) => lines > 301)).toEqual([])
})

test('no function outgrows 60 lines, its JSX counted', () => {
  const long = sources.flatMap((file) =>
    functionLengths(file, text.get(file)!)
      .filter(({ lines }) => lines > 60)
      .map(({ name, lines }) => `${file}: ${name}, ${lines} lines`),
  )
  expect(long).toEqual([])
})

test('lines are counted from the first of a function to its last, in JSX too, but for blank ones and comments', () => {
  const source = `/** é */\nexport const Roof = () => (\n  <p>\n    ü\n\n    {/* a word */}\n  </p>\n)\n// after\nfunction two() {\n  return 2\n}\n`
  expect(functionLengths('roof.tsx', source)).toEqual([
    { name: 'Roof', lines: 6 },
    { name: 'two', lines: 3 },
  ])
})

test('inner rooms and views take the clock and the seed as arguments', () => {
  expect(offenders(/\bDate\.now\(|\bMath\.random\(|new Date\(\)/, sources.filter(isPure))).toEqual([])
})

test('forms are read by our own doorways, never coerced', () => {
  expect(offenders(/z\.coerce/)).toEqual([])
})

test('pages keep to the content policy: no inline style, no inline handlers', () => {
  expect(offenders(/\bstyle=|hx-on|\bonclick=|['"]js:/)).toEqual([])
})

test('views take types from today, never what computes', () => {
  const views = sources.filter((file) => file.startsWith('views/'))
  const values = views.flatMap((file) =>
    [...text.get(file)!.matchAll(/^import (?!type )[^']*?from '#today\/[^']+'/gm)].map(
      ([line]) => `${file}: ${line}`,
    ),
  )
  expect(values.filter((line) => !/import \{\s*(type \w+,?\s*)+\} from/.test(line))).toEqual([])
})

test('no folder outgrows 25 files, but for tables of data', () => {
  const counts = new Map<string, number>()
  const all = ['src', 'views', 'sample'].flatMap(filesUnder).filter((file) => !/\.json$/.test(file))
  for (const file of all) counts.set(dirname(file), (counts.get(dirname(file)) ?? 0) + 1)
  expect([...counts].filter(([, files]) => files > 25)).toEqual([])
})

test('code and pages are in US English', () => {
  const british =
    /plough|instalment|programme|neighbour|favour|behaviour|licence|judgement|colour|labour(?!Cents)/i
  expect(offenders(british)).toEqual([])
})

/** Lists of what the tests hold the tables to: nothing else asks for them. */
const heldByTests = new Set(['derivedTables', 'provedOtherwise'])

test('what a file exports, it or another of the house uses: a test alone is no use', () => {
  const makers = filesUnder('sample').filter((file) => file.endsWith('.ts'))
  const names = new Map<string, Map<string, number>>()
  for (const file of [...sources, ...makers])
    for (const [name] of codeOf(text.get(file) ?? readFileSync(join(root, file), 'utf8')).matchAll(
      /[A-Za-z]\w*/g,
    )) {
      const places = names.get(name) ?? new Map<string, number>()
      names.set(name, places.set(file, (places.get(file) ?? 0) + 1))
    }
  const unused = sources
    .filter((file) => !/^src\/(rules\/data\/|db\/(notebook\/)?schema)/.test(file))
    .flatMap((file) =>
      [...text.get(file)!.matchAll(/^export (?:async )?(?:const|function\*?|class) (\w+)/gm)]
        .filter(([, name]) => names.get(name!)!.size === 1 && names.get(name!)!.get(file) === 1)
        .filter(([, name]) => !heldByTests.has(name!))
        .map(([, name]) => `${file}: ${name}`),
    )
  expect(unused).toEqual([])
})

/** Without comments. */
const codeOf = (source: string): string => source.replaceAll(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '')

test('no leftover debugging', () => {
  expect(offenders(/\bdebugger\b|console\.(log|debug)/)).toEqual([])
})

test('every module but the smallest data opens with a sentence that says what it is', () => {
  const silent = sources.filter((file) => !/^(\/\/|\/\*\*|#!)/.test(text.get(file)!))
  expect(silent).toEqual([])
})

test('files and words carry no machine path and no registry host', () => {
  const all = [
    ...sources,
    ...filesUnder('tests'),
    ...filesUnder('sample'),
    'README.md',
    'DEVELOPERS.md',
    'package.json',
    'package-lock.json',
  ]
  const pattern = new RegExp(
    ['/wo' + 'rk/', '/ro' + 'ot/', '/tmp/ba' + 'sh', 'registry\\.npm' + 'js', 'deb\\.deb' + 'ian'].join('|'),
  )
  const bad = all
    .filter((file) => /\.(tsx?|mjs|cjs|json|md|css|js)$/.test(file))
    .filter((file) => pattern.test(readFileSync(join(root, file), 'utf8')))
  expect(bad).toEqual([])
})
