// The table plan → seen, with one button a row.
import { formatDollarsAndCents, formatPercent } from '#money/format.ts'
import type { SeenRow } from '#today/farm/seen-parts.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { Hidden, PlanFormIds } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

interface SeenProps {
  rows: readonly SeenRow[]
  planId: string
  basedOn: number
  newFormId(): string
}

export const SeenPage = ({ rows, planId, basedOn, newFormId }: SeenProps) => (
  <>
    <PageTitle purpose="What the notebook of the last twelve months says about figures of the plan. One press takes a figure over.">
      Plan and notebook
    </PageTitle>
    {rows.length === 0 ? (
      <EmptyState href="/farm/notebook" action="Open the notebook">
        The notebook says nothing yet that differs from the plan. It takes three days of a market, nine months
        of an enterprise’s hours, an ended batch, or a count of females a year old.
      </EmptyState>
    ) : (
      <>
        <p class="answer">
          {rows.length === 1 ? 'One figure of the plan differs' : `${rows.length} figures of the plan differ`}{' '}
          from what the notebook saw.
        </p>
        <DataTable
          caption="The plan, and what was seen"
          rows={rows}
          stack
          csv="/farm/seen.csv"
          columns={[
            {
              title: 'What',
              isHeader: true,
              cell: ({ of, what, restsOn }) => (
                <>
                  {of}: {what}
                  <br />
                  <span class="hint">{restsOn}</span>
                </>
              ),
            },
            { title: 'Plan', cell: (row) => told(row, row.plan), isNumber: true },
            { title: 'Seen', cell: (row) => told(row, row.seen), isNumber: true },
            {
              title: <span class="hidden-text">Put in the plan</span>,
              isControl: true,
              cell: ({ key, of, what }) => (
                <form method="post" action="/farm/seen">
                  <PlanFormIds formId={newFormId()} planId={planId} basedOn={basedOn} />
                  <Hidden name="take" value={key} />
                  <Button quiet small label={`Put in the plan: ${of}, ${what}`}>
                    Put in the plan
                  </Button>
                </form>
              ),
            },
          ]}
        />
      </>
    )}
  </>
)

const told = ({ unit }: SeenRow, value: number): string => {
  switch (unit) {
    case 'dollars':
      return formatDollarsAndCents(value)
    case 'share':
      return formatPercent(value, 0)
    case 'hours':
      return `${Math.round(value * 100) / 100} h`
    case 'miles':
    case 'young':
      return String(Math.round(value * 100) / 100)
  }
}
