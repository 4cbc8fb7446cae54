// The cash flow of a business in copies that were kept when it was told in plain words: brought under the headings of today, so that only amounts
// can differ. The kept text itself stays as it is.
import { type Cents, sumCents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { parseMoney } from '#money/parse.ts'

interface Told {
  id: string
  rows: readonly (readonly string[])[]
}

export const underItsHeadings = <Sheet extends Told>(then: Sheet, now: Told): Sheet => {
  const isTold = ({ rows }: Told) => rows.some(([heading]) => headings.has(heading ?? ''))
  if (!then.id.endsWith('-cash') || !isTold(then) || isTold(now)) return then
  const parts: Cents[] = []
  const rows = then.rows.flatMap(([heading = '', line = '', amount = '', ...rest]) => {
    const kept = [headings.get(heading) ?? heading, totals.get(line) ?? line, amount, ...rest]
    if (!partsOfFinancing.includes(line)) return [kept]
    const read = parseMoney(amount)
    if (!read.ok) return [kept]
    parts.push(read.value)
    return []
  })
  const financing = [financed, 'Cash from financing activities', centsToDecimalText(sumCents(parts))]
  return { ...then, rows: parts.length === 0 ? rows : [...rows, financing] }
}

const financed = 'Financing activities'

const headings: ReadonlyMap<string, string> = new Map([
  ['Earning and spending', 'Operating activities'],
  ['Land, buildings, equipment, stock and money set aside', 'Investing activities'],
  ['Loans', financed],
  ['Crossings', financed],
  ['Gifts and other equity', financed],
])

const totals: ReadonlyMap<string, string> = new Map([
  ['From earning and spending', 'Cash from operating activities'],
  ['From buying and selling what lasts', 'Cash from investing activities'],
])

const partsOfFinancing: readonly string[] = ['From loans', 'From crossings', 'From gifts and other equity']
