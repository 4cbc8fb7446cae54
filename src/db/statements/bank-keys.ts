// The numbers under which bank files name an account: the first stands at the account, those of later cards beside it.
import { and, eq, isNull } from 'drizzle-orm'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { otherBankKeys } from '#db/schema-statements.ts'

/** The account that an earlier file with the same number went to. */
export const accountOfBank = (books: Books, bankKey: string): number | null => {
  if (bankKey === '') return null
  const first = books.db.select({ id: accounts.id }).from(accounts).where(eq(accounts.bankKey, bankKey)).get()
  const other = () =>
    books.db
      .select({ id: otherBankKeys.accountId })
      .from(otherBankKeys)
      .where(eq(otherBankKeys.bankKey, bankKey))
      .get()
  return (first ?? other())?.id ?? null
}

/** All numbers of an account, the first one first. */
export const bankKeysOf = (books: Books, accountId: number): string[] => {
  const first = books.db
    .select({ key: accounts.bankKey })
    .from(accounts)
    .where(eq(accounts.id, accountId))
    .get()?.key
  const others = books.db
    .select({ key: otherBankKeys.bankKey })
    .from(otherBankKeys)
    .where(eq(otherBankKeys.accountId, accountId))
    .orderBy(otherBankKeys.bankKey)
    .all()
  return [...(first ? [first] : []), ...others.map(({ key }) => key)]
}

export type LearnedKey = 'first' | 'other' | null

/** A number that no account has becomes this account’s. Null when there is nothing to learn. */
export const learnBankKey = (
  books: Books,
  { accountId, statementId, bankKey }: { accountId: number; statementId: string; bankKey: string },
): LearnedKey => {
  if (bankKey.trim() === '' || accountOfBank(books, bankKey) !== null) return null
  const { changes } = books.db
    .update(accounts)
    .set({ bankKey })
    .where(and(eq(accounts.id, accountId), isNull(accounts.bankKey)))
    .run()
  if (changes > 0) return 'first'
  books.db.insert(otherBankKeys).values({ bankKey, accountId, statementId }).run()
  return 'other'
}

/** What a file that is taken back taught; `isFirst` when it taught the account its first number. */
export const forgetBankKeys = (
  books: Books,
  { accountId, statementId, isFirst }: { accountId: number; statementId: string; isFirst: boolean },
): void => {
  books.db.delete(otherBankKeys).where(eq(otherBankKeys.statementId, statementId)).run()
  if (isFirst) books.db.update(accounts).set({ bankKey: null }).where(eq(accounts.id, accountId)).run()
}
