// The look at a held file: its account, the meaning of its columns, what it would add; and reading it in.
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { accountOfBank } from '#db/statements/bank-keys.ts'
import type { PartToRead } from '#db/statements/read-together.ts'
import { type ImportResult, previewing, readingIn } from '#db/statements/statement-store.ts'
import { withTurns } from '#kept/in-turns.ts'
import type { JudgedLine } from '#ledger/statements/seeing-twice.ts'
import type { Statement } from '#ledger/statements/statement.ts'
import {
  Look,
  type LookFigures,
  type LookLine,
  LookPage,
  type LookProps,
} from '#views/books-statements/look.tsx'
import { moneyAccounts, optionsBySide } from '#web/forms/account-options.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { formIdField } from '#web/forms/fields.ts'
import { type FormErrors, newFormId, readForm, readQuery, statusOf, type TypedForm } from '#web/forms/form.ts'
import { turns } from '#web/server/let-others.ts'
import { undoable } from '#web/server/undo.ts'
import type { HeldFile } from './held-files.ts'
import { type HeldTogether, severalAddress } from './held-together.ts'
import { lookKept } from './kept-look.ts'
import { type LookedAt, lookAt } from './look-at.ts'
import { mappingValues } from './mapping-form.ts'
import { readApart } from './read-apart.ts'

const heldNoLonger =
  'This file is not held any more: it was read in, or an hour has passed. Choose it again under Bank statements.'

export async function showLook(c: PageContext, file: HeldFile | undefined, several?: HeldTogether) {
  if (!file) return notFound(c, heldNoLonger)
  const typed = lookKept(file, readQuery(c))
  const look = await lookAt(c, file, typed, false)
  const bank = look.statement?.bankAccount ?? ''
  const isNamed = typed.value('account') !== '' && bank !== ''
  if (several && isNamed && accountOfBank(c.var.web.books, bank) === null)
    several.named.set(bank, typed.value('account'))
  return answerLook(c, { file, look, typed }, {})
}

export async function readInLook(c: PageContext, file: HeldFile | undefined) {
  if (!file) return notFound(c, heldNoLonger)
  const typed = await readForm(c)
  const look = await lookAt(c, file, typed, true)
  const formId = formIdField().safeParse(typed.value('formId'))
  const shown = { file, look, typed }
  if (!look.account) return answerLook(c, shown, { account: 'Choose the account this statement is of' })
  if (!look.statement || !formId.success) return answerLook(c, shown, look.errors)
  const unsaid = look.questions.filter(({ key }) => typed.value(`sure.${key}`) !== 'yes')
  if (unsaid.length > 0)
    return answerLook(
      c,
      shown,
      Object.fromEntries(
        unsaid.map(({ key }) => [
          `sure.${key}`,
          'Say yes to this, or choose another account or other columns',
        ]),
      ),
    )
  const part = partOf(file, look)
  const { today } = c.var.web
  const act = actOf(c, formId.data)
  const outcome = await readApart(c, part.file.statement.lines.length, (own) =>
    readingIn(own, act, part.accountId, part.file, today()),
  )
  if (!outcome.ok) return answerLook(c, shown, errorsOf(outcome.problems))
  const said = readInSaid(outcome.result)
  const notice = (text: string) => (outcome.result.isFirst ? undoable(c, text) : text)
  const together = togetherIn(typed)
  return moveOn(
    c,
    together === '' ? `/books/sorting?account=${look.account.id}` : severalAddress(together),
    notice(said),
  )
}

/** The files it was chosen together with, to go back to; empty for a file chosen alone. */
export const togetherIn = (typed: TypedForm): string =>
  /^[\da-f-]{36}$/.exec(typed.value('several'))?.[0] ?? ''

/** What was looked at, to be read in: an account and a statement of it must be known. */
export const partOf = (file: HeldFile, look: LookedAt): PartToRead => {
  const { opened } = file
  return {
    accountId: look.account!.id,
    file: {
      format: opened.format,
      fileName: file.fileName,
      contentHash: file.contentHash,
      statement: look.statement!,
      columns:
        opened.format === 'csv' && look.mapping
          ? { header: opened.sketch.header, mapping: look.mapping }
          : null,
    },
  }
}

export const readInSaid = ({ newLines, doubtfulLines, replacedLines }: ImportResult): string =>
  `${[
    `${counted(newLines, 'new transaction was', 'new transactions were')} read in`,
    ...(replacedLines > 0
      ? [`${counted(replacedLines, 'took the place of an earlier one', 'took the place of earlier ones')}`]
      : []),
    ...(doubtfulLines > 0
      ? [`and ${counted(doubtfulLines, 'doubtful one', 'doubtful ones')} to look at`]
      : []),
  ].join(', ')}.`

async function answerLook(
  c: PageContext,
  { file, look, typed }: { file: HeldFile; look: LookedAt; typed: TypedForm },
  errors: FormErrors,
) {
  const { books } = c.var.web
  const judged =
    look.statement && look.account
      ? await withTurns(previewing(books, look.account.id, look.statement.lines, c.var.web.today()), turns())
      : null
  const figures = figuresOf(file, look, judged)
  const props: LookProps = {
    figures,
    accountOptions: optionsBySide(moneyAccounts(listAccounts(books)), listSides(books)),
    mapping: look.mappingShown,
    errors: { ...look.errors, ...errors },
    formId: newFormId(),
    isSure: (key) => typed.value(`sure.${key}`) === 'yes',
    carried: {
      part: String(look.part),
      several: togetherIn(typed),
      account: look.account ? String(look.account.id) : '',
      ...(look.mapping ? mappingValues(look.mapping) : {}),
      ...(look.mappingShown ? { proposed: look.mappingShown.proposed } : {}),
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
    parts: look.parts,
    part: look.part,
    bankAccount: look.statement?.bankAccount ?? '',
    currency: look.statement?.currency ?? '',
    account: look.account ? { id: look.account.id, name: look.account.name } : null,
    closing: look.statement?.closing ?? null,
    counts: judged
      ? {
          new: count('new'),
          seen: count('seen'),
          doubtful: count('doubtful'),
          replaces: count('replaces'),
        }
      : look.statement
        ? { new: look.statement.lines.length, seen: 0, doubtful: 0, replaces: 0 }
        : null,
    lines: firstLines(look.statement, judged),
    remarks: look.statement?.remarks ?? [],
    broken: look.broken,
    questions: look.questions,
  }
}

const mostOfEach = 60

const firstLines = (statement: Statement | null, judged: readonly JudgedLine[] | null): LookLine[] => {
  if (!judged)
    return (statement?.lines ?? []).slice(0, 10).map((line) => ({ ...line, verdict: 'new', why: '' }))
  return (['doubtful', 'replaces', 'new', 'seen'] as const).flatMap((verdict) =>
    judged
      .filter((each) => each.verdict === verdict)
      .slice(0, verdict === 'seen' ? 10 : mostOfEach)
      .map(({ line, why }) => ({ ...line, verdict, why })),
  )
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`
