// The look at a held file: its account, the meaning of its columns, what it would add; and reading it in.
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { recallMapping, rememberMapping } from '#db/statements/mapping-store.ts'
import { accountOfBank, importStatement, previewImport } from '#db/statements/statement-store.ts'
import type { Account } from '#ledger/account.ts'
import type { ColumnMapping } from '#ledger/statements/column-mapping.ts'
import { readRows } from '#ledger/statements/csv.ts'
import { readMapped } from '#ledger/statements/read-file.ts'
import type { JudgedLine } from '#ledger/statements/seeing-twice.ts'
import { describeBroken, type Statement } from '#ledger/statements/statement.ts'
import {
  Look,
  type LookFigures,
  type LookLine,
  LookPage,
  type LookProps,
} from '#views/books-statements/look.tsx'
import type { MappingShown } from '#views/books-statements/mapping.tsx'
import { moneyAccounts, optionsBySide } from '#web/forms/account-options.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { formIdField } from '#web/forms/fields.ts'
import { type FormErrors, newFormId, readForm, readQuery, statusOf, type TypedForm } from '#web/forms/form.ts'
import type { HeldFile } from './held-files.ts'
import { mappingFrom, mappingNames, mappingValues } from './mapping-form.ts'

const heldNoLonger =
  'This file is not held any more: it was read in, or an hour has passed. Choose it again under Bank statements.'

export function showLook(c: PageContext, file: HeldFile | undefined) {
  return file ? answerLook(c, file, readQuery(c), {}) : notFound(c, heldNoLonger)
}

export async function readInLook(c: PageContext, file: HeldFile | undefined) {
  if (!file) return notFound(c, heldNoLonger)
  const typed = await readForm(c)
  const look = lookAt(c, file, typed)
  const formId = formIdField().safeParse(typed.value('formId'))
  if (!look.account) return answerLook(c, file, typed, { account: 'Choose the account this statement is of' })
  if (!look.statement || !formId.success) return answerLook(c, file, typed, look.errors)
  const { books } = c.var.web
  const act = actOf(c, formId.data)
  const mappingId =
    look.mapping && file.opened.format === 'csv'
      ? rememberMapping(books, act, look.account.id, file.opened.sketch.header, look.mapping)
      : null
  const outcome = importStatement(books, act, look.account.id, {
    format: file.opened.format,
    fileName: file.fileName,
    contentHash: file.contentHash,
    statement: look.statement,
    mappingId,
  })
  if (!outcome.ok) return answerLook(c, file, typed, errorsOf(outcome.problems))
  const { newLines, doubtfulLines } = outcome.result
  return moveOn(
    c,
    `/books/sorting?account=${look.account.id}`,
    `${counted(newLines, 'new line was', 'new lines were')} read in${doubtfulLines > 0 ? `, and ${counted(doubtfulLines, 'doubtful one', 'doubtful ones')} to look at` : ''}.`,
  )
}

interface LookedAt {
  part: number
  account: Account | null
  mapping: ColumnMapping | null
  mappingShown: MappingShown | null
  statement: Statement | null
  broken: string | null
  errors: FormErrors
}

const lookAt = (c: PageContext, file: HeldFile, typed: TypedForm): LookedAt => {
  const { books } = c.var.web
  const accounts = moneyAccounts(listAccounts(books))
  const chosen = accounts.find((account) => String(account.id) === typed.value('account'))
  const { opened } = file
  if (opened.format === 'ofx') {
    const part = Math.min(wholeOr(typed.value('part'), 0), opened.statements.length - 1)
    const statement = opened.statements[part]!
    const known = accountOfBank(books, statement.bankAccount)
    const account = chosen ?? accounts.find((each) => each.id === known) ?? null
    return { part, account, mapping: null, mappingShown: null, statement, broken: null, errors: {} }
  }
  const remembered = recallMapping(books, opened.sketch.header, chosen?.id ?? null)
  const account = chosen ?? accounts.find((each) => each.id === remembered?.accountId) ?? null
  const typedMapping = typed.value('dayOrder') === '' ? null : mappingFrom(typed)
  const mapping = typedMapping
    ? typedMapping.ok
      ? typedMapping.mapping
      : null
    : (remembered?.mapping ?? opened.sketch.guess)
  const values = typedMapping
    ? Object.fromEntries(mappingNames.map((name) => [name, typed.value(name)]))
    : mappingValues(mapping!)
  const read = mapping ? readMapped(opened.text, mapping) : null
  return {
    part: 0,
    account,
    mapping,
    mappingShown: mappingShown(file, values, remembered !== null),
    statement: read?.ok ? read.statement : null,
    broken: read && !read.ok ? describeBroken(read) : null,
    errors: typedMapping && !typedMapping.ok ? typedMapping.errors : {},
  }
}

const mappingShown = (
  file: HeldFile,
  values: Readonly<Record<string, string>>,
  isRemembered: boolean,
): MappingShown | null => {
  if (file.opened.format !== 'csv') return null
  const { text, sketch } = file.opened
  const delimiter = values.delimiter === 'tab' ? '\t' : values.delimiter
  const read = readRows(text.slice(0, 20_000), delimiter || sketch.delimiter, 7)
  const rows = read.ok ? read.rows.map((row) => row.cells) : []
  const width = Math.max(
    1,
    ...rows.map((row) => row.length),
    delimiter === sketch.delimiter ? sketch.columnCount : 0,
  )
  const headerAt = wholeOr(values.rowsToSkip ?? '', 1) - 1
  const header = rows[headerAt] ?? []
  return {
    values,
    columns: Array.from(
      { length: Math.min(width, 60) },
      (_, index) => header[index]?.trim() || `Column ${index + 1}`,
    ),
    rows: rows
      .filter((_, index) => index !== headerAt)
      .map((row) => row.slice(0, 60).map((cell) => cell.slice(0, 60))),
    isRemembered,
  }
}

function answerLook(c: PageContext, file: HeldFile, typed: TypedForm, errors: FormErrors) {
  const { books } = c.var.web
  const look = lookAt(c, file, typed)
  const judged =
    look.statement && look.account ? previewImport(books, look.account.id, look.statement.lines) : null
  const figures = figuresOf(file, look, judged)
  const props: LookProps = {
    figures,
    accountOptions: optionsBySide(moneyAccounts(listAccounts(books)), listSides(books)),
    mapping: look.mappingShown,
    errors: { ...look.errors, ...errors },
    formId: newFormId(),
    carried: {
      part: String(look.part),
      account: look.account ? String(look.account.id) : '',
      ...(look.mapping ? mappingValues(look.mapping) : {}),
    },
  }
  return answer(c, {
    title: 'Look at the file',
    status: statusOf(errors),
    figures,
    page: () => <LookPage {...props} />,
    parts: { look: () => <Look {...props} /> },
  })
}

const figuresOf = (file: HeldFile, look: LookedAt, judged: readonly JudgedLine[] | null): LookFigures => {
  const count = (verdict: JudgedLine['verdict']) => judged!.filter((each) => each.verdict === verdict).length
  return {
    fileName: file.fileName,
    key: file.key,
    parts:
      file.opened.format === 'ofx'
        ? file.opened.statements.map((statement, index) => ({
            index,
            name: statement.bankAccount || `Account ${index + 1}`,
            lines: statement.lines.length,
          }))
        : [],
    part: look.part,
    bankAccount: look.statement?.bankAccount ?? '',
    currency: look.statement?.currency ?? '',
    account: look.account ? { id: look.account.id, name: look.account.name } : null,
    closing: look.statement?.closing ?? null,
    counts: judged
      ? { new: count('new'), seen: count('seen'), doubtful: count('doubtful') }
      : look.statement
        ? { new: look.statement.lines.length, seen: 0, doubtful: 0 }
        : null,
    lines: firstLines(look.statement, judged),
    remarks: look.statement?.remarks ?? [],
    broken: look.broken,
  }
}

const mostOfEach = 60

const firstLines = (statement: Statement | null, judged: readonly JudgedLine[] | null): LookLine[] => {
  if (!judged)
    return (statement?.lines ?? []).slice(0, 10).map((line) => ({ ...line, verdict: 'new', why: '' }))
  return (['doubtful', 'new', 'seen'] as const).flatMap((verdict) =>
    judged
      .filter((each) => each.verdict === verdict)
      .slice(0, verdict === 'seen' ? 10 : mostOfEach)
      .map(({ line, why }) => ({ ...line, verdict, why })),
  )
}

const wholeOr = (text: string, otherwise: number): number =>
  /^\d{1,4}$/.test(text) ? Number.parseInt(text, 10) : otherwise

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`
