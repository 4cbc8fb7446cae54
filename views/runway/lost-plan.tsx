// A form of a plan that is no more: what was typed is given back, so that it can be copied.
import { PageTitle } from '../layout.tsx'
import { DataTable } from '../parts/table.tsx'

/** Input names with what was typed into each. */
export const LostPlanPage = ({
  says,
  typed,
}: {
  says: string
  typed: readonly (readonly [string, string])[]
}) => (
  <>
    <PageTitle purpose={says}>Not found</PageTitle>
    {typed.length === 0 ? null : (
      <DataTable
        caption="What was typed"
        rows={typed}
        columns={[
          { title: 'Field', isHeader: true, cell: ([name]) => name },
          { title: 'Typed', cell: ([, text]) => text },
        ]}
      />
    )}
    <p>
      <a href="/runway/compare">Your plans</a>
    </p>
  </>
)
