// What holds only so much, and whose work takes it up; whether it is enough stands under "Is everything in step?".
import type { FarmFigures } from '#today/farm/figures.ts'
import { LinkButton } from '../parts/button.tsx'
import { DataTable } from '../parts/table.tsx'

export const FacilitySection = ({ facilities }: Pick<FarmFigures, 'facilities'>) => (
  <section id="facilities" aria-labelledby="facilities-title">
    <h2 id="facilities-title">Facilities</h2>
    {facilities.length === 0 ? (
      <p>No bench, cooler or hive stand is counted: room limits nothing.</p>
    ) : (
      <DataTable
        caption="Facilities"
        rows={facilities}
        columns={[
          {
            title: 'Facility',
            isHeader: true,
            cell: (one) => <a href={`/farm/facilities/${one.id}`}>{one.name}</a>,
          },
          { title: 'Counted in', cell: (one) => one.unit },
          { title: 'Taken up by', cell: (one) => one.uses.join(', ') || 'nothing yet' },
        ]}
      />
    )}
    <p class="no-print">
      <LinkButton href="/farm/facilities/new" small quiet>
        Add a facility
      </LinkButton>
    </p>
  </section>
)
