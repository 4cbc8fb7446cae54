// A pack as it is kept when its year is closed: every sheet as a table of texts, in both bases, and what two packs tell differently.
import { type Day, lastDayOfYear } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { PaidUntil } from '#today/tax/paid-for.ts'
import type { PackBasis, YearPackFigures } from '#today/year-pack/figures.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { figureName } from '#views/year-pack/tax/figure-name.ts'
import { daysHeld } from '#views/year-pack/whole/contents.tsx'
import { shownValue } from '#views/year-pack/whole/kept-value.ts'
import { plainAmounts } from '#views/year-pack/whole/plain-amounts.ts'
import { packSheets } from '#views/year-pack/whole/sheets.tsx'
import type { CsvTable } from '#web/forms/csv.ts'
import { underItsHeadings } from './headings-of-before.ts'
import { notSaid } from './people-tables.ts'
import { packTables } from './year-pack-tables.ts'

export interface KeptSheet {
  id: string
  of: string
  title: string
  /** What it comes to. */
  total: string
  header: readonly string[]
  rows: readonly (readonly string[])[]
}

export interface KeptBasis {
  days: string
  /** Open points, as they were printed. */
  open: readonly string[]
  sheets: readonly KeptSheet[]
}

export interface KeptSheets {
  format: 'dooryard-year-pack'
  version: 1
  year: number
  cash: KeptBasis
  accrual: KeptBasis
}

/** Nothing in it says when it was made: the same books give the same text. `paid`: only payments of its tax that count then. */
export const sheetsToKeep = (books: Books, year: number, today: Day, paid?: PaidUntil): KeptSheets => ({
  format: 'dooryard-year-pack',
  version: 1,
  year,
  cash: basisOf(books, year, 'cash', today, paid),
  accrual: basisOf(books, year, 'accrual', today, paid),
})

const basisOf = (
  books: Books,
  year: number,
  basis: PackBasis,
  today: Day,
  paid: PaidUntil | undefined,
): KeptBasis => {
  const figures = yearPackFigures(books, year, basis, today, paid)
  const tables = packTables(figures)
  const listed = packSheets(figures)
  const others = Object.keys(tables).filter((id) => !listed.some((sheet) => sheet.id === id))
  return {
    days: daysHeld(figures),
    open: figures.gaps.map(({ says }) => says),
    sheets: [
      ...listed.map((sheet) => {
        const { says, amount } = sheet.total()
        return keptSheet(sheet.id, sheet.of, sheet.title, `${amount} ${says}`.trim(), tables[sheet.id]?.())
      }),
      ...others.map((id) => keptSheet(id, '', otherTitle(id, figures), '', tables[id]!())),
    ],
  }
}

/** Tables that stand on another sheet. */
const otherTitles: Readonly<Record<string, string>> = {
  'tax-paid': 'Tax paid for the year',
  'schedule-f-asked': 'What Schedule F asks',
  'schedule-f-books': 'From the books to Schedule F',
}

/** A venture's tables are named after its Schedule C. */
const otherTitle = (id: string, { ventures }: YearPackFigures): string => {
  const of = ventures.find(({ form }) => id.startsWith(`${form.sideId}-schedule-c-`))
  if (!of) return otherTitles[id] ?? id
  return id.endsWith('-books')
    ? `From the books to Schedule C, ${of.form.name}`
    : `What Schedule C asks, ${of.form.name}`
}

const keptSheet = (id: string, of: string, title: string, total: string, table?: CsvTable): KeptSheet => ({
  id,
  of,
  title,
  total,
  header: table?.header ?? [],
  rows: table?.rows.map((row) => row.map((cell) => (cell === null ? '' : String(cell)))) ?? [],
})

export interface PackDifference {
  basis: PackBasis
  sheet: string
  line: string
  /** Amounts of the line then and now, and what was said; empty where there is no such line. */
  before: string
  now: string
  /** The same as people write it. */
  shownBefore: string
  shownNow: string
}

const bases = ['cash', 'accrual'] as const

/**
 * Lines whose amounts differ, or what people said. A line is known by its first two texts; other words and sources may be told anew by
 * a later program, and a sheet that is no longer there is named once. One that was not there before is none (`newSheets`).
 */
export const packDifferences = (then: KeptSheets, now: KeptSheets): PackDifference[] =>
  bases.flatMap((basis) => {
    const after = new Map(now[basis].sheets.map((sheet) => [sheet.id, sheet]))
    return then[basis].sheets.flatMap((sheet) => {
      const today = after.get(sheet.id)
      return sheetDifferences(basis, now.year, today ? underItsHeadings(sheet, today) : sheet, today)
    })
  })

/** Sheets that were not there before, by name: a later program tells more of the same books, or the books have something of a new kind. */
export const newSheets = (then: KeptSheets, now: KeptSheets): string[] => [
  ...new Set(
    bases.flatMap((basis) => {
      const before = new Set(then[basis].sheets.map(({ id }) => id))
      return now[basis].sheets.filter(({ id }) => !before.has(id)).map(sheetName)
    }),
  ),
]

const sheetName = ({ title, of }: KeptSheet): string => (of === '' ? title : `${title}, ${of}`)

const sheetDifferences = (
  basis: PackBasis,
  year: number,
  then: KeptSheet,
  now: KeptSheet | undefined,
): PackDifference[] => {
  const sheet = sheetName(now ?? then)
  // What held only zeros is left out by a later program: nothing changed.
  if (!now && then.rows.every((row) => row.every((cell) => !isAmount(cell) || Number(cell) === 0))) return []
  if (!now)
    return [
      {
        basis,
        sheet,
        line: 'the whole sheet',
        before: then.total,
        now: '',
        shownBefore: plainAmounts(then.total),
        shownNow: '',
      },
    ]
  const [before, after] = [linesOf(then, year), linesOf(now, year)]
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((key) => {
    const [first, last] = [before.get(key), after.get(key)]
    return first?.amounts === last?.amounts
      ? []
      : [
          {
            basis,
            sheet,
            line: (last ?? first)!.label,
            before: first?.amounts ?? '',
            now: last?.amounts ?? '',
            shownBefore: first?.shown ?? '',
            shownNow: last?.shown ?? '',
          },
        ]
  })
}

/** Columns whose words people said themselves. */
const saidColumns = ['answer', 'who', 'form on file', 'undecided']

interface KeptLine {
  label: string
  amounts: string
  shown: string
}

const linesOf = ({ header, rows }: KeptSheet, year: number): Map<string, KeptLine> => {
  const lines = new Map<string, KeptLine>()
  for (const row of rows) {
    const label = labelOf(header, row)
    let key = row
      .slice(0, 2)
      .filter((cell) => !isAmount(cell))
      .join('\t')
    while (lines.has(key)) key += '\t again'
    const isSaid = (_: string, i: number) => saidColumns.includes(header[i] ?? '')
    const isTold = (cell: string, i: number) =>
      cell !== '' &&
      cell !== notSaid &&
      (isAmount(cell) || isSaid(cell, i)) &&
      !(header[i] === 'for' && isSoldLater(header, row, year))
    const told = row.flatMap((cell, i) => (isTold(cell, i) ? [i] : []))
    lines.set(key, {
      label,
      amounts: told.map((i) => row[i]!).join(' · '),
      shown: told.map((i) => shownValue(header, row, i)).join(' · '),
    })
  }
  return lines
}

/** In words as the sheet prints it: of the worksheet's table, which keeps a program's names, those of its figures. */
const labelOf = (header: readonly string[], row: readonly string[]): string => {
  const [part, figure] = row
  if (header[0] === 'part' && header[1] === 'figure')
    return part === 'out' ? figureName(figure ?? '') : (figure ?? '')
  return row
    .slice(0, 2)
    .filter((cell) => cell !== '' && !isAmount(cell))
    .join(', ')
}

/** Copies of an earlier program say of a thing what it was sold for after the year: nothing of the year itself. */
const isSoldLater = (header: readonly string[], row: readonly string[], year: number): boolean =>
  (row[header.indexOf('disposed')] ?? '') > lastDayOfYear(year)

const isAmount = (cell: string): boolean => /^-?\d+\.\d+$/.test(cell)
