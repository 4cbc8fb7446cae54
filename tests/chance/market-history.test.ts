import { describe, expect, test } from 'vitest'
import { lifeTable2023 } from '#chance/draws/life-table.ts'
import { type MarketHistory, marketHistories } from '#chance/market-history.ts'

// Statistics of the published series, computed apart from this program with exact arithmetic and kept to six places.
const published = [
  {
    id: 'january',
    series: 'stocks',
    mean: 0.106641,
    sd: 0.180315,
    growth: 0.091245,
    worst: [1931, -0.442641],
    best: [1933, 0.566645],
  },
  {
    id: 'january',
    series: 'bonds',
    mean: 0.048327,
    sd: 0.065342,
    growth: 0.046432,
    worst: [2022, -0.118956],
    best: [1982, 0.431972],
  },
  {
    id: 'january',
    series: 'inflation',
    mean: 0.022794,
    sd: 0.058626,
    growth: 0.021129,
    worst: [1877, -0.156525],
    best: [1879, 0.2069],
  },
  {
    id: 'calendar',
    series: 'stocks',
    mean: 0.117942,
    sd: 0.194949,
    growth: 0.09941,
    worst: [1931, -0.438375],
    best: [1954, 0.525633],
  },
  {
    id: 'calendar',
    series: 'bonds',
    mean: 0.047917,
    sd: 0.079376,
    growth: 0.045015,
    worst: [2022, -0.178282],
    best: [1982, 0.328145],
  },
  {
    id: 'calendar',
    series: 'bills',
    mean: 0.033553,
    sd: 0.029964,
    growth: 0.033131,
    worst: [2014, 0.000327],
    best: [1981, 0.140362],
  },
] as const

describe('the history of markets', () => {
  test.for(published)('$id $series has the published mean, spread and growth', (row) => {
    const years = seriesOf(marketHistories[row.id], row.series)
    const mean = years.reduce((sum, year) => sum + year, 0) / years.length
    const sd = Math.sqrt(years.reduce((sum, year) => sum + (year - mean) ** 2, 0) / (years.length - 1))
    const growth = Math.exp(years.reduce((sum, year) => sum + Math.log1p(year), 0) / years.length) - 1
    expect(mean).toBeCloseTo(row.mean, 6)
    expect(sd).toBeCloseTo(row.sd, 6)
    expect(growth).toBeCloseTo(row.growth, 6)
  })

  test.for(published)('$id $series has its worst and best years where they were', (row) => {
    const history = marketHistories[row.id]
    const years = seriesOf(history, row.series)
    const worst = Math.min(...years)
    const best = Math.max(...years)
    expect([history.firstYear + years.indexOf(worst), worst]).toEqual(row.worst)
    expect([history.firstYear + years.indexOf(best), best]).toEqual(row.best)
  })

  test.for(Object.values(marketHistories))('$title has one figure a year in each series', (history) => {
    const length = history.lastYear - history.firstYear + 1
    for (const source of history.sources) expect(seriesOf(history, source.series)).toHaveLength(length)
  })
})

describe('the life table', () => {
  test.for([
    { sex: 'male', age: 0, years: 75.79 },
    { sex: 'male', age: 65, years: 18.12 },
    { sex: 'male', age: 100, years: 2.04 },
    { sex: 'female', age: 0, years: 81.06 },
    { sex: 'female', age: 65, years: 20.66 },
    { sex: 'female', age: 100, years: 2.23 },
  ] as const)('a $sex aged $age has $years years left as printed in table 4c6', ({ sex, age, years }) => {
    let alive = 1
    let left = 0.5
    for (const dying of lifeTable2023[sex].slice(age)) {
      alive *= 1 - dying
      left += alive
    }
    expect(Math.abs(left - years)).toBeLessThan(0.02)
  })

  test('87,399 women of 100,000 born are alive at 65, as published', () => {
    const alive = lifeTable2023.female.slice(0, 65).reduce((share, dying) => share * (1 - dying), 1)
    expect(Math.abs(alive * 100_000 - 87_399)).toBeLessThan(1)
  })
})

function seriesOf(
  history: MarketHistory,
  name: 'stocks' | 'bonds' | 'bills' | 'inflation',
): readonly number[] {
  const years = history[name]
  if (years === null) throw new Error(`${history.id} has no ${name}`)
  return years
}
