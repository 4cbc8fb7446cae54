// The farm's papers of the pack, in the order in which they print.
import type { YearPackFigures } from '#today/year-pack/figures.ts'
import { Part } from '../parts/message.tsx'
import { DepreciationPart } from './depreciation-part.tsx'
import { InventoryPart } from './farm-parts.tsx'
import { PropertySalesPart } from './income-places-part.tsx'
import { MeasuresPart } from './measures-part.tsx'
import { PackPart } from './parts.tsx'
import { ScheduleFPart } from './schedule-f-part.tsx'

interface FarmPapersProps {
  figures: YearPackFigures
  csv: (table: string) => string
}

export const FarmPapers = ({ figures, csv }: FarmPapersProps) => {
  const farm = figures.sides.find((side) => side.kind === 'farm')
  if (!farm || !figures.scheduleF) return null
  return (
    <>
      <ScheduleFPart
        id="schedule-f"
        csv={csv('schedule-f')}
        of={farm.name}
        form={figures.scheduleF}
        asked={figures.farmForm!}
      />
      {figures.depreciation && figures.depreciation.totalCents !== 0 ? (
        <DepreciationPart
          id="depreciation"
          csv={csv('depreciation')}
          of={farm.name}
          form={figures.depreciation}
        />
      ) : null}
      {figures.sales && figures.sales.sales.length > 0 ? (
        <PropertySalesPart
          id="sales"
          csv={csv('sales')}
          of={farm.name}
          sold={figures.sales}
          year={figures.year}
        />
      ) : null}
      <Part
        of={() => (
          <MeasuresPart
            id="measures"
            csv={csv('measures')}
            of={farm.name}
            rows={figures.measures}
            basis={figures.basis}
          />
        )}
      />
      {figures.inventory && figures.inventory.rows.length > 0 ? (
        <InventoryPart id="inventory" csv={csv('inventory')} of={farm.name} inventory={figures.inventory} />
      ) : (
        <PackPart
          id="inventory"
          title="Stock and equipment"
          of={farm.name}
          says="Nothing is on the inventory yet."
        >
          <p class="no-print">
            <a href="/year-pack/holdings/new">Add stock or equipment</a>
          </p>
        </PackPart>
      )}
    </>
  )
}
