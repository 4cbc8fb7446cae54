// Every figure from outside that the whole project uses: the law, market history, the life table, bands of farm measures, usual figures of
// enterprises.
import { lifeTable2023 } from '#chance/draws/life-table.ts'
import { calendarHistory, januaryHistory, type MarketHistory } from '#chance/market-history.ts'
import { usualOutside } from '#farm/usual/usual-outside.ts'
import { bandSets, limitsOf } from '#ledger/measures/bands.ts'
import { measureDefinitions } from '#ledger/measures/measure-definitions.ts'
import { placeFigures } from '#rules/places/place-figures.ts'
import { lawFigures, type OutsideFigure } from '#rules/sources.ts'
import { stateFigures } from '#rules/states/state-sources.ts'

export type { OutsideFigure } from '#rules/sources.ts'

/** The list that `sources` prints and the Settings page shows. */
export const outsideFigures = (): OutsideFigure[] => [
  ...lawFigures(),
  ...stateFigures(),
  ...placeFigures(),
  ...[januaryHistory, calendarHistory].flatMap(historyFigures),
  ...lifeFigures(),
  ...bandFigures(),
  ...usualOutside(),
]

const historyFigures = (history: MarketHistory): OutsideFigure[] =>
  history.sources.map((source) => {
    const series = history[source.series] ?? []
    return {
      topic: `Market history: ${history.title}`,
      rule: source.what,
      unit: 'change in the year, percent',
      source: `${source.where} (${source.license})`,
      values: series.map((change, i) => ({
        year: String(history.firstYear + i),
        value: (change * 100).toFixed(2),
        obtained: 'read' as const,
      })),
      after: 'past years are drawn as they were; not a forecast',
    }
  })

const lifeFigures = (): OutsideFigure[] =>
  (['female', 'male'] as const).map((sex) => ({
    topic: 'Length of life',
    rule: `${lifeTable2023.title}, ${sex}: chance of dying within a year, by age`,
    unit: 'chance in 1,000',
    source: lifeTable2023.source,
    values: lifeTable2023[sex].map((chance, age) => ({
      year: `age ${age}`,
      value: (chance * 1000).toFixed(3),
      obtained: 'read' as const,
    })),
    after: 'the table of one calendar year is used for all years',
  }))

const bandFigures = (): OutsideFigure[] =>
  bandSets.map((set) => ({
    topic: 'Bands of farm finance measures',
    rule: `Bands of ${set.bands.length === 1 ? 'one measure' : `${set.bands.length} measures`}`,
    unit: 'ratio or percent',
    source: set.source,
    ...(set.note ? { note: set.note } : {}),
    values: set.bands.map((band) => ({
      year: measureDefinitions[band.measure].name,
      value: limitsOf(band, set.labels),
      obtained: band.obtained,
    })),
    after: 'shown beside the measure; no band is a rule',
  }))
