// The year of the plan that a page of the farm shows.
import type { FarmFigures } from '#today/farm/figures.ts'
import { Button } from '../parts/button.tsx'
import { Select } from '../parts/field.tsx'

export const YearChoice = ({ figures, action }: { figures: FarmFigures; action: string }) => (
  <form method="get" action={action} class="year-choice no-print">
    <Select
      name="year"
      label="Year of the plan"
      value={String(figures.year)}
      options={figures.years.map((year) => ({ value: String(year), label: String(year) }))}
    />
    <Button small quiet>
      Show
    </Button>
  </form>
)
