// The tables of Cover as CSV: money with two decimals, no signs or words in the numbers.
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'
import { monthsUnder } from '#today/cover/cover-year.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'

/** Tables by name; empty ones where the plan cannot be read. */
export const coverTables = (figures: CoverFigures): Record<string, () => CsvTable> => ({
  years: () => yearsTable(figures),
  // Lines of the law, in the dollars of the year looked at.
  bands: () => ({ ...bandsTable(figures), dollars: { of: 'year' } }),
  room: () => ({ ...roomTable(figures), dollars: { of: 'year' } }),
  credit: () => ({ ...creditTable(figures), dollars: { of: 'year' } }),
  kept: () => ({ ...keptTable(figures), dollars: { of: 'year' } }),
  ages: () => agesTable(figures),
})

const money = (dollars: number): string => dollars.toFixed(2)

const yearsTable = (figures: CoverFigures): CsvTable => {
  const rows =
    figures.status === 'read'
      ? figures.rows.flatMap((row) => row.people.map((person) => ({ row, person })))
      : []
  const months =
    (kind: CoverageKind) =>
    ({ person }: (typeof rows)[number]) =>
      monthsUnder(person.cover, kind)
  return tableOf(rows, {
    year: ({ row }) => row.year,
    person: ({ person }) => person.name,
    'age on January 1': ({ person }) => person.age,
    'marketplace months': months('marketplace'),
    'Medicare months': months('Medicare'),
    'Medicaid months': months('Medicaid'),
    'children’s program months': months('children’s program'),
    'basic program months': months('basic health program'),
    'other plan months': months('other plan'),
    'months without': months('none'),
    'months not known': months('not known'),
    'premium a month': ({ person }) => money(person.premiumMonthly),
    'household income': ({ row }) => money(row.householdIncome),
    'percent of FPL': ({ row }) => row.povertyPercent,
    'filing status': ({ row }) => row.filing,
    'premiums of the household a month': ({ row }) => money(row.paidMonthly),
    'credit of the household': ({ row }) => money(row.credit),
    law: ({ row }) => (row.isProjectedLaw ? 'projected' : 'enacted'),
  })
}

const sightOf = (figures: CoverFigures) => (figures.status === 'read' ? figures.inSight : null)

const bandsTable = (figures: CoverFigures): CsvTable =>
  tableOf(
    (sightOf(figures)?.bands ?? []).flatMap((band) => band.people.map((person) => ({ band, person }))),
    {
      'household income up to': ({ band }) => (band.toIncome === null ? '' : money(band.toIncome)),
      'percent of poverty level': ({ band }) => band.limit?.percent ?? '',
      person: ({ person }) => person.name,
      'covered by': ({ person }) => person.kind,
      'marketplace premium a month': ({ band }) => money(band.premiumMonthly),
    },
  )

const roomTable = (figures: CoverFigures): CsvTable => {
  const sight = sightOf(figures)
  return tableOf(sight?.room.rooms ?? [], {
    line: (room) => room.line,
    'household income at the line': (room) => money(room.incomeAt),
    'percent of FPL': (room) => money(room.percentAt),
    'household income left': (room) => money(room.incomeLeft),
    [`${sight?.extraIs ?? 'income'} that crosses`]: (room) => room.extraLeft,
    'cost of crossing': (room) => money(room.costOfCrossing),
    'months the plan covers': () => sight?.part?.months ?? 12,
    'silver plan covers before': (room) => room.silverBefore,
    'silver plan covers after': (room) => room.silverAfter,
  })
}

const creditTable = (figures: CoverFigures): CsvTable =>
  tableOf(sightOf(figures)?.credit ?? [], {
    'household income': (point) => money(point.householdIncome),
    'percent of FPL': (point) => point.percent,
    credit: (point) => money(point.credit),
    'premium left to pay': (point) => money(point.netPremium),
    'silver plan covers': (point) => point.silverValue,
  })

const keptTable = (figures: CoverFigures): CsvTable =>
  tableOf(sightOf(figures)?.kept ?? [], {
    [`more ${sightOf(figures)?.extraIs ?? 'income'}`]: (point) => money(point.extra),
    'stays after tax and premiums': (point) => money(point.kept),
  })

const agesTable = (figures: CoverFigures): CsvTable =>
  tableOf(figures.status === 'read' ? figures.premiumByAge : [], {
    age: (one) => one.age,
    'your plan a month': (one) => money(one.plan),
    'benchmark plan a month': (one) => money(one.benchmark),
  })
