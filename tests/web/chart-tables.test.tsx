// Beside a drawing its axis is short; in the table behind it an amount stands in whole dollars. Figures of our own invention: levels 147 dollars
// apart, which short would be $1k, $1.2k, $1.3k.
import { expect, test } from 'vitest'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { CurvePoint } from '#solve/question.ts'
import { BarChart } from '#views/charts/bar-chart.tsx'
import { LineChart } from '#views/charts/line-chart.tsx'
import { Curve } from '#views/questions/answers.tsx'

const levels = [882.35, 1029.41, 1176.47, 1323.53]
const cells = (html: unknown): string[] =>
  [...String(html).matchAll(/<t[dh][^>]*>([^<]*)<\/t[dh]>/g)].map(([, cell]) => cell!.trim())

const held = (share: number) => ({ share, low: share - 0.02, high: share + 0.02 }) as CurvePoint['held']

test('how surely a draw can be paid stands beside each draw in whole dollars', () => {
  const html = (
    <Curve
      points={levels.map((at, i) => ({ at, held: held(0.95 - i / 10) }))}
      confidence={0.8}
      at={1029.41}
      title="Share of simulations"
      along="Draw a month"
    />
  )
  expect(cells(html)).toEqual(expect.arrayContaining(['$882', '$1,176', '$1,324']))
  expect(String(html)).toContain(`${formatPercent(0.8, 0)} at $1,029`)
  expect(cells(html).join(' ')).not.toMatch(/\$[\d.]+k|\$\d+\.\d/)
})

test('no table of a chart of money shortens thousands where no axis was told', () => {
  const lines = (
    <LineChart
      id="lines"
      title="Draws"
      summary="By level"
      x={{ title: 'Level', format: formatDollars }}
      series={[{ name: 'Drawn', tone: 1, points: levels.map((y) => ({ x: y, y: y * 12 })) }]}
    />
  )
  const bars = (
    <BarChart
      id="bars"
      title="Draws"
      summary="By start"
      categories={levels.map(String)}
      categoryTitle="Start"
      series={[{ name: 'Draw', tone: 1, values: levels }]}
    />
  )
  expect(cells(lines)).toEqual(expect.arrayContaining(['$882', '$10,588', '$15,882']))
  expect(cells(bars)).toEqual(expect.arrayContaining(['$1,029', '$1,324']))
})
