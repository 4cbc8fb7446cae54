// The tables of the Farm page as CSV.
import { type Month, monthText } from '#calendar/month.ts'
import type { Cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { type CsvTable, centTableOf } from '#web/forms/csv.ts'

export const farmTables = (figures: FarmFigures): Record<string, () => CsvTable> => ({
  budgets: () => budgetTable(figures),
  actuals: () => actualTable(figures),
  markets: () =>
    centTableOf(figures.markets, {
      market: (one) => one.name,
      trips: (one) => one.trips,
      capacity: (one) => one.capacity,
      sells: (one) => one.sold,
      'fees and miles': (one) => one.costs,
      hours: (one) => one.hours,
      'sales per hour': (one) => one.perHour,
      'follow share': (one) => one.followShare,
      'net lost if dropped': (one) => one.netLostIfDropped,
    }),
  sold: () => soldTable(figures),
  'in-step': () =>
    centTableOf(
      figures.inStep.flatMap((check) => check.seasons.map((season) => ({ check, season }))),
      {
        measure: ({ check }) => check.measure,
        name: ({ check }) => check.name,
        unit: ({ check }) => check.unit,
        season: ({ season }) => season.season,
        needed: ({ season }) => season.needed,
        'there is': ({ season }) => season.room,
        over: ({ season }) => season.over,
      },
    ),
  fit: () => fitTable(figures),
  herds: () => herdTable(figures),
  purchases: () => purchaseTable(figures),
  depreciation: () => ({
    header: ['what', 'class', 'cost', 'section 179', ...figures.purchases.depreciation.years.map(String)],
    rows: figures.purchases.depreciation.rows.map((row) => [
      row.name,
      row.assetClass,
      row.cost,
      row.section179,
      ...row.deductions,
    ]),
    // As the return will have them.
    dollars: { of: 'year' },
  }),
})

const budgetTable = (figures: FarmFigures) =>
  centTableOf(figures.lines, {
    line: (one) => one.name,
    units: (one) => one.units,
    unit: (one) => one.unit,
    sales: (one) => one.sales,
    unsold: (one) => one.unsold,
    'direct costs': (one) => one.directCosts,
    'gross margin': (one) => one.grossMargin,
    hours: (one) => one.hours,
    'margin an hour': (one) => one.marginPerHour,
    'market costs': (one) => one.marketCosts,
    'market hours': (one) => one.marketHours,
    overheads: (one) => one.overheads,
    'overhead hours': (one) => one.overheadHours,
    'own hours': (one) => one.ownHours,
    'return to labor': (one) => one.returnToLabor,
    'an hour all counted': (one) => one.returnPerHour,
  })

const inCents = (value: number | undefined) => (value === undefined ? '' : centsToDecimalText(value as Cents))

const actualTable = (figures: FarmFigures) =>
  centTableOf(figures.lines, {
    line: (one) => one.name,
    tag: (one) => one.tag,
    from: () => figures.actualsSpan?.from,
    to: () => figures.actualsSpan?.to,
    'sales in the books': (one) => inCents(one.actual?.salesCents),
    'sales budgeted': (one) => one.sales,
    'costs in the books': (one) => inCents(one.actual?.costsCents),
    'costs budgeted': (one) => one.directCosts,
    'bought to last': (one) => inCents(one.actual?.assetsCents),
  })

const soldTable = (figures: FarmFigures) =>
  centTableOf(
    figures.soldWhere.flatMap((one) =>
      [
        ...figures.markets.map(({ name }, k) => ({ where: name, dollars: one.atMarkets[k] ?? 0 })),
        { where: 'without a market', dollars: one.withoutMarket },
        { where: 'auction', dollars: one.atAuction },
        { where: 'not sold', dollars: one.lost },
        { where: 'not grown', dollars: one.undone },
      ].map((part) => ({ name: one.name, ...part })),
    ),
    { enterprise: (one) => one.name, where: (one) => one.where, dollars: (one) => one.dollars },
  )

const fitTable = (figures: FarmFigures) =>
  centTableOf(
    figures.fit.flatMap(({ name, unit, seasons }) => seasons.map((one) => ({ name, unit, ...one }))),
    {
      name: (one) => one.name,
      unit: (one) => one.unit,
      year: (one) => one.year,
      season: (one) => one.season,
      needed: (one) => one.needed,
      'there is': (one) => one.room,
    },
  )

const herdTable = (figures: FarmFigures) =>
  centTableOf(
    figures.herds.flatMap((herd) => herd.years.map((year) => ({ herd: herd.name, ...year }))),
    {
      herd: (one) => one.herd,
      year: (one) => one.year,
      'breeding females': (one) => one.breedingFemales,
      'kept to breed': (one) => one.kept,
      'young for sale': (one) => one.forSale,
      'young sold': (one) => one.sold,
      culled: (one) => one.culled,
      sales: (one) => one.sales,
      costs: (one) => one.costs,
      'stock is worth': (one) => one.stockCapital,
      hours: (one) => one.hours,
    },
  )

const purchaseTable = (figures: FarmFigures) =>
  centTableOf(figures.purchases.queue, {
    purchase: (one) => one.name,
    timing: (one) => one.timing,
    earliest: (one) => monthOrBlank(one.earliest),
    bought: (one) => monthOrBlank(one.bought),
    'months waited': (one) => one.waitMonths,
    cost: (one) => one.cost,
    'waiting costs': (one) => one.waitingCosts,
    'draw displaced a month': (one) => one.drawDisplaced,
    'payback months': (one) => one.payback.months,
    because: (one) => one.because,
  })

const monthOrBlank = (value: number | null) => (value === null ? '' : monthText(value as Month))
