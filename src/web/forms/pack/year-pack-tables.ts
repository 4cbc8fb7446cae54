// The pack's tables as CSV, one per part: label and amounts as plain numbers.

import { monthNames } from '#calendar/month.ts'
import type { AccrualYear } from '#ledger/reports/accrual.ts'
import type { BalanceSheet } from '#ledger/reports/balance-sheet.ts'
import type { ReportSection } from '#ledger/reports/book-year.ts'
import type { DepreciationForm } from '#ledger/reports/depreciation-form.ts'
import { scheduleCRows } from '#ledger/reports/form-rows.ts'
import { holdingKindNames, holdingName } from '#ledger/reports/stock-inventory.ts'
import type { Cents } from '#money/cents.ts'
import { centsToDecimalText, formatPercent } from '#money/format.ts'
import type { SideStatements, YearPackFigures } from '#today/year-pack/figures.ts'
import {
  depreciationRows,
  incomeAgainRows,
  section179Rows,
  startUpRows,
} from '#views/year-pack/depreciation-part.tsx'
import { atCost } from '#views/year-pack/farm-parts.tsx'
import { notebookRows } from '#views/year-pack/notebook-part.tsx'
import { scheduleCAnswers } from '#views/year-pack/schedule-c-part.tsx'
import { scheduleFAnswers } from '#views/year-pack/schedule-f-part.tsx'
import {
  balanceRows,
  cashSections,
  equityAtMarket,
  incomeSections,
  itemRows,
  marketEquity,
} from '#views/year-pack/statement-rows.ts'
import { hasCrossed, withStatements } from '#views/year-pack/whole/told-sides.ts'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'
import { answersTable, bridgeTable, formTable, scheduleFTable } from './form-tables.ts'
import { packPeopleTables } from './people-tables.ts'
import {
  healthInsuranceTables,
  premiumCreditTables,
  qualifiedBusinessTables,
  selfEmploymentTables,
  taxPaidTable,
  taxTable,
} from './tax-tables.ts'

type Tables = Record<string, () => CsvTable>

const amount = (value: Cents | null | undefined): string =>
  value === null || value === undefined ? '' : centsToDecimalText(value)

export const packTables = (figures: YearPackFigures): Tables => ({
  ...(figures.scheduleF ? farmTables(figures) : {}),
  ...Object.assign({}, ...withStatements(figures).map(sideTables)),
  ...Object.fromEntries(
    figures.ventures.flatMap((venture) => {
      const { form } = venture
      const id = `${form.sideId}-schedule-c`
      return [
        [id, () => formTable(scheduleCRows(form), form.beside)],
        [`${id}-asked`, () => answersTable(scheduleCAnswers(venture))],
        [`${id}-books`, () => bridgeTable(form.bridge, '31')],
      ]
    }),
  ),
  ...(figures.payroll ? packPeopleTables(figures.payroll) : {}),
  ...(hasCrossed(figures) ? { crossings: () => crossingsTable(figures) } : {}),
  'income-places': () => placesTable(figures),
  ...(figures.notebook ? { notebook: () => notebookTable(figures.notebook!) } : {}),
  ...(figures.depreciation ? { depreciation: () => depreciationTable(figures.depreciation!) } : {}),
  ...(figures.sales ? { sales: () => salesTable(figures.sales!) } : {}),
  ...(figures.tax.status === 'worked'
    ? {
        tax: () => taxTable(figures),
        'tax-paid': () => taxPaidTable(figures),
        ...selfEmploymentTables(figures.tax.worksheet),
        ...healthInsuranceTables(figures.tax.worksheet),
        ...premiumCreditTables(figures.tax.worksheet),
        ...qualifiedBusinessTables(figures.tax.worksheet),
      }
    : {}),
})

const notebookTable = (notes: NonNullable<YearPackFigures['notebook']>): CsvTable =>
  tableOf(notebookRows(notes), {
    what: (row) => row.what,
    'miles or hours': (row) => row.quantity,
    amount: (row) => amount(row.amount),
  })

const sideTables = (side: SideStatements): Tables => ({
  [`${side.id}-income`]: () => ({
    header: ['part', 'line', 'amount'],
    rows: [
      ...sectionRows(incomeSections(side.income)),
      ['', 'Net income', amount(side.income.netIncomeCents)],
    ],
  }),
  [`${side.id}-balance`]: () => balanceTable(side),
  [`${side.id}-equity`]: () => ({
    header: ['line', 'amount'],
    rows: [
      ['Equity at the beginning', amount(side.equity.beginCents)],
      ['Net income', amount(side.equity.netIncomeCents)],
      ...[...side.equity.crossings, ...side.equity.other].map((line) => [
        line.label,
        amount(line.amountCents),
      ]),
      ['Equity at the end', amount(side.equity.endCents)],
      ...equityAtMarket(side.equity).map(([label, cents]) => [label, amount(cents)]),
      ['Equity at the end, at market', amount(marketEquity(side.equity))],
    ],
  }),
  ...(side.items ? { [`${side.id}-items`]: () => itemsTable(side.items!) } : {}),
  [`${side.id}-cash`]: () => ({
    header: ['part', 'line', 'amount'],
    rows: [
      ['', 'Money at the beginning', amount(side.cash.beginCents)],
      ...sectionRows(cashSections(side.cash)),
      ['', 'Money at the end', amount(side.cash.endCents)],
      ...side.cash.inTrade.lines.map(({ label, amountCents }) => [
        'without money',
        label,
        amount(amountCents),
      ]),
      ...side.cash.byMonth.map((change, i) => ['change by month', monthNames[i]!, amount(change)]),
    ],
  }),
})

const itemsTable = (items: AccrualYear): CsvTable => ({
  header: ['kind', 'what', 'begin', 'end', 'change'],
  rows: itemRows(items).map(({ kind, name, amounts }) => [kind, name, ...amounts.map(amount)]),
})

const sectionRows = (sections: readonly ReportSection[]): string[][] =>
  sections.flatMap((section) => [
    ...section.lines.map((line) => [section.title, line.label, amount(line.amountCents)]),
    ...(section.lines.length > 0 ? [[section.title, section.totalLabel, amount(section.totalCents)]] : []),
  ])

const balanceTable = ({ begin, end }: SideStatements): CsvTable => {
  const parts = ['currentAssets', 'otherAssets', 'currentLiabilities', 'otherLiabilities'] as const
  return {
    header: ['part', 'line', 'begin books', 'end books', 'end market', 'valued on', 'note'],
    rows: [
      ...parts.flatMap((part) =>
        balanceRows(begin[part], end[part]).map(({ line, amounts }) => [
          end[part].title,
          line.label,
          ...amounts.map(amount),
          line.valuedOn ?? '',
          line.note ?? '',
        ]),
      ),
      ...totals(begin, end),
    ],
  }
}

const totals = (begin: BalanceSheet, end: BalanceSheet): string[][] =>
  (
    [
      ['Total assets', 'totalAssets'],
      ['Total liabilities', 'totalLiabilities'],
      ['Owner’s equity', 'equity'],
    ] as const
  ).map(([label, key]) => [
    '',
    label,
    amount(begin[key].costCents),
    amount(end[key].costCents),
    amount(end[key].marketCents),
    '',
    '',
  ])

const farmTables = (figures: YearPackFigures): Tables => {
  const farmName = figures.sides.find((side) => side.kind === 'farm')?.name ?? ''
  return {
    'schedule-f': () => scheduleFTable(figures, farmName),
    'schedule-f-asked': () => answersTable(scheduleFAnswers(figures.scheduleF!, figures.farmForm!)),
    'schedule-f-books': () => bridgeTable(figures.scheduleF!.bridge, '34'),
    measures: () =>
      tableOf(figures.measures, {
        area: (row) => row.area,
        measure: (row) => row.name,
        formula: (row) => row.formula,
        parts: (row) =>
          row.parts
            .map(({ name, cents }) => `${name} ${cents === null ? 'not known' : (cents / 100).toFixed(2)}`)
            .join('; '),
        unit: (row) => (row.unit === 'cents' ? 'dollars' : row.unit),
        'at cost': (row) => plainValue(row.unit, row.value),
        'at market': (row) => plainValue(row.unit, row.marketValue),
        'why missing': (row) => row.missing ?? '',
        bands: (row) => row.bands.map((band) => `${band.label} (${band.limits}; ${band.source})`).join(' | '),
      }),
    inventory: () => inventoryTable(figures),
  }
}

const inventoryTable = (figures: YearPackFigures): CsvTable =>
  tableOf(figures.inventory?.rows ?? [], {
    what: ({ holding }) => holdingName(holding),
    kind: ({ holding }) => holdingKindNames[holding.kind],
    quantity: ({ holding }) => holding.quantity,
    unit: ({ holding }) => holding.unit,
    since: ({ holding }) => holding.acquiredDay,
    class: ({ writeOff }) => writeOff?.assetClass ?? '',
    years: ({ writeOff }) => writeOff?.years ?? '',
    method: ({ writeOff }) => writeOff?.method ?? '',
    convention: ({ convention }) => convention ?? '',
    'section 179': ({ writeOff }) => amount(writeOff?.section179Cents),
    bonus: ({ writeOff }) => amount(writeOff?.bonusCents),
    'business use': ({ writeOff }) => (writeOff ? formatPercent(writeOff.useShare) : ''),
    cost: ({ holding }) => amount(holding.costCents),
    'gain put off in it': ({ holding }) => amount(holding.loweredCents),
    'deducted before': (row) => amount(row.deductedBeforeCents),
    'this year': (row) => amount(row.deductedThisYearCents),
    left: (row) => amount(row.bookCents),
    market: ({ market }) => amount(market?.cents),
    'market is': ({ market }) => (market === null ? '' : market.isAtCost ? atCost : 'as valued'),
    disposed: ({ holding }) => holding.disposedDay,
    for: ({ holding }) => amount(holding.disposedForCents),
  })

const plainValue = (unit: string, value: number | null): string => {
  if (value === null) return ''
  return unit === 'cents' ? (value / 100).toFixed(2) : value.toFixed(4)
}

const crossingsTable = ({ crossings }: YearPackFigures): CsvTable =>
  tableOf(
    crossings.flatMap((pair) => monthNames.map((name, i) => ({ pair, name, i }))),
    {
      side: ({ pair }) => pair.side,
      other: ({ pair }) => pair.other,
      month: ({ name }) => name,
      draws: ({ pair, i }) => amount(pair.draws[i]),
      contributions: ({ pair, i }) => amount(pair.contributions[i]),
      reimbursements: ({ pair, i }) => amount(pair.reimbursements[i]),
      'goods used at home': ({ pair, i }) => amount(pair.goods[i]),
      'borrowed net': ({ pair, i }) => amount(pair.borrowed[i]),
    },
  )

const placesTable = ({ places, scheduleF }: YearPackFigures): CsvTable => ({
  header: ['side', 'account', 'amount', 'form', 'line', 'says'],
  rows: [
    ...places.map(({ side, account, amountCents, goes, says }) => [
      side,
      account,
      amount(amountCents),
      goes?.form ?? 'left out',
      goes?.line ?? '',
      says,
    ]),
    ...(scheduleF?.between ?? []).map(({ line, amountCents, says }) => [
      'between books and form',
      '',
      amount(amountCents),
      'Schedule F',
      line,
      says,
    ]),
  ],
})

const depreciationTable = (form: DepreciationForm): CsvTable =>
  tableOf(
    [...depreciationRows(form), ...section179Rows(form), ...incomeAgainRows(form), ...startUpRows(form)],
    {
      part: (row) => row.part,
      what: (row) => row.label,
      how: (row) => row.note,
      amount: (row) => amount(row.amountCents),
    },
  )

const salesTable = ({ sales }: NonNullable<YearPackFigures['sales']>): CsvTable =>
  tableOf(sales, {
    what: (sale) => sale.name,
    business: (sale) => sale.business,
    part: (sale) => sale.part,
    from: (sale) => sale.acquiredDay ?? '',
    to: (sale) => sale.soldDay ?? '',
    price: (sale) => amount(sale.priceCents),
    cost: (sale) => amount(sale.costCents),
    deducted: (sale) => amount(sale.deductedCents),
    gain: (sale) => amount(sale.gainCents),
    ordinary: (sale) => amount(sale.ordinaryCents),
    'put off': (sale) => amount(sale.putOffCents),
    'section 1231': (sale) => amount(sale.section1231Cents),
    'business use': ({ personal }) => (personal === null ? '' : formatPercent(personal.businessUse)),
    'personal price': ({ personal }) => amount(personal?.priceCents),
    'personal cost': ({ personal }) => amount(personal?.costCents),
    'personal gain': ({ personal }) => amount(personal?.gainCents),
    'personal loss, not allowed': ({ personal }) => amount(personal?.lossNotAllowedCents),
  })
