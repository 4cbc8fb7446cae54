// The notebook in words: hours as people write them, and goods in one line.
import type { BatchMarkKind, GoodsKind } from './kinds.ts'

/** 90 → 1.5, 20 → 0.33. */
export const hoursText = (minutes: number): string => String(Math.round((minutes / 60) * 100) / 100)

interface Goods {
  kind: GoodsKind
  quantity: number
  unit: string
  what: string
  tradedFor: string
}

export const goodsSays = ({ kind, quantity, unit, what, tradedFor }: Goods): string =>
  `${quantity} ${unit ? `${unit} ` : ''}${what}${kind === 'kitchen' ? ' to the kitchen' : `, bartered for ${tradedFor}`}`

interface Mark {
  quantity: number
  kind: BatchMarkKind
  pounds: number | null
  note: string
}

/** What happened to a batch: `3 lost: fox`, `40 processed, 212 lb`. */
export const markSays = ({ quantity, kind, pounds, note }: Mark): string =>
  `${quantity} ${kind}${pounds === null ? '' : `, ${pounds} lb`}${note ? `: ${note}` : ''}`

/** Goods, and cash and fees of market days, that are noted and not booked. */
export const notesWait = (count: number): string =>
  count === 1
    ? 'One note from the field is not booked yet'
    : `${count} notes from the field are not booked yet`
