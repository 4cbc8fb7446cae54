// What was paid net: pay, a pension, interest or a withdrawal as a bank shows it is what is left after tax. Pay and pensions are asked about
// once a payee; all of it is booked as the whole with what was withheld.
import { entryOfPosting } from '#db/ledger/entry-reader.ts'
import type { Books } from '#db/open.ts'
import { listLineChoices } from '#db/statements/line-choices.ts'
import type { WaitingLine } from '#db/statements/sorting-desk.ts'
import type { Sorting } from '#db/statements/sorting-store.ts'
import { type Account, householdSide } from '#ledger/account.ts'
import { plainPayee } from '#ledger/statements/payee-text.ts'
import { partsOf, type SplitShare } from '#ledger/statements/split-shares.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import { parseMoney } from '#money/parse.ts'
import { daysOf, nameOf } from '#views/books-sorting/group.tsx'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import type { PayFields } from '#views/books-sorting/pay.tsx'
import type { FormErrors, TypedForm } from '#web/forms/form.ts'
import type { PostedDesk } from './desk-choices.ts'
import { type DeskRead, readDesk } from './desk-read.ts'
import { isPay, isWhose, payPlacesOf, peopleOfPlan, personIn, soleEarner, toBeMade } from './pay-of-whom.ts'
import { targetValue } from './sorting-targets.ts'

const payAsked = (isOne: boolean): string =>
  `${isOne ? 'This is what was' : 'These are what were'} paid out. If tax was withheld, press “Say what was withheld”: then the whole and the tax count for the year. Else check the box`

/** Pensions and annuities, and what is taken from IRAs: tax is mostly withheld of them (26 USC 3405). */
const isPension = ({ kind, scheduleLine, savingsKind }: Account): boolean =>
  (kind === 'income' && (scheduleLine === '4b' || scheduleLine === '5b')) || savingsKind === 'traditional'

/** What can have come in net at home. */
const isGross = (account: Account): boolean =>
  isPension(account) ||
  (account.kind === 'income' && account.taxKind !== 'unrealized' && account.systemRole === null)

/** Into retirement savings too: a plan at work takes its part off the pay. */
const isTakenOff = (account: Account): boolean => !isGross(account) || account.kind === 'asset'

/** Whether a deposit that goes to a place would be booked whole as pay or a pension, by a payee of whom nobody said before that it is so. */
export const netAskedOf = (read: Pick<DeskRead, 'ground'>): ((row: DeskRow, to: string) => boolean) => {
  const pay = payPlaces(read)
  return ({ amount, proposal }, to) =>
    amount > 0 && pay.has(to) && !(proposal?.isSure === true && proposal.value === to)
}

/** Accounts of pay and pensions, as places of the desk. */
export const payPlaces = ({ ground }: Pick<DeskRead, 'ground'>): ReadonlySet<string> =>
  new Set(
    ground.accounts
      .filter((account) => isPay(account) || isPension(account))
      .map(({ id }) => targetValue({ kind: 'account', accountId: id, enterpriseId: null })),
  )

/** Of payees, with how many deposits each; what is asked, by line: all of a row are named together. */
export interface PayAsked {
  wrong: ReadonlyMap<number, string>
  payees: readonly string[]
}

/** The deposits among them of which it is to be said whether tax was withheld. */
export const payUnsaid = (
  books: Books,
  sortings: readonly Sorting[],
  sent: PostedDesk,
  typed: TypedForm,
): PayAsked => {
  const read = readDesk(books)
  const isAsked = netAskedOf(read)
  const ticked = new Set(typed.values('payAsPaid[]'))
  const said = new Set(
    [...sent.rows.values()].flatMap(({ lines }) => (ticked.has(String(lines[0])) ? lines : [])),
  )
  const places = new Map(
    sortings.flatMap((sorting) =>
      sorting.kind === 'target' && sorting.target.kind === 'account' && !said.has(sorting.lineId)
        ? [[sorting.lineId, targetValue({ ...sorting.target, enterpriseId: null })] as const]
        : [],
    ),
  )
  const asked = read.groups
    .map((group) => group.filter((row) => isAsked(row, places.get(row.id) ?? '')))
    .filter(({ length }) => length > 0)
  return {
    wrong: new Map(
      asked.flatMap((rows) => {
        const says = `${depositsSaid(rows)}: ${payAsked(rows.length === 1)}`
        return rows.map(({ id }) => [id, says] as const)
      }),
    ),
    payees: asked.map((rows) => (rows.length === 1 ? nameOf(rows) : `${nameOf(rows)} (${rows.length})`)),
  }
}

export const noPayAsked: PayAsked = { wrong: new Map(), payees: [] }

/** `CREAMERY PAYROLL, Feb 13, 2026, $1,200.00`; of several their number, days and sum. */
const depositsSaid = (rows: readonly DeskRow[]): string => {
  const sum = formatCents(sumCents(rows.map(({ amount }) => amount)))
  return rows.length === 1
    ? `${nameOf(rows)}, ${daysOf(rows)}, ${sum}`
    : `${nameOf(rows)}, ${rows.length} deposits, ${daysOf(rows)}, ${sum} together`
}

/** A slip takes two or three taxes, savings, premiums, and now and then something more. */
const mostTaken = 8
const emptyRows = 3

/** What the form opens with: what the last of this payee was taken off for, then the tax accounts of the side. */
export const payFields = (
  books: Books,
  line: WaitingLine,
  accounts: readonly Account[],
): PayFields | null => {
  const whose = peopleOfPlan(books)
  if (line.amount <= 0 || line.sideId !== householdSide) return null
  const own = accounts.filter(
    ({ sideId, archivedAt, id }) => sideId === line.sideId && archivedAt === null && id !== line.accountId,
  )
  const gross = own.filter(isGross)
  const tax = own.filter(({ kind, taxKind }) => kind === 'expense' && taxKind !== null)
  if (gross.length === 0) return null
  const last = lastPaid(books, line)
  const { rows } = readDesk(books)
  const goesTo =
    listLineChoices(books).get(line.id)?.to ?? rows.find(({ id }) => id === line.id)?.proposal?.value ?? ''
  const chosen = gross.find(({ id }) => goesTo === `a:${id}`)
  const whole = gross.find(({ id }) => id === last?.grossId) ?? chosen ?? gross.find(isPay) ?? gross[0]!
  const places = payPlacesOf(gross, whose)
  const taken = last?.taken ?? new Map<number, Cents | null>()
  const named = [...taken.keys(), ...tax.map(({ id }) => id)]
  return {
    isLikely: taken.size > 0 || (chosen !== undefined && (isPay(chosen) || isPension(chosen))),
    gross: places,
    whole: isWhose(whole, whose) ? soleEarner(places, whose) : String(whole.id),
    isFromBroker: accounts.some(({ id, savingsKind }) => savingsKind === 'taxable' && goesTo === `a:${id}`),
    places: own
      .filter((account) => isTakenOff(account) && account.kind !== 'equity')
      .map(({ id, name }) => ({ value: String(id), label: name })),
    taken: withEmptyRows(
      [...new Set(named)].map((id) => {
        const amount = taken.get(id) ?? null
        return { account: String(id), amount: amount === null ? '' : centsToDecimalText(amount) }
      }),
    ),
  }
}

const withEmptyRows = (rows: PayFields['taken']): PayFields['taken'] =>
  [...rows, ...Array.from({ length: emptyRows }, () => ({ account: '', amount: '' }))].slice(
    0,
    Math.max(mostTaken, rows.length),
  )

interface LastPaid {
  grossId: number
  /** By account; null where it differs from one to the next. */
  taken: Map<number, Cents | null>
}

/**
 * Of the newest of this payee that came to the same: the whole, and by account what was taken off it. Where none did, as with hours that
 * differ, what the newest was taken off for, with the amounts that were the same in the one before it, as a premium is.
 */
const lastPaid = (books: Books, line: WaitingLine): LastPaid | null => {
  const before = slipsBefore(books, line)
  const same = before.find(({ amount }) => amount === line.amount)
  if (same) return same
  const [newest, second] = before
  if (!newest) return null
  const known = [...newest.taken].map(
    ([id, amount]) => [id, second?.taken.get(id) === amount ? amount : null] as const,
  )
  return { grossId: newest.grossId, taken: new Map(known) }
}

/** Deposits of the payee on that account that are booked as more than came, newest first. */
const slipsBefore = (books: Books, line: WaitingLine): (Slip & { amount: number })[] => {
  const text = plainPayee(textOfLine(line))
  const rows = books.sqlite
    .prepare(
      `SELECT payee, memo, amount_cents AS amount, posting_id AS postingId FROM statement_lines
       WHERE account_id = ? AND amount_cents > 0 AND state = 'posted' ORDER BY day DESC, id DESC LIMIT 200`,
    )
    .all(line.accountId) as { payee: string; memo: string; amount: number; postingId: number }[]
  return rows
    .filter((one) => plainPayee(textOfLine(one)) === text)
    .flatMap(({ amount, postingId }) => {
      const slip = slipOf(books, postingId)
      return slip !== null && slip.taken.size > 0 ? [{ ...slip, amount }] : []
    })
}

interface Slip {
  grossId: number
  taken: Map<number, Cents>
}

const slipOf = (books: Books, postingId: number): Slip | null => {
  const { lines } = entryOfPosting(books, postingId)
  const own = lines.find((one) => one.postingId === postingId)
  const gross = lines.find(({ amountCents }) => amountCents < 0)
  const taken = lines.filter((one) => one.amountCents > 0 && one.accountId !== own?.accountId)
  return gross
    ? {
        grossId: gross.accountId,
        taken: new Map(taken.map(({ accountId, amountCents }) => [accountId, amountCents])),
      }
    : null
}

/** The whole is what came and all that was taken off. Kept, it is proposed for the next of its payee that come to the same. */
export const readPay = (
  typed: TypedForm,
  lineId: number,
  size: Cents,
): { sortings: Sorting[] } | { errors: FormErrors } => {
  const errors: Record<string, string> = {}
  const payAccount = typed.value('pay')
  const person = personIn(payAccount)
  if (payAccount === '') errors.pay = 'Choose whose pay it is, or what else it was before tax'
  else if (!/^\d{1,15}$/.test(payAccount) && person === null) errors.pay = 'Choose what it was before tax'
  const shares: SplitShare[] = [
    {
      accountId: person === null ? Number.parseInt(payAccount, 10) : toBeMade,
      enterpriseId: null,
      by: 'rest',
      value: 0,
    },
  ]
  for (let at = 0; at < mostTaken; at += 1) {
    const amount = typed.value(`taken.${at}.amount`).trim()
    if (amount === '') continue
    const account = typed.value(`taken.${at}.account`)
    const parsed = parseMoney(amount)
    if (!/^\d{1,15}$/.test(account)) errors[`taken.${at}.account`] = 'Choose what this was for'
    else if (account === payAccount)
      errors[`taken.${at}.account`] = 'This is what it was before tax. Choose what was taken off it'
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
    errors['taken.0.amount'] = 'Enter what was withheld. What came whole is booked on the desk'
  if (Object.keys(errors).length > 0) return { errors }
  const kept = typed.value('keep') === 'yes' ? ({ keep: shares, keepFor: 'amount' } as const) : {}
  return { sortings: [{ lineId, kind: 'split', parts: partsOf(shares, cents(size)), ...kept }] }
}
