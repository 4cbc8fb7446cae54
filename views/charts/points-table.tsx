// The table behind a line chart: a row a point, or every so many of them.

import { type Month, monthNameShort } from '#calendar/month.ts'
import { nth } from '#calendar/spell.ts'
import { formatDollars, formatRange } from '#money/format.ts'
import { DataTable } from '../parts/table.tsx'
import type { LineChartProps } from './line-shape.ts'

export const PointsTable = (props: LineChartProps) => {
  const xs = [...new Set(props.series.flatMap((one) => one.points.map((p) => p.x)))].sort((a, b) => a - b)
  const every = props.tableEvery ?? Math.ceil(xs.length / 40)
  const rows = xs.filter((_, index) => index % every === 0 || index === xs.length - 1)
  const format = props.y?.format ?? formatDollars
  const at = props.series.map((one) => new Map(one.points.map((p) => [p.x, p.y])))
  const bands = props.series.map((one) => new Map((one.band?.points ?? []).map((p) => [p.x, p])))
  return (
    <DataTable
      caption={every > 1 ? `${props.title}: every ${nth(every)} point` : props.title}
      rows={rows}
      columns={[
        {
          title: props.x === 'month' ? 'Month' : props.x.title,
          isHeader: true,
          cell: (x) => (props.x === 'month' ? monthNameShort(x as Month) : props.x.format(x)),
        },
        ...props.series.flatMap((one, index) => [
          { title: one.name, isNumber: true, cell: (x: number) => write(at[index]!.get(x), format) },
          ...(one.band
            ? [
                {
                  title: one.band.name,
                  isNumber: true,
                  cell: (x: number) =>
                    bands[index]!.has(x)
                      ? formatRange(bands[index]!.get(x)!.low, bands[index]!.get(x)!.high, format)
                      : '',
                },
              ]
            : []),
        ]),
      ]}
    />
  )
}

const write = (value: number | undefined, format: (value: number) => string) =>
  value === undefined ? '' : format(value)
