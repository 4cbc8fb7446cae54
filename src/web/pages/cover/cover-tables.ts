// The tables of Cover as CSV: money with two decimals, no signs or words in the numbers.
import type { CoverFigures } from '#today/cover/figures.ts'
import type { CsvTable } from '#web/forms/csv.ts'

/** Tables by name; empty ones where the plan cannot be read. */
export const coverTables = (figures: CoverFigures): Record<string, () => CsvTable> => ({
  years: () => yearsTable(figures),
  room: () => roomTable(figures),
  credit: () => creditTable(figures),
  kept: () => keptTable(figures),
  ages: () => agesTable(figures),
})

const money = (dollars: number): string => dollars.toFixed(2)

const yearsTable = (figures: CoverFigures): CsvTable => ({
  header: [
    'year',
    'person',
    'age on 1 January',
    'marketplace months',
    'Medicare months',
    'Medicaid months',
    'other plan months',
    'months without',
    'premium a month',
    'household income',
    'percent of poverty line',
    'credit of the household',
    'law',
  ],
  rows:
    figures.status === 'read'
      ? figures.rows.flatMap((row) =>
          row.people.map((person) => {
            const months = (kind: string) => person.cover.find((one) => one.kind === kind)?.months ?? 0
            return [
              row.year,
              person.name,
              person.age,
              months('marketplace'),
              months('medicare'),
              months('medicaid'),
              months('other plan'),
              months('none'),
              money(person.premiumMonthly),
              money(row.householdIncome),
              row.povertyPercent,
              money(row.credit),
              row.isProjectedLaw ? 'projected' : 'enacted',
            ]
          }),
        )
      : [],
})

const sightOf = (figures: CoverFigures) => (figures.status === 'read' ? figures.inSight : null)

const roomTable = (figures: CoverFigures): CsvTable => {
  const sight = sightOf(figures)
  return {
    header: [
      'line',
      'household income at the line',
      'percent of poverty line',
      'household income left',
      `${sight?.extraIs ?? 'income'} that crosses`,
      'cost of crossing a year',
      'silver plan covers before',
      'silver plan covers after',
    ],
    rows: (sight?.room.rooms ?? []).map((room) => [
      room.line,
      money(room.incomeAt),
      money(room.percentAt),
      money(room.incomeLeft),
      room.extraLeft,
      money(room.costOfCrossing),
      room.silverBefore,
      room.silverAfter,
    ]),
  }
}

const creditTable = (figures: CoverFigures): CsvTable => ({
  header: [
    'household income',
    'percent of poverty line',
    'credit',
    'premium left to pay',
    'silver plan covers',
  ],
  rows: (sightOf(figures)?.credit ?? []).map((point) => [
    money(point.householdIncome),
    point.percent,
    money(point.credit),
    money(point.netPremium),
    point.silverValue,
  ]),
})

const keptTable = (figures: CoverFigures): CsvTable => ({
  header: [`more ${sightOf(figures)?.extraIs ?? 'income'}`, 'stays after tax and premiums'],
  rows: (sightOf(figures)?.kept ?? []).map((point) => [money(point.extra), money(point.kept)]),
})

const agesTable = (figures: CoverFigures): CsvTable => ({
  header: ['age', 'your plan a month', 'benchmark plan a month'],
  rows:
    figures.status === 'read'
      ? figures.premiumByAge.map((one) => [one.age, money(one.plan), money(one.benchmark)])
      : [],
})
