// A bank's number of an account as it is shown: of a long one, like a card's, its last four digits, as banks and receipts write it.

/** Short numbers tell nothing away, and are needed to tell accounts apart. */
const longest = 7

export const numberShown = (bankNumber: string): string =>
  bankNumber.replace(/\D/g, '').length > longest ? `ending in ${bankNumber.slice(-4)}` : bankNumber
