// The usual figures in the form in which every figure from outside is listed.
import { formatRange } from '#money/format.ts'
import { amountText, type OutsideFigure } from '#rules/sources.ts'
import { type UsualFigure, type UsualList, usualKinds, usualSource } from './usual-figures.ts'
import { livingFigures } from './usual-living.ts'

const lists: readonly UsualList[] = ['enterprises', 'herds', 'markets']

export const usualOutside = (): OutsideFigure[] => [...ofFarm(), ...ofLiving()]

const ofLiving = (): OutsideFigure[] =>
  livingFigures().map((figure) => ({
    topic: 'What farm families spend',
    rule: `A year of living, ${figure.place}${figure.people === undefined ? '' : `, ${figure.people} people`}`,
    unit: 'dollars a year',
    source: sourceText(figure),
    ...(figure.note ? { note: figure.note } : {}),
    values: [
      { year: String(figure.dollarsYear), value: amountText(figure.perYear), obtained: figure.obtained },
    ],
    after:
      'a suggestion in the first run; moved to later prices and the size of a household only where that is asked',
  }))

const ofFarm = (): OutsideFigure[] =>
  lists.flatMap((list) =>
    usualKinds(list).flatMap((kind) =>
      kind.figures
        .filter(({ source }) => source !== undefined)
        .map((figure) => ({
          topic: 'Usual figures of enterprises, herds and markets',
          rule: `${kind.name}: ${figure.field}`,
          unit: figure.unit,
          source: sourceText(figure),
          ...(figure.note || figure.sum
            ? { note: [figure.sum, figure.note].filter(Boolean).join('. ') }
            : {}),
          values: [
            {
              year: figure.dollarsYear ? String(figure.dollarsYear) : 'no year printed',
              value: valueText(figure),
              obtained: figure.obtained,
            },
          ],
          after: 'a suggestion in a form; moved to later prices only where that is asked',
        })),
    ),
  )

const sourceText = (figure: { source?: string | undefined }): string => {
  const { author, title, publisher, number, year, address, kind } = usualSource(figure)!
  return kind === 'memory'
    ? 'Memory, no publication'
    : [author, title, publisher, number, year, address].filter(Boolean).join(', ')
}

const valueText = ({ value, low, high }: UsualFigure): string =>
  low === undefined ? amountText(value) : `${amountText(value)} (${formatRange(low, high!, amountText)})`
