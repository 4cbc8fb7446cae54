// Payee texts without what changes from line to line: numbers, dates, punctuation, words every bank adds.

/** Words that say how money moved, not to whom. Common practice: seen in most banks' wording. */
const bankWords = new Set(
  'pos ach dda ppd ccd web tel des indn co id ref purchase debit credit card checkcard recurring pmt auth trn dbt crd'.split(
    ' ',
  ),
)

/** `POS DEBIT 0412 HOLLOW FEED #22 TARN HOLLOW PA` → `hollow feed tarn hollow pa`. Never empty unless the text has no letter. */
export const plainPayee = (text: string): string => {
  const known = plainly.get(text)
  if (known !== undefined) return known
  if (plainly.size >= mostKnown) plainly.clear()
  const plain = plainOf(text)
  plainly.set(text, plain)
  return plain
}

/** The same texts are asked for by every page of the desk. */
const plainly = new Map<string, string>()
const mostKnown = 20_000

const plainOf = (text: string): string => {
  const words = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/['\u2019]/g, '')
    .split(/[^\p{L}\p{N}&]+/u)
    .filter((word) => word !== '' && word !== '&')
  const lettered = words.filter((word) => !/\d/.test(word) || namesForm(word))
  const telling = lettered.filter((word) => !bankWords.has(word))
  return (telling.length > 0 ? telling : lettered).join(' ')
}

/**
 * A form or voucher of a tax office, as offices write it on payments: letters for the state or the kind, then a form's number, then
 * what sort of payment it is, like IT1040ES or 540ES. It says what was paid, and is the same next time. Common practice.
 */
const namesForm = (word: string): boolean =>
  /^[a-z]{0,3}\d{2,4}(es|ep|ext)$/.test(word) ||
  /^[a-z]{1,4}(1040|1041|1065|1120|94[0-5])[a-z]{0,3}$/.test(word)

/** A text without the numbers that each transaction has its own of; as it stands where nothing would be left. */
export const withoutNumbers = (text: string): string =>
  text
    .split(/\s+/)
    .filter((word) => !/\d/.test(word) || namesForm(word.toLowerCase()))
    .join(' ')
    .trim() || text

/** True of texts like `DEBIT` or `ACH CREDIT`, and of none at all. */
export const saysOnlyHow = (text: string): boolean =>
  text
    .toLowerCase()
    .split(/[^\p{L}\p{N}&]+/u)
    .every((word) => word === '' || bankWords.has(word))

export const wordsOf = (plain: string): string[] => (plain === '' ? [] : plain.split(' '))

/** Texts that name no one, so that nothing is to be learned from them. */
export const namesNoOne = (plain: string): boolean => /^(check|cheque|withdrawal|atm|)$/.test(plain)
