// The usual figures in the form in which every figure from outside is listed.
import { amountText, type OutsideFigure } from '#rules/sources.ts'
import { type UsualFigure, type UsualList, usualKinds, usualSource } from './usual-figures.ts'

const lists: readonly UsualList[] = ['enterprises', 'herds', 'markets']

export const usualOutside = (): OutsideFigure[] =>
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

const sourceText = (figure: UsualFigure): string => {
  const { author, title, publisher, number, year, address, kind } = usualSource(figure)!
  return kind === 'memory'
    ? 'Memory, no publication'
    : [author, title, publisher, number, year, address].filter(Boolean).join(', ')
}

const valueText = ({ value, low, high }: UsualFigure): string =>
  low === undefined ? amountText(value) : `${amountText(value)} (${amountText(low)} to ${amountText(high!)})`
