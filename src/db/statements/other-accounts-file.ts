// Whether a file is another account's, where its bank gives no number: told by the balance it begins with and by the days that are known.

import { dayName } from '#calendar/day.ts'
import { fromTo } from '#calendar/spell.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { type Account, isMoney } from '#ledger/account.ts'
import { openingOf } from '#ledger/statements/running-balance.ts'
import type { Statement } from '#ledger/statements/statement.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { latestFileBalance } from './file-balances.ts'
import { spanOf } from './kept-lines.ts'

/** It begins with what the last file of another account ended with, and this account's ended with something else. */
export const beginsAsOther = (books: Books, account: Account, statement: Statement): string | null => {
  const opening = openingBalance(statement)
  if (opening === null || opening === 0) return null
  const endsSo = ({ id }: Pick<Account, 'id'>) => latestFileBalance(books, id)?.balance === opening
  if (endsSo(account)) return null
  const other = listAccounts(books).find((one) => one.id !== account.id && isMoney(one) && endsSo(one))
  return other
    ? `It begins with ${formatCents(opening)}, and so did the last file of ${other.name} end: it may be the file of ${other.name}.`
    : null
}

/** By the balances beside its lines, else from the one at its end, where it reaches so far. */
const openingBalance = ({ lines, closing }: Statement): Cents | null => {
  const told = openingOf(lines)
  if (told) return cents(told.balance)
  const span = spanOf(lines)
  if (!span || !closing || closing.asOf < span.last) return null
  return cents(lines.reduce((left, { amount }) => left - amount, closing.balance as number))
}

/**
 * Banks give all accounts the same columns. Its account is told by them alone where its name is unlike those of the account's earlier
 * files, it begins with another balance than they ended with, and none of its transactions is known.
 */
export const knownByColumnsAlone = (
  books: Books,
  account: Account,
  { fileName, contentHash, statement }: { fileName: string; contentHash: string; statement: Statement },
): string | null => {
  if (listAccounts(books).filter(isMoney).length < 2) return null
  if (hasFile(books, account.id, contentHash) || hasFileCalled(books, account.id, fileName)) return null
  const opening = openingBalance(statement)
  if (opening !== null && latestFileBalance(books, account.id)?.balance === opening) return null
  if (holdsAnyOf(books, account, statement.lines)) return null
  return `Its columns are those of the files of ${account.name}, but nothing else in it says whose it is, and its name, ${fileName}, is unlike theirs: it may be another account’s.`
}

const hasFile = (books: Books, accountId: number, contentHash: string): boolean =>
  books.sqlite
    .prepare('SELECT 1 FROM statements WHERE account_id = ? AND content_hash = ?')
    .get(accountId, contentHash) !== undefined

/** An earlier file of the account had this name, numbers and months aside. */
export const hasFileCalled = (books: Books, accountId: number, fileName: string): boolean =>
  (
    books.sqlite
      .prepare('SELECT DISTINCT file_name FROM statements WHERE account_id = ?')
      .pluck()
      .all(accountId) as string[]
  ).some((name) => stemOf(name) === stemOf(fileName))

/** A name without its numbers and months. */
const stemOf = (name: string): string =>
  name
    .toLowerCase()
    .replace(/\b(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\b/g, '')
    .replaceAll(/[^\p{L}]/gu, '')

/** So few can all be new by chance. */
const fewest = 3
const mostHeld = 200

/** Of days that earlier files of the account covered it has transactions, and those files none of them. */
export const knowsNoneOfThem = (books: Books, account: Account, { lines }: Statement): string | null => {
  const spans = books.sqlite
    .prepare(
      'SELECT first_day AS first, last_day AS last FROM statements WHERE account_id = ? AND first_day IS NOT NULL',
    )
    .all(account.id) as { first: string; last: string }[]
  const known = lines.filter(({ day }) => spans.some(({ first, last }) => first <= day && day <= last))
  if (known.length < fewest) return null
  if (holdsAnyOf(books, account, known)) return null
  const { first, last } = spanOf(known)!
  return `Files of ${account.name} were read before for ${fromTo(dayName(first), dayName(last))}, and none of the ${known.length} transactions that this one has there is among theirs: it may be another account’s.`
}

/** One of the first of these transactions, or one very like it, came with an earlier file. */
const holdsAnyOf = (books: Books, account: Account, lines: Statement['lines']): boolean => {
  const isHeld = books.sqlite.prepare(
    `SELECT 1 FROM json_each(@lines) AS one JOIN statement_lines AS line ON line.account_id = @accountId
       AND line.amount_cents = json_extract(one.value, '$.amount')
       AND line.day BETWEEN date(json_extract(one.value, '$.day'), '-3 days') AND date(json_extract(one.value, '$.day'), '+3 days')
     LIMIT 1`,
  )
  const some = lines.slice(0, mostHeld).map(({ day, amount }) => ({ day, amount }))
  return isHeld.get({ lines: JSON.stringify(some), accountId: account.id }) !== undefined
}
