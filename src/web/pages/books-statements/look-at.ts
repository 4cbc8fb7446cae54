// What a held file says for the account and columns chosen so far: the statement in it, and what is to be asked of it.
import { listAccounts } from '#db/ledger/account-store.ts'
import { accountOfBank } from '#db/statements/bank-keys.ts'
import { type ImportQuestion, importQuestions } from '#db/statements/import-questions.ts'
import { accountOfFile, accountOfRows, columnsAsBefore } from '#db/statements/mapping-store.ts'
import type { Account } from '#ledger/account.ts'
import { type ColumnMapping, unreadColumns } from '#ledger/statements/reading/column-mapping.ts'
import { readRows } from '#ledger/statements/reading/csv.ts'
import { mixedAccounts } from '#ledger/statements/reading/read-file.ts'
import { describeBroken, type Statement } from '#ledger/statements/statement.ts'
import type { MappingShown } from '#views/books-statements/mapping.tsx'
import { moneyAccounts } from '#web/forms/account-options.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import type { FormErrors, TypedForm } from '#web/forms/form.ts'
import { fitOffRequest, type HeldFile, readOffRequest } from './held-files.ts'
import { mappingFrom, mappingNames, mappingValues } from './mapping-form.ts'

export interface LookedAt {
  part: number
  /** How many accounts the file holds, as its columns are read. */
  parts: number
  account: Account | null
  mapping: ColumnMapping | null
  mappingShown: MappingShown | null
  statement: Statement | null
  broken: string | null
  questions: readonly ImportQuestion[]
  errors: FormErrors
}

/** `isConfirmed`: the columns are those of the page that was confirmed, none is proposed anew. */
export const lookAt = async (
  c: PageContext,
  file: HeldFile,
  typed: TypedForm,
  isConfirmed: boolean,
): Promise<LookedAt> => {
  const { books } = c.var.web
  const accounts = moneyAccounts(listAccounts(books))
  const chosen = accounts.find((account) => String(account.id) === typed.value('account'))
  const { opened } = file
  const accountOr = (known: number | null) => chosen ?? accounts.find((each) => each.id === known) ?? null
  if (opened.format === 'ofx') {
    const part = Math.min(wholeOr(typed.value('part'), 0), opened.statements.length - 1)
    const statement = opened.statements[part]!
    const account = accountOr(accountOfBank(books, statement.bankAccount))
    const questions = account ? importQuestions(books, account, { ...file, format: 'ofx', statement }) : []
    return {
      part,
      parts: opened.statements.length,
      account,
      mapping: null,
      mappingShown: null,
      statement,
      broken: null,
      questions,
      errors: {},
    }
  }
  return lookAtCsv(c, { ...file, opened }, typed, { accountOr, isConfirmed })
}

type OpenedCsv = Extract<HeldFile['opened'], { format: 'csv' }>

/** An account has columns of its own, and the columns say which accounts there are: so they may be read once more. */
const lookAtCsv = async (
  c: PageContext,
  file: HeldFile & { opened: OpenedCsv },
  typed: TypedForm,
  wishes: { accountOr: (known: number | null) => Account | null; isConfirmed: boolean },
): Promise<LookedAt> => {
  const { books } = c.var.web
  const { opened } = file
  const { contentHash, fileName } = file
  const told = { header: opened.sketch.header, contentHash, fileName }
  const readAs = async (account: Account | null, bankAccount = '') => {
    const columns = await columnsFor(c, opened, typed, { account, bankAccount }, wishes.isConfirmed)
    const read = columns.mapping ? await readOffRequest(opened, columns.mapping) : null
    const statements = read?.ok ? read.statements : []
    const part = Math.max(0, Math.min(wholeOr(typed.value('part'), 0), statements.length - 1))
    return { columns, part, statements, broken: read && !read.ok ? describeBroken(read) : null }
  }
  let account = wishes.accountOr(accountOfFile(books, told))
  let look = await readAs(account)
  const { mapping } = look.columns
  const named = look.statements[look.part]?.bankAccount
  if (mapping && mapping.accountColumn !== null && named !== undefined) {
    account = wishes.accountOr(accountOfRows(books, told, mapping, named))
    look = await readAs(account, named)
  }
  const { columns, part, statements, broken } = look
  const statement = statements[part] ?? null
  const mixed = columns.mapping && mixedAccounts(opened.accounts, columns.mapping)
  return {
    part,
    parts: Math.max(1, statements.length),
    account,
    mapping: columns.mapping,
    mappingShown: mappingShown(opened, columns),
    statement,
    broken,
    questions:
      account && statement
        ? [
            ...(mixed === null ? [] : [{ key: 'accounts' as const, says: mixed }]),
            ...importQuestions(books, account, {
              ...file,
              format: 'csv',
              statement,
              isByColumns: !file.looked.accounts.get(part),
            }),
            ...columns.doubts,
          ]
        : [],
    errors: columns.errors,
  }
}

interface Columns {
  mapping: ColumnMapping | null
  values: Readonly<Record<string, string>>
  proposed: string
  isRemembered: boolean
  /** Where the guess was unsure and nobody said otherwise. */
  doubts: readonly ImportQuestion[]
  errors: FormErrors
}

/**
 * As last time for this account and header, else as guessed; what a person changed in the form goes before both. Fields that
 * stand as they were proposed were not changed: another account then gets its own proposal.
 */
const columnsFor = async (
  c: PageContext,
  opened: OpenedCsv,
  typed: TypedForm,
  { account, bankAccount }: { account: Account | null; bankAccount: string },
  isConfirmed: boolean,
): Promise<Columns> => {
  const { guess, doubts, isDayOrderWritten } = opened.sketch
  const known = account ? columnsAsBefore(c.var.web.books, opened.sketch, account.id) : null
  const isAsWritten = isDayOrderWritten && known?.dayColumn === guess.dayColumn
  const remembered = known && isAsWritten ? { ...known, dayOrder: guess.dayOrder } : known
  const proposal =
    remembered ?? (account ? await fitOffRequest(opened.text, guess, account, bankAccount) : guess)
  const isRemembered = remembered !== null
  const typedValues = Object.fromEntries(mappingNames.map((name) => [name, typed.value(name)]))
  const wasTyped =
    typed.value('dayOrder') !== '' && (isConfirmed || textOf(typedValues) !== typed.value('proposed'))
  const open = (mapping: ColumnMapping) =>
    isRemembered
      ? []
      : doubts
          .filter(({ about }) =>
            about === 'dayOrder'
              ? mapping.dayOrder === guess.dayOrder
              : mapping.amount.kind !== 'two-columns' &&
                guess.amount.kind !== 'two-columns' &&
                mapping.amount.column === guess.amount.column,
          )
          .map(({ about, says }) => ({ key: about, says }))
  if (!wasTyped) {
    const values = mappingValues(proposal)
    const proposed = textOf(values)
    return { mapping: proposal, values, proposed, isRemembered, doubts: open(proposal), errors: {} }
  }
  const read = mappingFrom(typed)
  return {
    mapping: read.ok ? read.mapping : null,
    values: typedValues,
    proposed: typed.value('proposed') || textOf(mappingValues(proposal)),
    isRemembered,
    doubts: read.ok ? open(read.mapping) : [],
    errors: read.ok ? {} : read.errors,
  }
}

/** Only what the form shows for the kind of amount: the other fields are not sent. */
const textOf = (values: Readonly<Record<string, string>>): string => {
  const unseen: Record<string, readonly string[]> = {
    signed: ['outColumn', 'inColumn', 'markColumn', 'outWords', 'inWords'],
    'two-columns': ['amountColumn', 'moneyOutIs', 'markColumn', 'outWords', 'inWords'],
    marked: ['outColumn', 'inColumn', 'moneyOutIs'],
  }
  const hidden = unseen[values.amountKind ?? ''] ?? []
  return mappingNames
    .filter((name) => !hidden.includes(name))
    .map((name) => values[name] ?? '')
    .join(' ')
}

const mappingShown = ({ text, sketch }: OpenedCsv, columns: Columns): MappingShown => {
  const { values } = columns
  const delimiter = (values.delimiter === 'tab' ? '\t' : values.delimiter) || sketch.delimiter
  const isSketched = delimiter === sketch.delimiter
  const read = isSketched ? sketch : readRows(text.slice(0, 20_000), delimiter, 7)
  const rows = read.ok ? read.rows : []
  const width = Math.max(1, ...rows.map((row) => row.cells.length), isSketched ? sketch.columnCount : 0)
  const isHeader = (cells: readonly string[]) =>
    isSketched &&
    sketch.header.some(Boolean) &&
    sketch.header.every((title, at) => title === (cells[at] ?? '').trim())
  const titles = Array.from(
    { length: Math.min(width, 60) },
    (_, at) => (isSketched && sketch.header[at]) || `Column ${at + 1}`,
  )
  const below = rows.filter(({ cells }) => !isHeader(cells))
  return {
    values,
    columns: titles,
    rows: below.slice(0, 7).map(({ cells }) => cells.slice(0, 60).map((cell) => cell.slice(0, 60))),
    isRemembered: columns.isRemembered,
    proposed: columns.proposed,
    unread: columns.mapping
      ? unreadColumns(columns.mapping, below).map((at) => titles[at] ?? `Column ${at + 1}`)
      : [],
  }
}

const wholeOr = (text: string, otherwise: number): number =>
  /^\d{1,4}$/.test(text) ? Number.parseInt(text, 10) : otherwise
