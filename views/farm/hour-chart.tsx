// What an hour of each line of work brings, as bars.
import { formatDollars, formatDollarsAndCents } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { EmptyState } from '../parts/message.tsx'

type Line = FarmFigures['lines'][number]

export const HourChart = ({ figures }: { figures: FarmFigures }) => {
  if (figures.lines.length === 0)
    return (
      <EmptyState href="/farm/enterprises/new" action="Add an enterprise">
        The plan has no enterprise yet. One is enough to begin: a name, a year’s sales, a year’s costs.
      </EmptyState>
    )
  if (!hasHours(figures)) {
    const first = figures.lines[0]!
    return (
      <EmptyState href={editOf(first)} action={`${first.name}: enter its hours`}>
        With the hours of an enterprise, this shows what an hour brings.
      </EmptyState>
    )
  }
  const ranked = rankedByHour(figures)
  return (
    <BarChart
      id="hour-chart"
      title={`What an hour brings in ${figures.year}`}
      summary={hourInWords(figures)}
      isSaidAbove
      categoryTitle="Enterprise"
      categories={ranked.map((line) => line.name)}
      series={[
        {
          name: 'Gross margin for an hour of its own',
          tone: 1,
          values: ranked.map((line) => line.marginPerHour ?? 0),
        },
        {
          name: 'Left for an hour of yours after its share of costs',
          tone: 2,
          values: ranked.map((line) => line.returnPerHour ?? 0),
        },
      ]}
      y={{ format: formatDollarsAndCents, formatShort: dollarsShort, unit: 'dollars an hour' }}
      mark={{ atY: figures.basics.hiredHourlyCost, says: 'hired help' }}
    />
  )
}

/** Whether an hour's worth can be told of any line. */
export const hasHours = ({ lines }: Pick<FarmFigures, 'lines'>): boolean =>
  lines.some((line) => line.marginPerHour !== null)

/** A line without hours of its own is neither best nor worst: nothing is known of its hour. */
const rankedByHour = ({ lines }: Pick<FarmFigures, 'lines'>): Line[] =>
  lines
    .filter(({ marginPerHour }) => marginPerHour !== null)
    .sort((a, b) => (b.returnPerHour ?? 0) - (a.returnPerHour ?? 0))

/** Which lines of work earn their hours, and what of the farm stands in no hour. Some of them must have hours. */
export const hourInWords = (figures: Pick<FarmFigures, 'lines'>): string => {
  const ranked = rankedByHour(figures).filter(({ returnPerHour }) => returnPerHour !== null)
  const [best, worst] = [ranked[0], ranked.at(-1)]
  const says = !best
    ? 'All hours of the enterprises are hired: none of yours is paid by them.'
    : best !== worst
      ? `Most for an hour comes from ${best.name} (${hourly(best.returnPerHour)}), least from ${worst!.name} (${hourly(worst!.returnPerHour)}), market and overhead hours counted.`
      : `An hour of ${best.name} brings ${hourly(best.returnPerHour)}, market and overhead hours counted.`
  return [says, ...figures.lines.flatMap(inNoHour)].join(' ')
}

/** Costs or earnings of a line without hours are in no hour of the others. */
const inNoHour = ({ name, marginPerHour, returnToLabor }: Line): string[] => {
  if (marginPerHour !== null || Math.abs(returnToLabor) < 1) return []
  const sum = formatDollars(Math.abs(returnToLabor))
  return [
    `${name} has no hours: the ${sum} ${returnToLabor < 0 ? 'it costs beyond its sales' : 'left of its sales'} are in no hour here.`,
  ]
}

export const hourly = (dollars: number | null) =>
  dollars === null ? 'no hours' : formatDollarsAndCents(dollars)

export const editOf = (line: Line) => `/farm/${line.kind === 'herd' ? 'herds' : 'enterprises'}/${line.id}`
