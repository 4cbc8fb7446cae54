// The published tables of places in the form in which every figure from outside is listed.
import type { OutsideFigure } from '../sources.ts'
import { benchmarkTable, bronzeTable, countiesTable, limitsTable, type PremiumTable } from './published.ts'

export const placeFigures = (): OutsideFigure[] => [
  premiumFigure(benchmarkTable()),
  premiumFigure(bronzeTable()),
  countyFigure(),
  ...limitFigures(),
]

const topic = 'Health coverage by place'

const premiumFigure = (table: PremiumTable): OutsideFigure => ({
  topic,
  rule: table.what,
  unit: 'dollars a month by rating area, in their order',
  source: table.source,
  note: table.note,
  values: Object.entries(table.premiums).flatMap(([state, areas]) =>
    table.years.map((year, k) => ({
      year: `${state} ${year}`,
      value: Object.values(areas)
        .map((premiums) => premiums[k] ?? 'none')
        .join('; '),
      obtained: 'read' as const,
    })),
  ),
  after: 'grows as the plan says',
})

const countyFigure = (): OutsideFigure => {
  const { what, source, note, areas } = countiesTable()
  return {
    topic,
    rule: what,
    unit: 'number of rating areas',
    source,
    note,
    values: Object.entries(areas).map(([state, byArea]) => ({
      year: state,
      value: String(Object.keys(byArea).length),
      obtained: 'read' as const,
    })),
    after: 'kept',
  }
}

const limitFigures = (): OutsideFigure[] => {
  const { what, note, limits } = limitsTable()
  return Object.entries(limits).map(([name, { source, states }]) => ({
    topic,
    rule: `${what}: ${name}`,
    unit: 'percent of the federal poverty level',
    source,
    note,
    values: Object.entries(states).flatMap(([state, steps]) =>
      steps.map(([from, percent]) => ({
        year: `${state} from ${from}`,
        value: percent === null ? 'none' : String(percent),
        obtained: 'read' as const,
      })),
    ),
    after: 'kept until a later one is published',
  }))
}
