// Words that people read: what pages, help, errors and the terminal no longer say, and the one label that stands in its place.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { writtenTexts } from './written-texts.ts'

const root = new URL('..', import.meta.url).pathname

const modulesUnder = (folder: string): string[] =>
  readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory()
      ? modulesUnder(join(folder, entry.name))
      : /\.tsx?$/.test(entry.name)
        ? [join(folder, entry.name)]
        : [],
  )

const months = 'Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec'

/** One meaning a word: what was said, and what is said now. */
const banned: readonly { say: string; not: RegExp }[] = [
  { say: 'bad year', not: /\bstorms?\b/i },
  { say: 'paid by the farm', not: /\bcover ratio\b/i },
  { say: 'house money in the farm', not: /\bleak(s|ed|ing)?\b/i },
  {
    say: 'simulation, run',
    not: /\bdrawn courses?\b|\bof courses\b|\b(middle|bad) course\b|\banother draw\b/i,
  },
  { say: 'projection', not: /\bexpected course\b|\bthe course\b/i },
  { say: 'transaction', not: /\bstatement lines?\b|\blines? of (a )?(bank )?statements?\b/i },
  { say: 'skipped', not: /\b(is|are|was|were|lines?) set aside\b(?! and)/i },
  { say: 'emergency fund', not: /\brainy[- ]day\b/i },
  { say: 'health coverage', not: /\b(marketplace|health) cover\b(?!age)|\bpay for cover\b/i },
  { say: 'Total cash, Total', not: /\bmoney together\b/i },
  { say: 'Preview, Refresh', not: /^Look (at it|again)$/ },
  { say: 'Record it', not: /^Post it$/ },
  {
    say: 'Save changes, correct',
    not: /\bput(s|ting)? (it|that|this|them|what is wrong) right\b|\bis put right\b/i,
  },
  { say: 'Cancel', not: /^Leave it( as it is)?$/ },
  { say: 'Reverse (an entry), Undo (an act)', not: /\btak(e|es|en|ing) (it |them |that )?back\b(?! what)/i },
  { say: 'Remove', not: /^Take (it )?(out|off)\b/ },
  { say: 'Archive, Bring back', not: /\bput (this rule |it )?away\b|\btake(n)? (it )?up again\b/i },
  { say: 'check, checked', not: /(?<!['.]|AS )\b(un)?tick(s|ed|ing)?\b(?!\.)/i },
  { say: 'head, head count, animals', not: /\bheads\b/i },
  { say: 'record', not: /\bpost(s|ing)? (it |all |by )|\bPost all\b|\bwas posted\b/ },
  { say: 'enterprise', not: /\blines? of work\b/i },
  { say: 'federal poverty level (FPL)', not: /\bpoverty line\b/i },
  { say: 'the farm can pay', not: /\bfarm bears\b/i },
  { say: 'again', not: /\banew\b/i },
  { say: 'savings needed', not: /\bstand ready\b/i },
  { say: 'unrealized gains', not: /\bgains not yet taken\b/i },
  { say: 'Not entered', not: /^Not said\b/ },
  { say: 'Please fix the following', not: /\blook at this again\b/i },
  { say: 'on another device', not: /\bat another screen\b/i },
  { say: 'Total', not: /^Together$/ },
  { say: 'Capacity, Return to labor', not: /^(Could take|Left for labor|Sold an hour)\b/ },
  { say: 'per unit, per female', not: /\b(sales|costs|hours|acres|yield|feed) a (unit|female)\b/i },
  { say: 'download a backup', not: /\bcarry away\b/i },
  { say: 'check the books', not: /\bprove (the books|them)\b/i },
  { say: 'zero this year', not: /\bcame to nothing\b/i },
  { say: 'dental', not: /\bteeth\b/i },
  { say: 'coverage', not: /\b(day for|month without|days of) cover\b/i },
  { say: 'reverse the earlier one', not: /\btake the earlier transaction back\b/i },
  { say: 'skip the checked', not: /\bset the checked aside\b/i },
  { say: 'farm profit, in dollars', not: /\bwhat it is now\b/i },
  { say: 'the yard', not: /\bcross(ed|es|ing)? the line\b|^The line$/i },
  { say: 'fits, does not fit', not: /\bout of step\b/i },
  { say: 'Nov 25, 2026', not: new RegExp(`\\b([1-9]|[12]\\d|3[01]) (${months})[a-z]*\\.?( \\d{4})?\\b`) },
  {
    say: 'entered, shown, known',
    not: /\b(is|are|was|were|be|not) (now )?told\b|\bnobody said\b|\bit was said\b/i,
  },
  { say: 'is in, is on', not: /\bstands? (in the|on the|here|in both|among|beside|in for)\b/i },
  { say: 'you record it', not: /\bfor a yes\b/i },
  { say: 'in simulations', not: /\bby lot\b/i },
  { say: 'No bank file has been read', not: /\bof a bank was\b/i },
  { say: 'compare with', not: /\bhe?ld? against\b|\bhold (it|them) against\b/i },
  {
    say: 'labor, installment, license, fall, dependent',
    not: /\b(labour|instalment|licence|autumn|counselling|dependant)s?\b/i,
  },
  {
    say: 'If another rule also matches, wins',
    not: /\bfits as well\b|\bsays more about\b/i,
  },
  { say: 'you included', not: /\bnot you either\b/i },
  { say: 'is due', not: /\bfalls due in the coming\b/i },
  { say: 'Optional', not: /\bmay stay empty\b/i },
  { say: 'when paid', not: /\bdeducted as it came\b/i },
  { say: 'This check can miss items', not: /\bthe watch knows\b/i },
  { say: 'plow, program, color, neighbor', not: /\b(plough|programme|colour|neighbour|favour)\w*\b/i },
]

const faultsIn = (file: string, texts: readonly { line: number; text: string }[]): string[] =>
  texts.flatMap(({ line, text }) =>
    banned
      .filter(({ not }) => not.test(text))
      .map(({ say, not }) => `${file}:${line}: say “${say}”: ${not.exec(text)![0]}`),
  )

const linesOf = (source: string) => source.split('\n').map((text, index) => ({ line: index + 1, text }))

test('texts of pages, errors and the terminal say each thing by its one word', () => {
  const modules = [...modulesUnder('src'), ...modulesUnder('views')]
  const texts = modules.map(
    (file) => [file, writtenTexts(file, readFileSync(join(root, file), 'utf8'))] as const,
  )
  expect(texts.flatMap(([, found]) => found).length).toBeGreaterThan(3000)
  expect(texts.flatMap(([file, found]) => faultsIn(file, found))).toEqual([])
})

test('the papers for readers say each thing by its one word', () => {
  const papers = ['README.md', 'sample/STORY.md']
  expect(papers.flatMap((file) => faultsIn(file, linesOf(readFileSync(join(root, file), 'utf8'))))).toEqual(
    [],
  )
})

test('a banned word is found in strings, templates and what JSX writes, at its line; code and comments may use it', () => {
  const source = `// a storm\nimport x from './storms of old.ts'\nconst storm = \`The storm\nof \${x}\`\nexport const a = <p class="storm">\n  5 May 2026 had <b>Storms</b>\n</p>\n`
  expect(
    faultsIn('a.tsx', writtenTexts('a.tsx', source)).map((found) => found.replace(/: say.*: /, ': ')),
  ).toEqual(['a.tsx:3: storm', 'a.tsx:5: 5 May 2026', 'a.tsx:6: Storms'])
})
