// The cash of a market day as its form at the table asks for it: where it lies, and of each product the account of its sales and the batch.
import { z } from 'zod'
import { listAccounts } from '#db/ledger/account-store.ts'
import { findMarketDay, type KeptMarketDay } from '#db/notebook/field-notes.ts'
import { cashByProduct, type SettleMarketDay } from '#db/notebook/settle-notes.ts'
import { cashBefore, salesBefore } from '#db/notebook/settled-before.ts'
import type { Books } from '#db/open.ts'
import type { Account } from '#ledger/account.ts'
import { type FieldProblem, type Refusal, refuse } from '#ledger/problem.ts'
import type { Cents } from '#money/cents.ts'
import { notebookNames } from '#today/farm/notebook-names.ts'
import { moneyAccounts } from '#web/forms/account-options.ts'
import { formIdField, optionalText } from '#web/forms/fields.ts'

const ofProduct = { sales: optionalText(15), batch: optionalText(100) }

/** Where the cash went: an account, or empty for the bank, whose statement will show it. `more`: products after the first. */
export const marketForm = z.object({
  formId: formIdField(),
  cash: optionalText(15),
  ...ofProduct,
  more: z.array(z.object(ofProduct)).default([]),
})

interface Product {
  enterpriseId: string
  /** Empty for what was not told apart. */
  name: string
  amountCents: Cents
  /** Batches of it that were under way on the day. */
  batches: { value: string; label: string }[]
  /** Names of its fields. */
  said: { sales: string; batch: string }
}

/** What brought cash on a day, in the order of its fields. */
export const productsOf = (books: Books, day: KeptMarketDay): Product[] => {
  const names = notebookNames(books)
  return cashByProduct(day).map(({ enterpriseId, amountCents }, place) => ({
    enterpriseId,
    name: enterpriseId === '' ? '' : names.ofEnterprise(enterpriseId),
    amountCents,
    batches: names.batches
      .filter(
        (batch) =>
          batch.enterpriseId === enterpriseId &&
          batch.startedDay <= day.day &&
          (batch.endedDay === null || batch.endedDay >= day.day),
      )
      .map(({ id, name }) => ({ value: id, label: name })),
    said: fieldsOf(place),
  }))
}

const fieldsOf = (place: number) =>
  place === 0
    ? { sales: 'sales', batch: 'batch' }
    : { sales: `more.${place - 1}.sales`, batch: `more.${place - 1}.batch` }

/** What its form opens with: the accounts of the days before, and the one batch that it can be of. What nothing tells is left open. */
export const settledLikeBefore = (books: Books, day: KeptMarketDay): Record<string, string> => ({
  cash: String(cashBefore(books, day.marketId) ?? ''),
  ...Object.fromEntries(
    productsOf(books, day).flatMap(({ enterpriseId, batches, said }) => [
      [said.sales, String(salesBefore(books, enterpriseId, day.marketId) ?? '')],
      [said.batch, batches.length === 1 ? batches[0]!.value : ''],
    ]),
  ),
})

/** What the form says, as it is written; or what of it cannot be, each at its field. */
export const settlingOf = (
  books: Books,
  id: string,
  said: Omit<z.infer<typeof marketForm>, 'formId'>,
): { ok: true; settling: SettleMarketDay } | Refusal => {
  const day = findMarketDay(books, id)
  if (!day) return refuse({ path: '', message: 'That was settled already. Open the page again' })
  const payee = notebookNames(books).ofMarket(day.marketId)
  if (said.cash === '') return { ok: true, settling: { id, cashAccountId: null, sales: [], payee } }
  const problems: FieldProblem[] = []
  if (!cashAccounts(books).some((one) => String(one.id) === said.cash))
    problems.push({ path: 'cash', message: 'Choose an account from the list' })
  const sales = productsOf(books, day).map(({ batches, said: fields }, place) => {
    const { sales = said.sales, batch = '' } = place === 0 ? said : (said.more[place - 1] ?? {})
    if (!/^\d+$/.test(sales))
      problems.push({ path: fields.sales, message: 'Choose the account of the sales' })
    if (batch !== '' && !batches.some(({ value }) => value === batch))
      problems.push({ path: fields.batch, message: 'Choose a batch from the list' })
    return { accountId: Number(sales), batchId: batch || null }
  })
  const [first, ...others] = problems
  return first
    ? refuse(first, ...others)
    : { ok: true, settling: { id, cashAccountId: Number(said.cash), sales, payee } }
}

export const cashAccounts = (books: Books): Account[] =>
  moneyAccounts(listAccounts(books, { sideId: 'farm' }))
