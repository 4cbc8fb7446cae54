// The sheets of a pack, told once: contents, addresses, paper and folder are made from this list. A sheet more is a row more here.
import type { Child } from 'hono/jsx'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { formatCentsPlain, formatCount, formatPercent } from '#money/format.ts'
import type { SideStatements, YearPackFigures } from '#today/year-pack/figures.ts'
import { CrossingsPart } from '../crossings-part.tsx'
import { DepreciationPart } from '../depreciation-part.tsx'
import { InventoryPart } from '../farm-parts.tsx'
import { IncomePlacesPart, PropertySalesPart } from '../income-places-part.tsx'
import { MeasuresPart } from '../measures-part.tsx'
import { NotebookPart } from '../notebook-part.tsx'
import { PackPart } from '../parts.tsx'
import { formsToSend, formsUnsaid, PeoplePart } from '../people-part.tsx'
import { ScheduleCPart } from '../schedule-c-part.tsx'
import { ScheduleFPart } from '../schedule-f-part.tsx'
import { BalancePart, CashPart, EquityPart, IncomePart } from '../statements.tsx'
import type { Sheet } from './sheet.ts'
import { taxSheets } from './tax-sheets.tsx'
import { hasCrossed, withStatements } from './told-sides.ts'

const dollars = (says: string, amount: Cents) => ({ says, amount: formatCentsPlain(amount) })

export const packSheets = (figures: YearPackFigures): Sheet[] => [
  ...farmSheets(figures),
  ...figures.ventures.map(scheduleCSheet),
  ...withStatements(figures).flatMap((side) => sideSheets(side)),
  ...sharedSheets(figures),
]

const farmSheets = (figures: YearPackFigures): Sheet[] => {
  const farm = figures.sides.find((side) => side.kind === 'farm')
  const { scheduleF, depreciation, sales, year } = figures
  if (!farm || !scheduleF) return []
  const sheet = (id: string, title: string, total: Sheet['total'], show: Sheet['show']): Sheet => ({
    id,
    of: farm.name,
    kind: 'farm',
    title,
    total,
    show,
  })
  const form = sheet(
    'schedule-f',
    'Schedule F summary',
    () => dollars('net profit or loss', scheduleF.netProfitCents),
    (csv) => (
      <ScheduleFPart id="schedule-f" csv={csv} of={farm.name} form={scheduleF} asked={figures.farmForm!} />
    ),
  )
  const writtenOff =
    depreciation && (depreciation.totalCents !== 0 || depreciation.startUp) ? depreciation : null
  const sold = sales && sales.sales.length > 0 ? sales : null
  return [
    form,
    ...(writtenOff
      ? [
          sheet(
            'depreciation',
            'Depreciation for Form 4562',
            () => dollars('line 22', writtenOff.totalCents),
            (csv) => <DepreciationPart id="depreciation" csv={csv} of={farm.name} form={writtenOff} />,
          ),
        ]
      : []),
    ...(sold ? [{ ...salesSheet(sold, year), kind: 'farm' as const }] : []),
    sheet(
      'inventory',
      'Stock and equipment',
      () => costLeft(figures),
      (csv) => <Inventory figures={figures} of={farm.name} csv={csv} />,
    ),
    sheet(
      'measures',
      'Farm finance measures',
      () => debtToAsset(figures),
      (csv) => (
        <MeasuresPart id="measures" csv={csv} of={farm.name} rows={figures.measures} basis={figures.basis} />
      ),
    ),
  ]
}

/** One form for all businesses: named after the one that sold, or after all. */
const salesSheet = (sold: NonNullable<YearPackFigures['sales']>, year: number): Omit<Sheet, 'kind'> => {
  const names = [...new Set(sold.sales.map(({ business }) => business))]
  const of = names.length === 1 ? names[0]! : 'Farm and ventures'
  return {
    id: 'sales',
    of,
    title: 'Sales for Form 4797',
    total: () => dollars('gains and losses', sumCents(sold.sales.map(({ gainCents }) => gainCents))),
    show: (csv) => <PropertySalesPart id="sales" csv={csv} of={of} sold={sold} year={year} />,
  }
}

const costLeft = ({ inventory }: YearPackFigures) =>
  dollars('cost left', sumCents((inventory?.rows ?? []).map(({ bookCents }) => bookCents)))

const debtToAsset = ({ measures }: YearPackFigures) => ({
  says: 'debt to asset',
  amount: percent(measures.find(({ id }) => id === 'debtToAsset')?.value ?? null),
})

const Inventory = ({
  figures: { inventory, year },
  of,
  csv,
}: {
  figures: YearPackFigures
  of: string
  csv: string
}) =>
  inventory && inventory.rows.length > 0 ? (
    <InventoryPart id="inventory" csv={csv} of={of} inventory={inventory} />
  ) : (
    <PackPart id="inventory" title="Stock and equipment" of={of} says="Nothing is on the inventory yet.">
      <p class="no-print">
        <a href={`/year-pack/holdings/new?year=${year}`}>Add stock or equipment</a>
      </p>
    </PackPart>
  )

const percent = (value: number | null): string => (value === null ? 'not known' : formatPercent(value, 1))

const scheduleCSheet = (venture: YearPackFigures['ventures'][number]): Sheet => {
  const { sideId, name, netProfitCents } = venture.form
  const id = `${sideId}-schedule-c`
  return {
    id,
    of: name,
    kind: 'venture',
    title: 'Schedule C summary',
    total: () => dollars('net profit or loss', netProfitCents),
    show: (csv) => <ScheduleCPart id={id} csv={csv} venture={venture} />,
  }
}

const sideSheets = (side: SideStatements): Sheet[] => {
  const sheet = (
    part: string,
    title: string,
    total: Sheet['total'],
    show: (id: string, csv: string) => Child,
  ): Sheet => {
    const id = `${side.id}-${part}`
    return { id, of: side.name, kind: side.kind, title, total, show: (csv) => show(id, csv) }
  }
  return [
    sheet(
      'income',
      'Income statement',
      () => dollars('net income', side.income.netIncomeCents),
      (id, csv) => (
        <IncomePart
          id={id}
          csv={csv}
          items={side.items}
          statement={side.income}
          depreciation={side.depreciation}
        />
      ),
    ),
    sheet(
      'balance',
      'Balance sheet',
      () => dollars('equity at the end, by the books', side.end.equity.costCents),
      (id, csv) => (
        <BalancePart id={id} csv={csv} begin={side.begin} end={side.end} depreciation={side.depreciation} />
      ),
    ),
    sheet(
      'equity',
      'Owner’s equity',
      () => dollars('change in the year', cents(side.equity.endCents - side.equity.beginCents)),
      (id, csv) => <EquityPart id={id} csv={csv} equity={side.equity} />,
    ),
    sheet(
      'cash',
      'Cash flow',
      () => dollars('change in money', side.cash.changeCents),
      (id, csv) => <CashPart id={id} csv={csv} cash={side.cash} />,
    ),
  ]
}

const sharedSheets = (figures: YearPackFigures): Sheet[] => {
  const { year } = figures
  const own = { of: 'All sides', kind: 'together' as const }
  return [
    ...(hasCrossed(figures)
      ? [
          {
            ...own,
            id: 'crossings',
            title: 'Crossings by month',
            total: () => dollars('drawn', sumCents(figures.crossings.flatMap(({ draws }) => draws))),
            show: (csv: string) => (
              <CrossingsPart id="crossings" csv={csv} year={year} crossings={figures.crossings} />
            ),
          },
        ]
      : []),
    {
      ...own,
      id: 'income-places',
      title: 'Where income goes',
      total: () =>
        dollars(
          'left out of the forms',
          sumCents(figures.places.filter(({ goes }) => goes === null).map((place) => place.amountCents)),
        ),
      show: (csv) => (
        <IncomePlacesPart
          id="income-places"
          csv={csv}
          places={figures.places}
          between={figures.scheduleF?.between ?? []}
          year={year}
        />
      ),
    },
    ...peopleSheets(figures),
    ...(figures.notebook
      ? [
          {
            ...own,
            id: 'notebook',
            title: 'From the farm’s notebook',
            total: () => ({
              says: 'noted for the farm',
              amount: `${formatCount(figures.notebook?.farmMiles ?? 0)} miles`,
            }),
            show: (csv: string) => (
              <NotebookPart id="notebook" csv={csv} notes={figures.notebook!} year={year} />
            ),
          },
        ]
      : []),
    ...taxSheets(figures),
  ]
}

const formsSay = (payroll: NonNullable<YearPackFigures['payroll']>): string => {
  const more = formsUnsaid(payroll)
  return `forms to send, as far as entered${more === 0 ? '' : `; ${more} more unless to a company`}`
}

const peopleSheets = ({ payroll }: YearPackFigures): Sheet[] =>
  payroll === null
    ? []
    : [
        {
          of: 'All sides',
          kind: 'together',
          id: 'people',
          title: 'People and payees',
          total: () => ({ says: formsSay(payroll), amount: String(formsToSend(payroll)) }),
          show: (csv) => <PeoplePart id="people" csv={csv} figures={payroll} />,
        },
      ]
