// What is to be asked before a statement is read into an account: its signs, its columns, and whether it is this account's at all.
import { and, eq, ne } from 'drizzle-orm'
import { dayName } from '#calendar/day.ts'
import { findAccount } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { statements } from '#db/schema-statements.ts'
import type { Account } from '#ledger/account.ts'
import { numberShown } from '#ledger/statements/bank-number.ts'
import { signDoubt } from '#ledger/statements/line-signs.ts'
import { endingOf, firstGap, openingOf } from '#ledger/statements/running-balance.ts'
import type { Statement, StatementLine } from '#ledger/statements/statement.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { anyOf } from '#money/lists.ts'
import { accountOfBank, bankKeysOf } from './bank-keys.ts'
import { type FileBalance, latestFileBalance } from './file-balances.ts'
import { beginsAsOther, knownByColumnsAlone, knowsNoneOfThem } from './other-accounts-file.ts'

export interface ImportQuestion {
  key:
    | 'signs'
    | 'dayOrder'
    | 'amountColumn'
    | 'accounts'
    | 'gap'
    | 'bankAccount'
    | 'kind'
    | 'currency'
    | 'otherAccount'
    | 'opening'
    | 'days'
    | 'sameColumns'
  says: string
}

export interface FileToAsk {
  format: 'ofx' | 'csv'
  contentHash: string
  statement: Statement
  fileName: string
  /** Nobody said the account: the columns alone are those of its files. */
  isByColumns?: boolean
}

/** Reads only. Nothing is read in before each of these has its yes. */
export const importQuestions = (books: Books, account: Account, file: FileToAsk): ImportQuestion[] => {
  const { statement } = file
  const isKnown = accountOfBank(books, statement.bankAccount) === account.id
  const asked: [ImportQuestion['key'], string | null][] = [
    ['signs', signDoubt(statement.lines, account)],
    ['gap', gapIn(books, account, statement)],
    ['bankAccount', isKnown ? null : otherBankAccount(books, account, statement.bankAccount)],
    ['kind', isKnown || file.format === 'csv' ? null : otherKind(account, statement)],
    [
      'currency',
      statement.currency === '' || statement.currency === 'USD'
        ? null
        : `The file is in ${statement.currency}. Its amounts would be taken as dollars.`,
    ],
    ['otherAccount', readElsewhere(books, account, file)],
    ['opening', isKnown ? null : beginsAsOther(books, account, statement)],
    ['days', isKnown ? null : knowsNoneOfThem(books, account, statement)],
    [
      'sameColumns',
      statement.bankAccount !== '' || !file.isByColumns ? null : knownByColumnsAlone(books, account, file),
    ],
  ]
  return asked.flatMap(([key, says]) => (says === null ? [] : [{ key, says }]))
}

/**
 * A balance that jumps: within the file, or from where the last file ended to where this one begins. `others`: files of the account
 * that are looked at with it and go before it by their days.
 */
export const gapIn = (
  books: Books,
  account: Account,
  { lines }: Statement,
  others: readonly Statement[] = [],
): string | null => {
  if (account.kind !== 'asset') return null
  const within = firstGap(lines)
  if (within)
    return `On ${dayName(within.day)} the balance changes by ${formatCents(cents(within.missing))} more than the transactions of that day: one may be missing.`
  const opening = openingOf(lines)
  const before = [latestFileBalance(books, account.id), ...others.map(endOf)]
    .filter((end) => end !== null && (opening === null || others.length === 0 || end.day < opening.day))
    .reduce((last, end) => (last === null || (end !== null && end.day > last.day) ? end : last), null)
  // Files that overlap are held together by their lines.
  return !opening || !before || before.day >= opening.day || before.balance === opening.balance
    ? null
    : `The last file ended with ${formatCents(before.balance)} on ${dayName(before.day)}, this one begins with ${formatCents(cents(opening.balance))} on ${dayName(opening.day)}: transactions between them may be missing.`
}

const endOf = ({ closing, lines }: Statement): FileBalance | null => {
  if (closing) return { balance: closing.balance, day: closing.asOf }
  const end = endingOf(lines)
  return end && { balance: cents(end.balance), day: end.day }
}

const otherBankAccount = (books: Books, account: Account, bankAccount: string): string | null => {
  if (bankAccount === '') return null
  const otherId = accountOfBank(books, bankAccount)
  const other = otherId === null ? undefined : findAccount(books, otherId)
  if (other)
    return `Statements of the bank’s account ${numberShown(bankAccount)} went to ${other.name} so far.`
  const own = bankKeysOf(books, account.id)
  return own.length === 0
    ? null
    : `Statements of ${account.name} were of the bank’s account ${anyOf(own.map(numberShown))} so far. This one is of ${numberShown(bankAccount)}. With a yes it counts as ${account.name} from now on, like the number of a new card.`
}

const otherKind = (account: Account, { kind, bankAccount }: Statement): string | null => {
  const named = bankAccount === '' ? '' : ` (${numberShown(bankAccount)})`
  if (kind === 'investment')
    return `This is the statement of an investment account${named}. Only its cash transactions are read in, and only if ${account.name} stands for it.`
  if (kind === 'card' && account.kind === 'asset')
    return `This is the statement of a card${named}, but ${account.name} is not owed to anyone.`
  if (kind === 'bank' && account.kind === 'liability')
    return `This is the statement of a bank account${named}, but ${account.name} is a card or a loan.`
  return null
}

/** The very file, or most of its lines, in another account. */
const readElsewhere = (books: Books, account: Account, file: FileToAsk): string | null => {
  const same = books.db
    .select({ name: accounts.name, bankAccount: accounts.bankKey })
    .from(statements)
    .innerJoin(accounts, eq(accounts.id, statements.accountId))
    .where(and(eq(statements.contentHash, file.contentHash), ne(statements.accountId, account.id)))
    .all()
    // A file of several accounts is read into each of them.
    .find((each) =>
      file.format === 'csv' && file.statement.bankAccount === ''
        ? true
        : each.bankAccount === file.statement.bankAccount,
    )
  if (same) return `This very file was read into ${same.name} before.`
  const most = mostLike(books, account.id, file.statement.lines)
  return most === null ? null : `Most of its transactions are in ${most} already.`
}

const mostLike = (books: Books, accountId: number, lines: readonly StatementLine[]): string | null => {
  if (lines.length < 3) return null
  const found = books.sqlite
    .prepare(
      `SELECT accounts.name, count(DISTINCT json_each.key) AS alike FROM json_each(?)
       JOIN statement_lines AS line ON line.day = json_extract(json_each.value, '$.day')
         AND line.amount_cents = json_extract(json_each.value, '$.amount')
         AND line.payee = json_extract(json_each.value, '$.payee')
       JOIN accounts ON accounts.id = line.account_id
       WHERE line.account_id IN (SELECT id FROM accounts WHERE id <> ?)
       GROUP BY line.account_id ORDER BY alike DESC LIMIT 1`,
    )
    .get(
      JSON.stringify(lines.slice(0, 200).map(({ day, amount, payee }) => ({ day, amount, payee }))),
      accountId,
    ) as { name: string; alike: number } | undefined
  return found && found.alike * 2 > Math.min(lines.length, 200) ? found.name : null
}
