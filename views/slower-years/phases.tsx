// The phases beside the farm before them: hours, net, the fullest month, and what changes in each.
import { nameOfMonth } from '#calendar/month.ts'
import { manyOf } from '#farm/herd/species-words.ts'
import type { PhaseBeside } from '#farm/phase-years.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { SlowerFigures } from '#today/slower-years/figures.ts'
import { LinkButton } from '../parts/button.tsx'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

export const Phases = ({ figures }: { figures: SlowerFigures }) => (
  <section id="phases" aria-labelledby="phases-title">
    <h2 id="phases-title">Phases</h2>
    {figures.phases.length === 0 ? (
      <EmptyState href="/slower-years/phases/new" action="Add a slower phase">
        The plan has no slower year yet. Enter from when each of you works how many hours a week; the mix then
        shows what the farm should be.
      </EmptyState>
    ) : (
      <>
        <PhaseTable phases={figures.phases} />
        {figures.phases.map((phase) => (
          <PhaseChanges phase={phase} />
        ))}
        <p class="no-print">
          <LinkButton href="/slower-years/phases/new" quiet small>
            Add a phase
          </LinkButton>
        </p>
      </>
    )}
  </section>
)

const PhaseTable = ({ phases }: { phases: readonly PhaseBeside[] }) => (
  <DataTable
    caption="Each phase beside the farm just before it"
    ofPlan
    stack
    rows={phases}
    columns={[
      {
        title: 'Phase',
        isHeader: true,
        cell: (phase) => <a href={`/slower-years/phases/${phase.index}`}>{phase.name}</a>,
      },
      { title: 'From', cell: (phase) => nameOfMonth(phase.from) },
      {
        title: 'Hours a week',
        cell: (phase) =>
          phase.weeklyHours.map((one) => `${one.name} ${tenth(one.hours)}`).join(', ') || 'no cap',
      },
      { title: 'Net a year', isNumber: true, cell: (phase) => formatDollars(phase.net) },
      { title: 'Net before', isNumber: true, cell: (phase) => formatDollars(phase.netBefore) },
      { title: 'Farm hours worked', isNumber: true, cell: (phase) => knownHours(phase.hours) },
      { title: 'Hours before', isNumber: true, cell: (phase) => knownHours(phase.hoursBefore) },
      { title: 'Busiest month', cell: (phase) => <FullestMonth {...phase.busiest} /> },
    ]}
  />
)

/** Hours a week the farm asks for in its fullest month, beside those there are. */
const FullestMonth = ({ month, needed, available }: PhaseBeside['busiest']) =>
  needed === null ? (
    <>not known, of {tenth(available)}&nbsp;hours a week</>
  ) : (
    <>
      {month}: {tenth(needed)} of {tenth(available)}&nbsp;hours a week
      {needed > available * 1.005 ? <strong>, {tenth(needed - available)} too many</strong> : ''}
    </>
  )

const PhaseChanges = ({ phase }: { phase: PhaseBeside }) => (
  <details id={`phase-${phase.index}`}>
    <summary>
      What changes in {nameOfMonth(phase.from)}: {phase.name}
    </summary>
    <ul>
      {[...changes(phase), ...woundDown(phase)].map((one) => (
        <li>{one}</li>
      ))}
    </ul>
  </details>
)

const woundDown = (phase: PhaseBeside): string[] => [
  ...(phase.landLeasedOut > 0
    ? [`${tenth(phase.landLeasedOut)} acres leased out bring ${formatDollars(phase.leaseAYear)} a year`]
    : []),
  ...phase.sales.map(
    (sale) =>
      `${sale.name} sold for ${formatDollars(sale.price)}, ${formatDollars(Math.max(0, sale.price - sale.basis))} of it gain`,
  ),
  ...phase.wound
    .filter((one) => one.heads >= 0.5)
    .map((one) => `${Math.round(one.heads)} head of ${one.name} sold for ${formatDollars(one.brings)}, once`),
]

/** Only what changes is said. */
const changes = (phase: PhaseBeside): string[] => {
  const scales = phase.scales
    .filter((one) => Math.abs(one.value - one.before) > 0.05)
    .map((one) =>
      one.value < 0.05
        ? `${one.name} ends`
        : `${one.name} ${tenth(one.before)} → ${tenth(one.value)} ${manyOf(one.unit)}`,
    )
  const trips = phase.trips
    .filter((one) => Math.abs(one.value - one.before) > 0.5)
    .map((one) =>
      one.value < 0.5
        ? `${one.name} is dropped`
        : `${one.name} ${whole(one.before)} → ${whole(one.value)} trips`,
    )
  const all = [...trips, ...scales]
  return all.length > 0 ? all : ['No scale and no market changes']
}

/** A share of hours is said only where both are known. */
export const netForHours = ({ net, netBefore, hours, hoursBefore, withoutHours }: PhaseBeside): string => {
  const kept = `${formatPercent(net / Math.max(1, netBefore), 0)} of the net`
  const silent = withoutHours.join(', ')
  if (hours === null || hoursBefore === null)
    return `${kept}; its hours are not known: the plan gives none for ${silent}`
  const said = `${kept} for ${formatPercent(hours / Math.max(1, hoursBefore), 0)} of the hours`
  return silent === '' ? said : `${said}, without those of ${silent}, which are not known`
}

export const knownHours = (hours: number | null) => (hours === null ? 'not known' : whole(hours))
const whole = (value: number) => Math.round(value).toLocaleString('en-US')
export const tenth = (value: number) => String(Math.round(value * 10) / 10)
