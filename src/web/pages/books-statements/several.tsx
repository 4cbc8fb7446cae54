// Files chosen together: what each brings, read in by one press where nothing is in doubt, the others by their own page.
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { accountOfBank } from '#db/statements/bank-keys.ts'
import { gapIn } from '#db/statements/import-questions.ts'
import { readingTogether } from '#db/statements/read-together.ts'
import { previewing } from '#db/statements/statement-store.ts'
import { withTurns } from '#kept/in-turns.ts'
import { numberShown } from '#ledger/statements/bank-number.ts'
import type { JudgedLine } from '#ledger/statements/seeing-twice.ts'
import { SeveralPage, type SeveralRow } from '#views/books-statements/several.tsx'
import { moneyAccounts, optionsBySide } from '#web/forms/account-options.ts'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { formIdField } from '#web/forms/fields.ts'
import { type FormErrors, newFormId, readForm, readQuery, statusOf, type TypedForm } from '#web/forms/form.ts'
import { turns } from '#web/server/let-others.ts'
import { undoable } from '#web/server/undo.ts'
import type { HeldFile } from './held-files.ts'
import { type HeldTogether, severalAddress } from './held-together.ts'
import { keptLook } from './kept-look.ts'
import { type LookedAt, lookAt } from './look-at.ts'
import { readApart } from './read-apart.ts'
import { partOf } from './statement-look.tsx'

const heldNoLonger =
  'These files are not held any more: an hour has passed, or others were chosen since. Choose them again under Bank statements.'

export async function showSeveral(
  c: PageContext,
  several: HeldTogether | undefined,
  errors: FormErrors = {},
) {
  if (!several) return notFound(c, heldNoLonger)
  const { books } = c.var.web
  const named = keptNamed(several, c.req.method === 'GET' ? readQuery(c) : await readForm(c))
  const looks = await looksAt(c, several, named)
  const rows = looks.map(({ row }) => row)
  return answer(c, {
    title: 'Look at the files',
    status: statusOf(errors),
    figures: { files: rows, refused: several.refused },
    page: () => (
      <SeveralPage
        rows={rows}
        toRead={toRead(looks)}
        refused={several.refused}
        address={severalAddress(several.key)}
        named={named}
        accounts={optionsBySide(moneyAccounts(listAccounts(books)), listSides(books))}
        errors={errors}
        formId={newFormId()}
      />
    ),
    tables: {
      files: () =>
        tableOf(rows, {
          file: (row) => row.fileName,
          account: (row) => row.account ?? '',
          state: (row) => row.state,
          new: (row) => row.counts?.new ?? '',
          seen: (row) => row.counts?.seen ?? '',
          doubtful: (row) => row.counts?.doubtful ?? '',
          'left out': (row) => row.leftOut.length,
        }),
    },
  })
}

/** All that is clear, or nothing of it. */
export async function readSeveral(c: PageContext, several: HeldTogether | undefined) {
  if (!several) return notFound(c, heldNoLonger)
  const typed = await readForm(c)
  const formId = formIdField().safeParse(typed.value('formId'))
  if (!formId.success) return showSeveral(c, several, { '': formId.error.issues[0]!.message })
  const looks = await looksAt(c, several, keptNamed(several, typed))
  const clear = looks.filter(({ row }) => row.state === 'clear')
  if (clear.length === 0) return moveOn(c, severalAddress(several.key), 'Nothing clear is left to read in.')
  const { today } = c.var.web
  const parts = clear.map(({ file, look }) => partOf(file, look))
  const act = actOf(c, formId.data)
  const count = parts.reduce((sum, { file }) => sum + file.statement.lines.length, 0)
  const done = await readApart(c, count, (own) => readingTogether(own, act, parts, today()))
  if (!done.ok) return showSeveral(c, several, { '': Object.values(errorsOf(done.problems))[0]! })
  const { lines } = done.result
  const said = `${lines} ${lines === 1 ? 'transaction was' : 'transactions were'} read in from ${clear.length} ${clear.length === 1 ? 'statement' : 'statements'}.`
  const isOpen = looks.some(({ row }) => row.state === 'asks') || several.refused.length > 0
  const next = isOpen ? severalAddress(several.key) : '/month'
  return moveOn(c, next, undoable(c, said, '/books/statements'))
}

interface Looked {
  file: HeldFile
  look: LookedAt
  row: SeveralRow
  /** What of it is new by itself, by account and the key that a line is kept under. */
  fresh: readonly string[]
}

/** One after the other they are read in: what two files of an account share is new in the first of them. */
const toRead = (looks: readonly Looked[]): number =>
  new Set(looks.filter(({ row }) => row.state === 'clear').flatMap(({ fresh }) => fresh)).size

const mostNamed = 24

/**
 * Which account each number is that no file named before, as it was chosen in the list: `bank.0` is `account.0`. It is kept with the
 * files, so that what was chosen for the others is there when one of them was looked at by itself.
 */
const keptNamed = ({ named }: HeldTogether, typed: TypedForm): ReadonlyMap<string, string> => {
  for (let at = 0; at < mostNamed; at += 1) {
    const bank = typed.value(`bank.${at}`)
    if (bank !== '') named.set(bank, typed.value(`account.${at}`))
  }
  return named
}

/** Each account of each file, as it would be looked at by itself. */
async function looksAt(
  c: PageContext,
  { key, files }: HeldTogether,
  named: ReadonlyMap<string, string>,
): Promise<Looked[]> {
  const looks: Looked[] = []
  for (const file of files) {
    let parts = 1
    for (let part = 0; part < parts; part += 1) {
      const lookAs = (account: string) => lookAt(c, file, keptLook(file, part, account), false)
      const known = await lookAs('')
      const bank = known.statement?.bankAccount ?? ''
      const chosen =
        bank === '' ? file.looked.accounts.get(part) : known.account ? undefined : named.get(bank)
      const look = chosen ? await lookAs(chosen) : known
      parts = look.parts
      looks.push({ file, look, ...(await rowOf(c, file, look, key)) })
    }
  }
  return asOneAccount(c.var.web.books, await inDayOrder(c, looks, key))
}

/** Where a file of the same list fills the gap before another, or opens it, the list says so whatever its order. */
const inDayOrder = (c: PageContext, looks: readonly Looked[], key: string): Promise<Looked[]> =>
  Promise.all(
    looks.map(async (one) => {
      const { account, statement, questions } = one.look
      const others = looks.flatMap(({ look }) =>
        look !== one.look && look.account?.id === account?.id && look.statement ? [look.statement] : [],
      )
      if (!account || !statement || others.length === 0) return one
      const says = gapIn(c.var.web.books, account, statement, others)
      const rest = questions.filter((question) => question.key !== 'gap')
      const asked = says === null ? rest : [...rest, { key: 'gap' as const, says }]
      const look = { ...one.look, questions: asked }
      return { ...one, look, ...(await rowOf(c, one.file, look, key)) }
    }),
  )

/** Two numbers of the bank that are one account here may be a slip of the hand: each is looked at by itself, where a yes is asked. */
const asOneAccount = (books: Books, looks: readonly Looked[]): Looked[] => {
  const bankOf = ({ look }: Looked) => look.statement?.bankAccount ?? ''
  const isNew = (one: Looked) =>
    one.look.account !== null && bankOf(one) !== '' && accountOfBank(books, bankOf(one)) === null
  return looks.map((one) => {
    const other = looks.find(
      (each) =>
        each.look.account?.id === one.look.account?.id && bankOf(each) !== '' && bankOf(each) !== bankOf(one),
    )
    if (!isNew(one) || !other || one.row.state === 'seen') return one
    const says = `You chose ${one.row.account} for ${numberShown(bankOf(one))} and for ${numberShown(bankOf(other))}. Choose another account above, or look at it by itself`
    return { ...one, row: { ...one.row, state: 'asks', asks: says } }
  })
}

const rowOf = async (
  c: PageContext,
  file: HeldFile,
  look: LookedAt,
  several: string,
): Promise<Pick<Looked, 'row' | 'fresh'>> => {
  const { account, statement, part } = look
  const judged =
    account && statement
      ? await withTurns(previewing(c.var.web.books, account.id, statement.lines, c.var.web.today()), turns())
      : null
  const count = (verdict: JudgedLine['verdict']) =>
    judged?.filter((each) => each.verdict === verdict).length ?? 0
  // An account that the address names counts as chosen.
  const isByColumns = look.questions.some(({ key }) => key === 'sameColumns')
  const isNew = count('new') + count('doubtful') + count('replaces') > 0
  const row: SeveralRow = {
    fileName: file.fileName,
    bankAccount: statement?.bankAccount ?? '',
    account: account?.name ?? null,
    counts: judged
      ? { new: count('new') + count('replaces'), seen: count('seen'), doubtful: count('doubtful') }
      : null,
    leftOut: statement?.remarks ?? [],
    closing: statement?.closing ?? null,
    state: !judged || (isNew && look.questions.length > 0) ? 'asks' : isNew ? 'clear' : 'seen',
    asks: !account
      ? 'Choose its account'
      : !statement
        ? (look.broken ?? 'Say what its columns mean')
        : (look.questions[0]?.says ?? ''),
    href: `/books/statements/read/${file.key}?part=${part}&several=${several}${account && !isByColumns ? `&account=${account.id}` : ''}`,
  }
  const fresh = judged?.filter(({ verdict }) => verdict !== 'seen') ?? []
  return { row, fresh: fresh.map(({ lineKey }) => `${account!.id} ${lineKey}`) }
}
