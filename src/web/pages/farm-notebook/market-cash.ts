// The cash and the fee of a market day as its form at the table asks for them: where the cash lies, of each product the account of its
// sales and the batch, and how the fee was paid.
import { z } from 'zod'
import { dayName } from '#calendar/day.ts'
import { findAccount, listAccounts } from '#db/ledger/account-store.ts'
import { findMarketDay, type KeptMarketDay } from '#db/notebook/field-notes.ts'
import {
  cashByProduct,
  coinsOf,
  type FeePaid,
  type SettleMarketDay,
  settledAlready,
} from '#db/notebook/settle-market.ts'
import { cashBefore, feeBefore, feeInBooks, salesBefore } from '#db/notebook/settled-before.ts'
import type { Books } from '#db/open.ts'
import { type Account, holdsCash, householdSide, isCash } from '#ledger/account.ts'
import { type FieldProblem, type Refusal, refuse } from '#ledger/problem.ts'
import { type Cents, cents, negateCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { notebookNames } from '#today/farm/notebook-names.ts'
import type { Option } from '#views/parts/field.tsx'
import { askSure } from '#views/parts/sure-box.tsx'
import { moneyAccounts, openAccounts } from '#web/forms/account-options.ts'
import { bookedDayOrNull, formIdField, optionalText } from '#web/forms/fields.ts'

const ofProduct = { sales: optionalText(15), batch: optionalText(100) }

/**
 * Where the cash went: an account, or empty for the bank, whose statement will show it. `more`: products after the first. How the fee
 * was paid: `takings`, `line`, or an account of farm or household.
 */
export const marketForm = z.object({
  formId: formIdField(),
  day: bookedDayOrNull(),
  cash: optionalText(15),
  fee: optionalText(15),
  feeCost: optionalText(15),
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
export const settledLikeBefore = (books: Books, day: KeptMarketDay): Record<string, string> => {
  const fee = day.feeCents ? feeBefore(books, day.marketId) : null
  const paid = String(fee?.paid ?? '')
  return {
    cash: String(cashBefore(books, day.marketId) ?? ''),
    fee: feeWays(books, day).some(({ value }) => value === paid) ? paid : '',
    feeCost: day.feeCents ? String(fee?.costAccountId ?? likelyFeeCost(books) ?? '') : '',
    ...Object.fromEntries(
      productsOf(books, day).flatMap(({ enterpriseId, batches, said }) => [
        [said.sales, String(salesBefore(books, enterpriseId, day.marketId) ?? '')],
        [said.batch, batches.length === 1 ? batches[0]!.value : ''],
      ]),
    ),
  }
}

type Said = Omit<z.infer<typeof marketForm>, 'formId'>

/** What the form says, as it is written; or what of it cannot be, each at its field. `isSure` of a question: it was said yes to. */
export const settlingOf = (
  books: Books,
  id: string,
  said: Said,
  isSure: (question: string) => boolean,
): { ok: true; settling: SettleMarketDay } | Refusal => {
  const day = findMarketDay(books, id)
  if (!day) return refuse(settledAlready)
  const sales = salesSaid(books, day, said)
  const fee = feeSaid(books, day, said, isSure)
  const problems = [...sales.problems, ...fee.problems]
  if (said.cash !== '' && !cashAccounts(books).some((one) => String(one.id) === said.cash))
    problems.unshift({ path: 'cash', message: 'Choose an account from the list' })
  const [first, ...others] = problems
  return first
    ? refuse(first, ...others)
    : {
        ok: true,
        settling: {
          id,
          ...(said.day === null ? {} : { bookedOn: said.day }),
          cashAccountId: said.cash === '' ? null : Number(said.cash),
          sales: sales.sales,
          fee: fee.fee,
          payee: notebookNames(books).ofMarket(day.marketId),
        },
      }
}

/** Nothing is sold by an entry where the bank's statement brings all of the cash. */
const salesSaid = (
  books: Books,
  day: KeptMarketDay,
  said: Said,
): { sales: SettleMarketDay['sales']; problems: FieldProblem[] } => {
  if (said.cash === '' && said.fee !== 'takings') return { sales: [], problems: [] }
  const problems: FieldProblem[] = []
  const sales = productsOf(books, day).map(({ batches, said: fields }, place) => {
    const { sales = said.sales, batch = '' } = place === 0 ? said : (said.more[place - 1] ?? {})
    if (!/^\d+$/.test(sales))
      problems.push({ path: fields.sales, message: 'Choose the account of the sales' })
    if (batch !== '' && !batches.some(({ value }) => value === batch))
      problems.push({ path: fields.batch, message: 'Choose a batch from the list' })
    return { accountId: Number(sales), batchId: batch || null }
  })
  return { sales, problems }
}

const feeSaid = (
  books: Books,
  day: KeptMarketDay,
  { fee, feeCost }: Said,
  isSure: (question: string) => boolean,
): { fee: FeePaid | null; problems: FieldProblem[] } => {
  const amountCents = day.feeCents ?? cents(0)
  if (amountCents === 0) return { fee: null, problems: [] }
  if (!feeWays(books, day).some(({ value }) => value === fee))
    return { fee: null, problems: [{ path: 'fee', message: 'Say how the fee was paid' }] }
  if (fee === 'line') return { fee: { how: 'line' }, problems: [] }
  const cost = feeCosts(books).find(({ id }) => String(id) === feeCost)
  const problems: FieldProblem[] = cost ? [] : [{ path: 'feeCost', message: 'Choose the cost that a fee is' }]
  const costAccountId = cost?.id ?? 0
  if (fee === 'takings') return { fee: { how: 'takings', costAccountId }, problems }
  const accountId = Number(fee)
  const known = feeInBooks(books, { accountId, amountCents, day: day.day })
  const question =
    known &&
    askSure(
      `${findAccount(books, accountId)?.name} has ${formatCents(negateCents(amountCents))} on ${dayName(known.day)}${known.payee === '' ? '' : `, ${known.payee},`} in the books. If that is this fee, choose that the bank’s statement shows it. It may be another payment.`,
    )
  if (question && !isSure(question)) problems.push({ path: 'fee', message: question })
  return { fee: { how: 'account', accountId, costAccountId }, problems }
}

/** How a day's fee can have been paid. Out of its cash only where there was as much. */
export const feeWays = (books: Books, day: KeptMarketDay): Option[] => {
  const coins = coinsOf(day)
  const left = cents(coins - (day.feeCents ?? 0))
  return [
    ...(left >= 0 && coins > 0
      ? [{ value: 'takings', label: `Out of the day’s cash: ${formatCents(left)} was left` }]
      : []),
    { value: 'line', label: 'By the bank: its statement shows it' },
    ...inGroup(farmMoney(books), 'From the farm, booked now'),
    ...inGroup(pockets(books), 'From the house: a contribution to the farm'),
  ]
}

const inGroup = (accounts: readonly Account[], group: string): Option[] =>
  accounts.map(({ id, name }) => ({ value: String(id), label: name, group }))

/** What a fee can be a cost of. */
export const feeCosts = (books: Books): Account[] =>
  openAccounts(listAccounts(books, { sideId: 'farm' })).filter(({ kind }) => kind === 'expense')

/** The one account of other farm costs that is called after a market's fees: proposed while no fee was booked yet. */
const likelyFeeCost = (books: Books): number | null => {
  const called = feeCosts(books).filter(
    ({ name, scheduleLine }) =>
      /\bmarkets?\b/i.test(name) && /\bfees?\b/i.test(name) && (scheduleLine ?? '32').startsWith('32'),
  )
  return called.length === 1 ? called[0]!.id : null
}

/** Where cash and checks can lie: on no card. */
export const cashAccounts = (books: Books): Account[] =>
  farmMoney(books).filter(({ kind }) => kind === 'asset')

const farmMoney = (books: Books): Account[] => moneyAccounts(listAccounts(books, { sideId: 'farm' }))

/** Of the house what a fee is paid from: cash, a bank account or a card, nothing invested or set aside. */
const pockets = (books: Books): Account[] =>
  moneyAccounts(listAccounts(books, { sideId: householdSide })).filter(
    (one) => holdsCash(one) || (one.kind === 'liability' && isCash(one)),
  )
