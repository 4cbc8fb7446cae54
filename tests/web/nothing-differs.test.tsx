// Where all amounts are nothing, a chart and its words say so: no parts of a dollar on an axis beside nothing, and no “less than $0”.
// Figures of our own invention.
import { expect, test } from 'vitest'
import { formatDollars } from '#money/format.ts'
import { hadThen } from '#views/chance/bands.tsx'
import { BarChart } from '#views/charts/bar-chart.tsx'
import { dollarsShort } from '#views/charts/chart-frame.tsx'
import { LineChart } from '#views/charts/line-chart.tsx'

const dollars = { format: formatDollars, formatShort: dollarsShort }

const bars = (values: number[]) =>
  String(
    <BarChart
      id="bars"
      title="Draws"
      summary="By start"
      categories={values.map(String)}
      categoryTitle="Start"
      series={[{ name: 'Draw', tone: 1, values }]}
      y={dollars}
    />,
  )

const lines = (values: number[]) =>
  String(
    <LineChart
      id="lines"
      title="Savings"
      summary="By year"
      x={{ title: 'Year', format: String }}
      y={dollars}
      series={[{ name: 'Savings', tone: 1, points: values.map((y, x) => ({ x: 2030 + x, y })) }]}
    />,
  )

test.each([
  ['bars', bars],
  ['lines', lines],
])('%s of nothing stand on zero alone', (_, chart) => {
  const said = (values: number[]) =>
    chart(values)
      .match(/>\s*\$[\d.]+k?\s*<\/text>/g)!
      .map((one) => one.replace(/[>\s]|<.*/g, ''))
  expect(new Set(said([0, 0, 0]))).toEqual(new Set(['$0']))
  expect(said([0, 400, 900]).length).toBeGreaterThan(2)
})

test('what tenths of the runs have is told as nothing where it is nothing', () => {
  expect(hadThen({ p10: 100, p50: 2_000, p90: 9_000 })).toBe(
    'one in ten has less than $100, half less than $2,000, one in ten more than $9,000',
  )
  expect(hadThen({ p10: 0, p50: 2_000, p90: 9_000 })).toBe(
    'one in ten has nothing left, half less than $2,000, one in ten more than $9,000',
  )
  expect(hadThen({ p10: 0, p50: 0, p90: 9_000 })).toBe('half have nothing left, one in ten more than $9,000')
  expect(hadThen({ p10: 0, p50: 0, p90: 0 })).toBe('nine in ten have nothing left')
  // Tax owed and nothing to pay it from.
  expect(hadThen({ p10: -700, p50: 0, p90: 0 })).toContain('one in ten has less than −$700')
})
