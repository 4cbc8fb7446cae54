// Column mappings remembered per account and header, so that the next CSV of the same bank needs no questions.
import { createHash } from 'node:crypto'
import { and, desc, eq } from 'drizzle-orm'
import { type Act, atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { statementMappings, statements } from '#db/schema-statements.ts'
import {
  type ColumnMapping,
  columnMappingSchema,
  headerSignature,
} from '#ledger/statements/reading/column-mapping.ts'
import { accountOfBank } from './bank-keys.ts'
import { hasFileCalled } from './other-accounts-file.ts'

export interface KeptMapping {
  id: string
  mapping: ColumnMapping
}

/** The mapping used last for the account's files with this header. Another account's may have its signs the other way. */
export const recallMapping = (
  books: Books,
  header: readonly string[],
  accountId: number,
): KeptMapping | null => {
  const row = books.db
    .select()
    .from(statementMappings)
    .where(
      and(
        eq(statementMappings.headerDigest, digestOfHeader(header)),
        eq(statementMappings.accountId, accountId),
      ),
    )
    .orderBy(desc(statementMappings.lastUsedAt))
    .get()
  const read = row && columnMappingSchema.safeParse(row.mapping)
  return row && read?.success ? { id: row.id, mapping: read.data } : null
}

/** As remembered for the account. A file of it alone needed no column for the account; the one at hand may hold others. */
export const columnsAsBefore = (
  books: Books,
  { header, guess }: { header: readonly string[]; guess: ColumnMapping },
  accountId: number,
): ColumnMapping | null => {
  const known = recallMapping(books, header, accountId)?.mapping
  return known ? { ...known, accountColumn: known.accountColumn ?? guess.accountColumn } : null
}

/** The account that this very file was read into, or whose files have this header: of several, the one whose files have such a name. */
export const accountOfFile = (books: Books, { header, contentHash, fileName }: FileAsked): number | null => {
  const read = books.db
    .selectDistinct({ accountId: statements.accountId })
    .from(statements)
    .where(eq(statements.contentHash, contentHash))
    .all()
  if (read.length === 1) return read[0]!.accountId
  const alike = accountsOfHeader(books, header)
  const named = alike.length > 1 ? alike.filter((id) => hasFileCalled(books, id, fileName)) : alike
  return named.length === 1 ? named[0]! : null
}

export interface FileAsked {
  header: readonly string[]
  contentHash: string
  fileName: string
}

const accountsOfHeader = (books: Books, header: readonly string[]): number[] =>
  books.db
    .selectDistinct({ accountId: statementMappings.accountId })
    .from(statementMappings)
    .where(eq(statementMappings.headerDigest, digestOfHeader(header)))
    .all()
    .flatMap(({ accountId }) => accountId ?? [])

/**
 * The account of one part of a CSV: by the number that its rows name where they do, else by its headings. A short number or a
 * plain name is another bank’s too: it counts only where this account had a file with these headings before.
 */
export const accountOfRows = (
  books: Books,
  file: FileAsked,
  mapping: Pick<ColumnMapping, 'accountColumn'>,
  bankAccount: string,
): number | null => {
  if (mapping.accountColumn === null) return accountOfFile(books, file)
  const known = accountOfBank(books, bankAccount)
  return known !== null && (/\d{6}/.test(bankAccount) || recallMapping(books, file.header, known) !== null)
    ? known
    : null
}

/** Keeps the mapping for the account and header, in place of an earlier one. Returns its id. */
export const rememberMapping = (
  books: Books,
  act: Act,
  accountId: number,
  header: readonly string[],
  mapping: ColumnMapping,
): string => {
  const known = recallMapping(books, header, accountId)
  const id = known?.id ?? `${act.formId}.mapping`
  atomically(books, () => {
    books.db
      .insert(statementMappings)
      .values({
        id,
        accountId,
        name: header.filter(Boolean).join(', ').slice(0, 200) || 'Without a header',
        headerDigest: digestOfHeader(header),
        mapping,
        createdAt: act.at,
        lastUsedAt: act.at,
      })
      .onConflictDoUpdate({ target: statementMappings.id, set: { mapping, lastUsedAt: act.at } })
      .run()
    return { ok: true }
  })
  return id
}

const digestOfHeader = (header: readonly string[]): string =>
  createHash('sha256')
    .update(`${header.length}|${headerSignature(header)}`)
    .digest('hex')
