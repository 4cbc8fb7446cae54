// Side income split into retirement and emergency fund, against this year's limits, with the form that changes the split.
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { SlowerFigures } from '#today/slower-years/figures.ts'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  type FieldErrors,
  PercentField,
  PlanFormIds,
  type PlanFormIdsProps,
  QuantityField,
} from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Fold } from '../parts/fold.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

export interface SplitSectionProps {
  figures: SlowerFigures
  ids: PlanFormIdsProps
  /** The plan's split, or what was typed and is wrong. */
  typed: { value: (name: string) => string; errors: FieldErrors }
}

export const SplitSection = ({ figures, ids, typed }: SplitSectionProps) => {
  const { split } = figures
  return (
    <section id="split" aria-labelledby="split-title">
      <h2 id="split-title">Side income: retirement and emergency fund</h2>
      {split.ventures.length === 0 ? (
        <p>
          The plan has no side venture. One that earns a little and asks few hours is what builds the cushion;
          add it with the household’s lines on <a href="/runway">Runway</a>.
        </p>
      ) : (
        <>
          <SplitFigures split={split} />
          <Fold name={`Limits of ${split.year}`} holds={`${split.limits.length} people`}>
            <Limits split={split} />
          </Fold>
          <Fold
            name="Change the split"
            holds={split.ventures.map(({ setAsideShare }) => formatPercent(setAsideShare, 0)).join(', ')}
            isOpen={Object.keys(typed.errors).length > 0}
          >
            <SplitForm split={split} ids={ids} typed={typed} />
            <Caution askWhom="a licensed tax preparer">
              Farm profit adds to what SEP and solo plans allow; what may be deducted, and Roth limits by
              income, depend on the whole return.
            </Caution>
          </Fold>
        </>
      )}
    </section>
  )
}

const SplitFigures = ({ split }: { split: SlowerFigures['split'] }) => (
  <Figures>
    <Figure
      label="To retirement accounts, a year"
      value={formatDollars(split.toRetirement)}
      note={
        split.aboveLimits > 0
          ? `${formatDollars(split.aboveLimits)} more than individual accounts take`
          : 'Within the year’s limits for individual accounts'
      }
    />
    <Figure
      label="To the emergency fund and the household"
      value={formatDollars(split.toEmergencyFund)}
      note={`The fund is full at ${formatDollars(split.emergencyFundTarget)}`}
    />
    <Figure
      label="Saver’s match, over the plan"
      value={formatDollars(split.saversMatch.total)}
      note={
        split.saversMatch.firstMonth === null
          ? 'None: it asks for savings and an income in its range from 2027 on, and a traditional account of the saver’s own'
          : `In dollars of ${split.year}; the Treasury puts it into your traditional accounts, first in ${nameOfMonth(split.saversMatch.firstMonth)}`
      }
    />
  </Figures>
)

const Limits = ({ split }: { split: SlowerFigures['split'] }) => (
  <DataTable
    caption={`Limits of ${split.year} (${split.basis === 'enacted' ? 'published' : 'carried on from the last published year'})`}
    csv="/slower-years.csv?table=limits"
    stack
    rows={split.limits}
    columns={[
      { title: 'Who', isHeader: true, cell: (one) => one.name },
      { title: 'Age', isNumber: true, cell: (one) => String(one.age) },
      {
        title: 'Traditional and Roth together',
        isNumber: true,
        cell: (one) => formatDollars(one.ira),
      },
      { title: 'SEP, on side profit', isNumber: true, cell: (one) => formatDollars(one.sep) },
      {
        title: 'Solo 401(k), on side profit',
        isNumber: true,
        cell: (one) => formatDollars(one.soloPlan),
      },
      {
        title: 'Health savings, self-only',
        isNumber: true,
        cell: (one) => formatDollars(one.hsaSelfOnly),
      },
      {
        title: 'Health savings, family',
        isNumber: true,
        cell: (one) => formatDollars(one.hsaFamily),
      },
    ]}
  />
)

const SplitForm = ({
  split,
  ids,
  typed,
}: Omit<SplitSectionProps, 'figures'> & { split: SlowerFigures['split'] }) => (
  <form method="post" action="/slower-years/split" class="phase-form no-print">
    <PlanFormIds {...ids} />
    <ErrorSummary errors={typed.errors} />
    {split.ventures.map((one, place) => (
      <PercentField
        name={`share.${place}`}
        label={`Of ${one.name}, to retirement accounts, percent`}
        hint={`${formatDollars(one.net)} a year after its own costs; now ${formatPercent(one.setAsideShare)}`}
        value={typed.value(`share.${place}`)}
        error={typed.errors[`share.${place}`]}
      />
    ))}
    <QuantityField
      name="reserveMonths"
      label="Emergency fund, months of costs"
      value={typed.value('reserveMonths')}
      error={typed.errors.reserveMonths}
    />
    <Button quiet small>
      Change the split
    </Button>
  </form>
)
