// A bill that is split the same way each time: its parts by percent or amount, laid over whatever the next one comes to.
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'

/** `percent` in hundredths of a percent, `amount` in cents, `rest` what the others leave. All are whole numbers. */
export interface SplitShare {
  accountId: number
  enterpriseId: string | null
  by: 'percent' | 'amount' | 'rest'
  value: number
}

/** A part laid over a bill: below zero what is given back on it, or taken off what came in. */
export interface Part {
  accountId: number
  enterpriseId: string | null
  size: Cents
}

const whole = 10_000

/**
 * The parts of a bill of `size`. Percents are of the whole bill; when they make 100 % the last one takes the odd cent. What is left
 * goes to the part that takes the rest; without one, the parts may not add up.
 */
export const partsOf = (shares: readonly SplitShare[], size: Cents): Part[] => {
  const percents = shares.filter(({ by }) => by === 'percent')
  const fillsUp = percents.length === shares.length && sumOf(percents) === whole
  const takesRest = shares.findIndex(({ by }) => by === 'rest')
  const last = takesRest >= 0 ? takesRest : fillsUp ? shares.length - 1 : -1
  const sizes = shares.map((share, index) => (index === last ? cents(0) : sizeOf(share, size)))
  if (last >= 0) sizes[last] = cents(size - sumCents(sizes))
  return shares.map(({ accountId, enterpriseId }, index) => ({
    accountId,
    enterpriseId,
    size: sizes[index]!,
  }))
}

/** The same, or null where they do not fit a bill of this size: amounts above it, or something left over. Only an amount named so is below zero. */
export const laidOver = (shares: readonly SplitShare[], size: Cents): Part[] | null => {
  const parts = partsOf(shares, size)
  const fits =
    sumCents(parts.map((part) => part.size)) === size &&
    parts.every((part, at) => part.size >= 0 || (shares[at]!.by === 'amount' && shares[at]!.value < 0))
  return fits ? parts : null
}

/**
 * By how much the parts that were named are more than a bill of this size, where another one takes the rest; null where they are
 * not. A rest never turns its sign: whoever means a refund on the bill names it as an amount below zero.
 */
export const beyondTheBill = (shares: readonly SplitShare[], size: Cents): Cents | null => {
  const rest = shares.findIndex(({ by }) => by === 'rest')
  const left = rest < 0 ? 0 : partsOf(shares, size)[rest]!.size
  return left < 0 ? cents(-left) : null
}

/** What is wrong with parts that are to be kept, or null. */
export const sharesProblem = (shares: readonly SplitShare[]): string | null => {
  if (shares.length < 2) return 'A bill that is split has two parts or more'
  if (shares.filter(({ by }) => by === 'rest').length > 1) return 'Only one part can take the rest'
  if (shares.some(({ by, value }) => by === 'percent' && value <= 0))
    return 'Each percent must be above zero. What is given back is entered as an amount below zero'
  if (shares.some(({ by, value }) => by === 'amount' && value === 0)) return 'Each part needs an amount'
  const percent = sumOf(shares.filter(({ by }) => by === 'percent'))
  if (percent > whole) return 'The percents add up to more than 100'
  if (shares.every(({ by }) => by === 'percent') && percent !== whole)
    return 'The percents add up to less than 100. Leave one part empty to give it the rest'
  return null
}

/**
 * How two bills of one payee were split alike: the same parts by the same amounts but for one, which takes the rest, or else by the
 * same percents. Null where they were not, and for what is not split. Parts are matched by account and enterprise.
 */
export const splitAlike = (first: readonly Part[], second: readonly Part[]): SplitShare[] | null => {
  const before = new Map(first.map((part) => [keyOf(part), part.size]))
  const isSameSet =
    second.length >= 2 &&
    first.length === second.length &&
    before.size === second.length &&
    second.every((part) => before.has(keyOf(part)))
  if (!isSameSet) return null
  const sized = second.map((part) => ({ ...part, before: before.get(keyOf(part))! }))
  const changed = sized.filter(({ size, before: was }) => size !== was)
  if (changed.length <= 1) {
    const rest = changed[0] ?? sized.toSorted((one, other) => other.size - one.size)[0]!
    return sized.map((part) =>
      shareOf(part, part === rest ? { by: 'rest', value: 0 } : { by: 'amount', value: part.size }),
    )
  }
  return percentsAlike(sized)
}

type Sized = Part & { before: Cents }

/** To the hundredth of a percent that leads from the one bill's parts to the other's, to the cent. */
const percentsAlike = (sized: readonly Sized[]): SplitShare[] | null => {
  const [was, is] = [sumCents(sized.map((part) => part.before)), sumCents(sized.map((part) => part.size))]
  if (sized.some(({ size, before }) => size <= 0 || before <= 0)) return null
  const rest = sized.toSorted((one, other) => other.size - one.size)[0]!
  const shares = sized.map((part) =>
    shareOf(
      part,
      part === rest
        ? { by: 'rest', value: 0 }
        : { by: 'percent', value: roundPercent(part.before, was, part.size, is) },
    ),
  )
  const fits = (bill: Cents, sizes: readonly Cents[]) =>
    partsOf(shares, bill).every((part, at) => Math.abs(part.size - sizes[at]!) <= 1)
  const holds = fits(
    was,
    sized.map((part) => part.before),
  )
  return holds &&
    shares.every(({ by, value }) => by === 'rest' || value > 0) &&
    fits(
      is,
      sized.map((part) => part.size),
    )
    ? shares
    : null
}

/** A whole percent where one fits both, as people reckon; else the nearest hundredth of the two together. */
const roundPercent = (one: Cents, ofOne: Cents, other: Cents, ofOther: Cents): number => {
  const exact = new Decimal(one).plus(other).times(whole).div(new Decimal(ofOne).plus(ofOther))
  const near = exact.div(100).toDecimalPlaces(0).times(100)
  return (exact.minus(near).abs().lessThan(2) ? near : exact.toDecimalPlaces(0)).toNumber()
}

const keyOf = ({ accountId, enterpriseId }: Part): string => `${accountId}|${enterpriseId ?? ''}`

const shareOf = ({ accountId, enterpriseId }: Part, rule: Pick<SplitShare, 'by' | 'value'>): SplitShare => ({
  accountId,
  enterpriseId,
  ...rule,
})

const sumOf = (shares: readonly SplitShare[]): number => shares.reduce((sum, { value }) => sum + value, 0)

const sizeOf = ({ by, value }: SplitShare, size: Cents): Cents =>
  by === 'amount'
    ? cents(value)
    : cents(new Decimal(size).times(value).div(whole).toDecimalPlaces(0).toNumber())
