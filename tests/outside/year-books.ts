// Books of one invented year for checks worked by hand: sums by account in June, and things on the inventory.
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import type { Books } from '#db/open.ts'
import { type HoldingDraft, saveHolding } from '#db/year-store.ts'
import { cents } from '#money/cents.ts'
import { act, done } from '../db/fresh-books.ts'

const toCents = (text: string) => cents(Math.round(Number(text.replaceAll(',', '')) * 100))

export const yearParts = {
  toCents,
  by: (assetClass: NonNullable<HoldingDraft['depreciation']>['assetClass'], section179 = '0') => ({
    depreciation: { assetClass, section179Cents: toCents(section179), bonus: false },
  }),
  sold: (on: string, price: string) => ({ disposedDay: day(on), disposedForCents: toCents(price) }),
  dollarsOf: (lines: readonly { line: string; amountCents: number }[]) =>
    Object.fromEntries(lines.map(({ line, amountCents }) => [line, (amountCents / 100).toFixed(2)])),
}

export type YearBooks = ReturnType<typeof yearBooks>

/** Of one side, through the account named, in one year. */
export const yearBooks = (books: Books, sideId = 'farm', money = 'Farm checking', year = 2025) => {
  const idOf = (name: string) => {
    const found = listAccounts(books).find((one) => one.sideId === sideId && one.name === name)
    if (!found) throw new Error(`No account ${sideId}/${name}`)
    return found.id
  }
  const entry = (name: string, amount: number, payee = '') =>
    done(
      postEntry(books, act(), {
        sideId,
        day: day(`${year}-06-10`),
        payee,
        memo: '',
        source: 'form',
        lines: [
          { accountId: idOf(name), amountCents: cents(amount) },
          { accountId: idOf(money), amountCents: cents(-amount) },
        ],
      }),
    )
  return {
    /** Income by account name, costs likewise. */
    book(income: Record<string, string>, costs: Record<string, string>) {
      for (const [name, text] of Object.entries(income)) entry(name, -toCents(text))
      for (const [name, text] of Object.entries(costs)) entry(name, toCents(text))
    },
    hold: (
      name: string,
      kind: HoldingDraft['kind'],
      since: string,
      cost: string,
      more: Partial<HoldingDraft> = {},
    ) =>
      done(
        saveHolding(books, act(), sideId, {
          name,
          kind,
          quantity: 1,
          unit: '',
          accountId: null,
          acquiredDay: day(since),
          inServiceDay: null,
          raised: false,
          costCents: toCents(cost),
          depreciation: null,
          marketValueCents: null,
          ...more,
        }),
      ),
  }
}
