// The money and hours of a batch, a row each.

import { isCountedByHead } from '#farm/notebook/whole-heads.ts'
import { hoursText } from '#farm/notebook/words.ts'
import { formatCents } from '#money/format.ts'
import type { BatchFigures } from '#today/farm/batch-figures.ts'
import { DataTable } from '../parts/table.tsx'
import { breakEvenSays } from './break-even.ts'

export const BatchMoney = ({ figures: { batch, result } }: { figures: BatchFigures }) => (
  <DataTable
    caption="Money and hours"
    rows={moneyRows(batch, result)}
    columns={[
      {
        title: 'What',
        isHeader: true,
        cell: ({ label, note }) => (
          <>
            {label}
            {note ? (
              <>
                <br />
                <span class="hint">{note}</span>
              </>
            ) : null}
          </>
        ),
      },
      {
        title: 'So far',
        cell: ({ value, isSaid }) => (isSaid ? <span class="words-said">{value}</span> : value),
        isNumber: true,
      },
    ]}
  />
)

const pricedWords = ({ unpriced, atHoped }: BatchFigures['result']): string => {
  if (unpriced > 0) return `${unpriced} without a price yet`
  return atHoped > 0
    ? `${atHoped} at the price hoped for, until the table at home gives theirs`
    : 'at what they sell for'
}

/** What hired hours cost the batch, and how that is known. */
const hiredSays = ({ hiredPayCents, unpaidMinutes }: BatchFigures['result']) => {
  if (hiredPayCents === 0 && unpaidMinutes === 0)
    return { note: 'its pay is among the lines of the books', value: '–' }
  const missing =
    unpaidMinutes > 0 ? `; no pay is noted for ${hoursText(unpaidMinutes)} h, which count as free` : ''
  return { note: `pay noted with the hours${missing}`, value: formatCents(hiredPayCents) }
}

interface MoneyRow {
  label: string
  note?: string
  value: string
  /** In words, which may take two lines. */
  isSaid?: boolean
}

const breakEvenRow = (result: BatchFigures['result']): MoneyRow[] =>
  result.breakEvenCents === null
    ? []
    : [
        {
          label: 'Each that is left must bring, to cover the costs',
          value: breakEvenSays(result),
          isSaid: true,
        },
      ]

const moneyRows = (
  { hopedPriceCents: hoped, unit }: BatchFigures['batch'],
  result: BatchFigures['result'],
): MoneyRow[] => [
  {
    label: `Sold, ${result.sold}`,
    note: 'lines of the books tied to it',
    value: formatCents(result.salesCents),
  },
  ...(result.kitchen + result.bartered > 0
    ? [
        {
          label: `Own kitchen and bartered, ${result.kitchen + result.bartered}`,
          note: pricedWords(result),
          value: formatCents(result.goodsCents),
        },
      ]
    : []),
  ...(result.kept > 0
    ? [
        {
          label: `Kept on the farm, ${result.kept}`,
          note: `at what they cost; they stand as ${isCountedByHead(unit) ? 'raised stock that stays' : 'what stays of it'} in the balance sheet`,
          value: formatCents(result.keptCents),
        },
      ]
    : []),
  {
    label: 'Costs',
    note: 'lines of the books tied to it',
    value: formatCents(result.bookedCents),
  },
  ...(result.hiredMinutes > 0
    ? [{ label: `Hired help, ${hoursText(result.hiredMinutes)} h`, ...hiredSays(result) }]
    : []),
  { label: 'Left after costs', value: formatCents(result.marginCents) },
  { label: 'Hours of your own', value: hoursText(result.minutes) },
  ...breakEvenRow(result),
  ...(hoped === null || result.hopedRestCents === null
    ? []
    : [
        {
          label: `If the rest sells at ${formatCents(hoped)} each`,
          note: `${formatCents(result.hopedRestCents)} more`,
          value: result.hopedPerHourCents === null ? '–' : `${formatCents(result.hopedPerHourCents)} an hour`,
        },
      ]),
  ...(result.carriedCents > 0
    ? [
        {
          label: 'Cost that lies in what is left',
          note: `is in the inventory of the balance sheet: do not list it there again${result.hiredPayCents > 0 ? '; pay that is only noted is not in it' : ''}`,
          value: formatCents(result.carriedCents),
        },
      ]
    : []),
]
