// Pay as a bank shows it is what is left after tax: asked about once a payee, and booked as pay before tax with what was withheld.
import { entryOfPosting } from '#db/ledger/entry-reader.ts'
import type { Books } from '#db/open.ts'
import { listLineChoices } from '#db/statements/line-choices.ts'
import type { WaitingLine } from '#db/statements/sorting-desk.ts'
import type { Sorting } from '#db/statements/sorting-store.ts'
import type { Account } from '#ledger/account.ts'
import { plainPayee } from '#ledger/statements/payee-text.ts'
import { partsOf, type SplitShare } from '#ledger/statements/split-shares.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import { type Cents, cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { parseMoney } from '#money/parse.ts'
import type { PayFields } from '#views/books-sorting/pay.tsx'
import type { FormErrors, TypedForm } from '#web/forms/form.ts'
import type { PostedDesk } from './desk-choices.ts'
import { readDesk } from './desk-read.ts'
import { targetValue } from './sorting-targets.ts'

export const payAsked =
  'This is pay as it was paid out. If tax was withheld, press “Say what was withheld”: then pay before tax and the tax count for the year. Else tick the box'

const isPay = ({ kind, purpose }: Account): boolean => kind === 'income' && purpose === 'pay'

/** The deposits among them that would be booked whole as pay, by a payee of whom nobody said before that it is so. */
export const payUnsaid = (
  books: Books,
  sortings: readonly Sorting[],
  sent: PostedDesk,
  typed: TypedForm,
): number[] => {
  const { rows, ground } = readDesk(books)
  const pay = new Set(ground.accounts.filter(isPay).map(({ id }) => id))
  const ticked = new Set(typed.values('payAsPaid[]'))
  const said = new Set(
    [...sent.rows.values()].flatMap(({ lines }) => (ticked.has(String(lines[0])) ? lines : [])),
  )
  const byId = new Map(rows.map((row) => [row.id, row]))
  return sortings.flatMap((sorting) => {
    if (sorting.kind !== 'target' || sorting.target.kind !== 'account' || said.has(sorting.lineId)) return []
    const row = byId.get(sorting.lineId)
    const isKnown = row?.proposal?.isSure === true && row.proposal.value === targetValue(sorting.target)
    return row && row.amount > 0 && !isKnown && pay.has(sorting.target.accountId) ? [row.id] : []
  })
}

const mostTaken = 6

/** What the form opens with: the tax accounts of the side, with the amounts of the last pay of this payee and size. */
export const payFields = (
  books: Books,
  line: WaitingLine,
  accounts: readonly Account[],
): PayFields | null => {
  const own = accounts.filter(({ sideId, archivedAt }) => sideId === line.sideId && archivedAt === null)
  const pay = own.filter(isPay)
  if (line.amount <= 0 || pay.length === 0) return null
  const last = lastPay(books, line)
  const tax = own.filter(({ kind, taxKind }) => kind === 'expense' && taxKind !== null)
  const { rows } = readDesk(books)
  const goesTo =
    listLineChoices(books).get(line.id)?.to ?? rows.find(({ id }) => id === line.id)?.proposal?.value ?? ''
  const named = [...tax.map(({ id }) => id), ...last.keys()]
  return {
    isLikely: last.size > 0 || pay.some(({ id }) => goesTo === `a:${id}`),
    pay: pay.map(({ id, name }) => ({ value: String(id), label: name })),
    places: own
      .filter((account) => !isPay(account) && account.id !== line.accountId && account.kind !== 'equity')
      .map(({ id, name }) => ({ value: String(id), label: name })),
    taken: [...new Set(named)].slice(0, mostTaken - 1).map((id) => ({
      account: String(id),
      amount: last.has(id) ? centsToDecimalText(last.get(id)!) : '',
    })),
  }
}

/** By account, what was taken off the newest pay that came to the same. */
const lastPay = (books: Books, line: WaitingLine): Map<number, Cents> => {
  const text = plainPayee(textOfLine(line))
  const before = (
    books.sqlite
      .prepare(
        `SELECT payee, memo, posting_id AS postingId FROM statement_lines
         WHERE account_id = ? AND amount_cents = ? AND state = 'posted' ORDER BY day DESC, id DESC LIMIT 50`,
      )
      .all(line.accountId, line.amount) as { payee: string; memo: string; postingId: number }[]
  ).find((one) => plainPayee(textOfLine(one)) === text)
  if (!before) return new Map()
  return new Map(
    entryOfPosting(books, before.postingId)
      .lines.filter(({ accountId, amountCents }) => amountCents > 0 && accountId !== line.accountId)
      .map(({ accountId, amountCents }) => [accountId, amountCents]),
  )
}

/** Pay takes what came and all that was taken off. */
export const readPay = (
  typed: TypedForm,
  lineId: number,
  size: Cents,
): { sortings: Sorting[] } | { errors: FormErrors } => {
  const errors: Record<string, string> = {}
  const payAccount = typed.value('pay')
  if (!/^\d{1,15}$/.test(payAccount)) errors.pay = 'Choose the account of the pay'
  const shares: SplitShare[] = [
    { accountId: Number.parseInt(payAccount, 10), enterpriseId: null, by: 'rest', value: 0 },
  ]
  for (let at = 0; at < mostTaken; at += 1) {
    const amount = typed.value(`taken.${at}.amount`).trim()
    if (amount === '') continue
    const account = typed.value(`taken.${at}.account`)
    const parsed = parseMoney(amount)
    if (!/^\d{1,15}$/.test(account)) errors[`taken.${at}.account`] = 'Choose what this was for'
    if (!parsed.ok) errors[`taken.${at}.amount`] = parsed.message
    else if (parsed.value <= 0) errors[`taken.${at}.amount`] = 'Enter what was taken off, above zero'
    else
      shares.push({
        accountId: Number.parseInt(account, 10),
        enterpriseId: null,
        by: 'amount',
        value: -parsed.value,
      })
  }
  if (shares.length === 1 && Object.keys(errors).length === 0)
    errors['taken.0.amount'] = 'Enter what was withheld. Pay of which nothing was is booked on the desk'
  if (Object.keys(errors).length > 0) return { errors }
  return { sortings: [{ lineId, kind: 'split', parts: partsOf(shares, cents(size)) }] }
}
