// The notebook's year on the pack: miles, hired hours and pay, goods used at home and bartered.
import { headsSay } from '#farm/herd/heads-say.ts'
import { headClasses } from '#farm/notebook/kinds.ts'
import { type HerdHeads, isBreedingStock, type PreparerNotes } from '#farm/notebook/preparer.ts'
import { hoursText } from '#farm/notebook/words.ts'
import type { Cents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import { PackPart } from './parts.tsx'

interface NotebookPartProps {
  id: string
  csv: string
  notes: PreparerNotes
  year: number
}

export const NotebookPart = ({ id, csv, notes, year }: NotebookPartProps) => (
  <PackPart
    id={id}
    csv={csv}
    title="From the farm’s notebook"
    of={String(year)}
    says="As it was noted day by day; what of it is deducted or taxed is the preparer’s to say."
  >
    <table class="pack-table">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col" class="number">
            Miles, hours or head counts
          </th>
          <th scope="col" class="number">
            Amount
          </th>
        </tr>
      </thead>
      <tbody>
        {notebookRows(notes).map(({ what, quantity, amount }) => (
          <tr>
            <th scope="row">{what}</th>
            <td class="number">{quantity}</td>
            <td class="number">{amount === null ? '' : formatCentsPlain(amount)}</td>
          </tr>
        ))}
      </tbody>
    </table>
    <p class="no-print">
      <a href={`/farm/preparer?year=${year}`}>Each trip and each of the goods</a>
    </p>
  </PackPart>
)

interface NotebookRow {
  what: string
  quantity: string
  amount: Cents | null
}

/** A line for each thing that was noted; what was never noted has none. */
export const notebookRows = (notes: PreparerNotes): NotebookRow[] => [
  ...(notes.trips.length > 0
    ? [{ what: 'Miles driven for the farm', quantity: String(notes.farmMiles), amount: null }]
    : []),
  ...notes.odometers.map(({ vehicle, first, last, driven }) => ({
    what: `${vehicle}: all miles, odometer ${first} to ${last}`,
    quantity: String(driven),
    amount: null,
  })),
  ...notes.hired.map(({ person, minutes, payCents, hasUnpaid }) => ({
    what: `${person}, hired${hasUnpaid ? ', some without pay noted' : ''}`,
    quantity: hoursText(minutes),
    amount: payCents,
  })),
  ...headRows(notes),
  ...goodsRow(notes, 'kitchen', 'Goods used at home, at what they sell for'),
  ...goodsRow(notes, 'bartered', 'Goods bartered'),
]

/** Heads at the year's end, breeding stock apart from what is for sale: their sales go to different forms. */
export const headRows = ({ herds }: PreparerNotes): NotebookRow[] =>
  herds.flatMap(({ herd, kind, began, ended }) =>
    [true, false].flatMap((isBreeding) => {
      const of = (heads: HerdHeads['began']) =>
        Object.fromEntries(
          headClasses
            .filter((one) => isBreedingStock(one) === isBreeding && heads?.[one] !== undefined)
            .map((one) => [one, heads![one]]),
        )
      const [first, last] = [of(began), of(ended)]
      if (Object.keys(first).length + Object.keys(last).length === 0) return []
      const what = `${herd}, ${isBreeding ? 'to breed' : 'for sale'}: head at the end`
      const before = headsSay(kind, first)
      return [
        {
          what: before === '' ? what : `${what}, ${before} a year before`,
          quantity: headsSay(kind, last),
          amount: null,
        },
      ]
    }),
  )

const goodsRow = (notes: PreparerNotes, kind: 'kitchen' | 'bartered', name: string): NotebookRow[] => {
  const own = notes.goods.filter((one) => one.kind === kind)
  if (own.length === 0) return []
  const unpriced = own.filter(({ valueCents }) => valueCents === null).length
  const amount = kind === 'kitchen' ? notes.kitchenCents : notes.barteredCents
  return [{ what: unpriced > 0 ? `${name}; ${unpriced} without a price yet` : name, quantity: '', amount }]
}
