// The states' income tax as figures from outside: which rules of which year, from where, and what is unchecked in them.
import { stateCodes, stateNames } from '../places/state-names.ts'
import type { OutsideFigure } from '../sources.ts'
import type { Brackets } from './rule-form.ts'
import { type RulesOfYear, secondHand, stateData, uncheckedItems } from './state-data.ts'

export const stateFigures = (): OutsideFigure[] =>
  stateCodes.map((code): OutsideFigure => {
    const { years, sources, indexing, hasIncomeTax, taxesOnly } = stateData(code)
    const unchecked = [...new Set(years.flatMap(uncheckedItems))]
    const notes = [
      secondHand,
      ...(hasIncomeTax ? [] : [taxesOnly ? `taxes only ${taxesOnly}` : 'no income tax']),
      ...(unchecked.length > 0 ? [`from memory: ${unchecked.join('; ')}`] : []),
    ]
    return {
      topic: 'State income tax',
      rule: `Income tax of ${stateNames[code]}, brackets of a couple`,
      unit: 'percent over dollars of taxable income',
      source: sources.map(({ title, address }) => `${title} (${address})`).join('; ') || 'no return to cite',
      note: notes.join('. '),
      values: years.map((year) => ({
        year: yearText(year),
        value: bracketText(year.rules.brackets),
        obtained: 'read',
      })),
      after: indexing ?? 'kept',
    }
  })

const yearText = ({ year, lastPublished }: RulesOfYear): string =>
  year === lastPublished ? String(year) : `${year}, amounts of ${lastPublished}`

const bracketText = (brackets: Brackets): string =>
  ('joint' in brackets ? brackets.joint : brackets)
    .map(([from, rate]) => `${Math.round(rate * 1e6) / 1e4} over ${from.toLocaleString('en-US')}`)
    .join('; ')
