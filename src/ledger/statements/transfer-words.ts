// What a line's words say of its being half of a transfer between two of one's own accounts.
import { plainPayee, wordsOf } from './payee-text.ts'

export interface OwnAccount {
  /** Words of its own and of its side's name, lower case. */
  names: readonly string[]
  /** The bank's number for it, `''` when no file has told. */
  bankNumber: string
  /** A card or a credit line: what comes in are payments. */
  isOwed: boolean
}

/**
 * `told`: the words say transfer, or name the other account and nobody else. `mute`: they name no one, like CHECK 1001.
 * `other`: they name someone. `elsewhere`: they name the number of another account of one's own.
 */
export type Bearing = 'told' | 'mute' | 'other' | 'elsewhere'

export const bearingOf = (
  text: string,
  own: OwnAccount,
  other: OwnAccount,
  all: readonly OwnAccount[],
): Bearing => {
  const numbers = numbersIn(text)
  const isOf = (account: OwnAccount) =>
    numbers.some((ending) => account.bankNumber !== '' && account.bankNumber.endsWith(ending))
  if (isOf(other)) return 'told'
  if (all.some((account) => account !== own && isOf(account))) return 'elsewhere'
  const words = wordsOf(plainPayee(text))
  const saysTransfer = words.some((word) => transferWords.has(word) || (own.isOwed && paymentWords.has(word)))
  if (saysTransfer) return 'told'
  const rest = words.filter(
    (word) =>
      !fillers.has(word) &&
      !paymentWords.has(word) &&
      !other.names.includes(word) &&
      !own.names.includes(word),
  )
  if (rest.length > 0) return 'other'
  return words.some((word) => other.names.includes(word)) ? 'told' : 'mute'
}

/** Ends of account numbers as banks hide them: `...4411`, `xx4411`, `ending in 4411`. */
const numbersIn = (text: string): string[] =>
  [...text.matchAll(/(?:\.{2,}|[x*\u2022]{2,}|\bending(?: in)?|\bacc(?:oun)?t)\s*#?\s*(\d{3,17})\b/gi)].map(
    (match) => match[1]!,
  )

const transferWords = new Set('transfer transfers xfer xfr trnsfr transf trf tfr draw sweep'.split(' '))
const paymentWords = new Set('payment payments pymt epay autopay thank you'.split(' '))
/** Words that name no one (common practice). */
const fillers = new Set(
  'to from in out of the and via online mobile internet banking bank account acct checking savings chk sav money cash deposit withdrawal check cheque card auto bill memo request confirmation conf ending no number int'.split(
    ' ',
  ),
)
