// What was taken for breeding stock, machinery and land in kind: a thing given for a thing is a sale at what is got for it.
import { type Cents, cents } from '#money/cents.ts'

/** A posting of an entry that touches only accounts of what lasts. Debits positive; `reverses`: the entry takes another one back. */
export interface KeptPosting {
  entryNo: number
  reverses: boolean
  accountId: number
  amountCents: Cents
}

/**
 * By account of sales, positive: what stands on it as a sale, as far as the entry brings something lasting in its place. An entry that
 * takes the cost of a sold thing off the books, or what was written off of it, is none. Trades of stock and machinery are taxed as
 * sales since 2018, when 26 USC 1031 was left for land alone (from memory).
 */
export const soldInKind = (
  postings: readonly KeptPosting[],
  of: { sales: ReadonlySet<number>; got: ReadonlySet<number> },
): Map<number, Cents> => {
  const taken = new Map<number, number>()
  for (const entry of byEntry(postings)) {
    const sign = entry[0]!.reverses ? -1 : 1
    let got = entry.reduce((sum, one) => sum + (of.got.has(one.accountId) ? sign * one.amountCents : 0), 0)
    for (const { accountId, amountCents } of entry) {
      const sold = of.sales.has(accountId) ? -sign * amountCents : 0
      const part = Math.max(0, Math.min(sold, got))
      if (part === 0) continue
      got -= part
      taken.set(accountId, (taken.get(accountId) ?? 0) + sign * part)
    }
  }
  return new Map([...taken].map(([id, sum]) => [id, cents(sum)]))
}

const byEntry = (postings: readonly KeptPosting[]): KeptPosting[][] => {
  const entries = new Map<number, KeptPosting[]>()
  for (const one of postings) entries.set(one.entryNo, [...(entries.get(one.entryNo) ?? []), one])
  return [...entries.values()]
}
