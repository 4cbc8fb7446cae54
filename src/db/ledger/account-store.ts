// Sides and their accounts: set up with the start accounts, listed, added, renamed, put away.
import { and, eq, isNull, max, sql } from 'drizzle-orm'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { prepared } from '#db/prepared.ts'
import { accounts, sides } from '#db/schema.ts'
import { readOnce } from '#db/written-since.ts'
import type { Account, CrossingRole, SideId, SideKind, SystemRole } from '#ledger/account.ts'
import { accountFaults } from '#ledger/account-fields.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { sideKindOf } from '#ledger/schedule-lines.ts'
import { startAccounts } from '#ledger/start-accounts.ts'

export type Side = typeof sides.$inferSelect

export const listSides = (books: Books, options: { withArchived?: boolean } = {}): Side[] =>
  prepared(books, `sides ${options.withArchived === true}`, (db) =>
    db
      .select()
      .from(sides)
      .where(options.withArchived ? undefined : isNull(sides.archivedAt))
      .orderBy(sides.position, sides.id)
      .prepare(),
  ).all()

/** Until there is a household with books, every page leads to the start. */
export const hasHousehold = (books: Books): boolean =>
  listSides(books).some((side) => side.kind === 'household')

/** An account with the number of its save, so that two people do not overwrite each other. */
export type KeptAccount = Account & { revision: number }
type AccountsAsked = { sideId?: SideId; withArchived?: boolean }

/** Accounts in the order of their numbers, of one side or of all; a page asks some thirty times. What it returns is shared. */
export const listAccounts = (books: Books, asked: AccountsAsked = {}): readonly KeptAccount[] =>
  readOnce(books, `accounts ${asked.sideId} ${asked.withArchived === true}`, () => readAccounts(books, asked))

const readAccounts = (books: Books, options: AccountsAsked): readonly KeptAccount[] =>
  prepared(books, `accounts ${options.sideId !== undefined} ${options.withArchived === true}`, (db) =>
    db
      .select(accountFields)
      .from(accounts)
      .where(
        and(
          options.sideId === undefined ? undefined : eq(accounts.sideId, sql.placeholder('sideId')),
          options.withArchived ? undefined : isNull(accounts.archivedAt),
        ),
      )
      .orderBy(accounts.sideId, accounts.number)
      .prepare(),
  ).all({ sideId: options.sideId })

export const findAccount = (books: Books, id: number): KeptAccount | undefined =>
  books.db.select(accountFields).from(accounts).where(eq(accounts.id, id)).get()

/** The account the code itself looks for on a side. Throws when the side was set up without it. */
export const systemAccount = (books: Books, sideId: SideId, role: SystemRole): Account => {
  const account = books.db
    .select(accountFields)
    .from(accounts)
    .where(and(eq(accounts.sideId, sideId), eq(accounts.systemRole, role)))
    .get()
  if (!account) throw new Error(`Side ${sideId} has no account for ${role}`)
  return account
}

/** A side with its start accounts. `farm` and `household` are made once each; a venture's id comes from its name. */
export const addSide = (
  books: Books,
  act: Act,
  side: { kind: SideKind; name: string },
): Outcome<{ sideId: SideId }> =>
  once(books, act, 'side.add', side, () => {
    const name = side.name.trim()
    if (name === '') return refuse({ path: 'name', message: 'Give these books a name' })
    const id = side.kind === 'venture' ? ventureId(books, name) : side.kind
    if (books.db.select().from(sides).where(eq(sides.id, id)).get())
      return refuse({
        path: 'kind',
        message: `There are ${side.kind} books already. Add a side venture instead`,
      })
    const taken = sideNameProblem(books, name, id)
    if (taken) return refuse(taken)
    const position = side.kind === 'farm' ? 0 : side.kind === 'household' ? 1 : 2
    books.db.insert(sides).values({ id, kind: side.kind, name, position, createdAt: act.at }).run()
    books.db
      .insert(accounts)
      .values(startAccounts(side.kind).map((account) => ({ sideId: id, createdAt: act.at, ...account })))
      .run()
    logChange(books, act, { kind: 'side.added', subject: id, sideId: id, summary: 'Books were set up' })
    return { ok: true, result: { sideId: id } }
  })

/** Two sets of books of one name could not be told apart in any list. */
export const sideNameProblem = (books: Books, name: string, id: SideId): FieldProblem | null =>
  listSides(books, { withArchived: true }).some(
    (side) => side.id !== id && side.name.toLowerCase() === name.trim().toLowerCase(),
  )
    ? { path: 'name', message: `There are books called “${name.trim()}” already. Give these another name` }
    : null

export type AccountFields = Pick<
  Account,
  | 'name'
  | 'number'
  | 'cashRole'
  | 'scheduleLine'
  | 'purpose'
  | 'taxKind'
  | 'savingsKind'
  | 'personId'
  | 'propertyLoan'
  | 'currentKind'
  | 'contraKind'
  | 'enterpriseId'
  | 'bankKey'
  | 'note'
>
export type NewAccount = Pick<Account, 'sideId' | 'name' | 'kind'> & Partial<AccountFields>

/** Adds an account; without a number it gets the next free one of its kind. */
export const addAccount = (books: Books, act: Act, draft: NewAccount): Outcome<{ accountId: number }> =>
  once(books, act, 'account.add', draft, () => {
    const number = draft.number ?? nextNumber(books, draft.sideId, firstNumberOf[draft.kind])
    const problems = [
      ...accountProblems(books, { ...draft, number }, null),
      ...accountFaults(sideKindOf(draft), { ...blankFields, ...draft }),
    ]
    if (problems.length > 0) return refuse(...problems)
    const row = books.db
      .insert(accounts)
      .values({ ...draft, name: draft.name.trim(), number, createdAt: act.at })
      .returning({ id: accounts.id })
      .get()
    logChange(books, act, {
      kind: 'account.added',
      subject: `account ${row.id}`,
      sideId: draft.sideId,
      summary: 'An account was added',
    })
    return { ok: true, result: { accountId: row.id } }
  })

const blankFields = {
  cashRole: 'none',
  scheduleLine: null,
  purpose: null,
  taxKind: null,
  savingsKind: null,
  propertyLoan: null,
  currentKind: null,
  contraKind: null,
  crossingRole: null,
} as const

/** The account on `sideId` that stands for `otherId` in a role, made when it is missing. Call it inside a write. */
export const crossingAccountId = (
  books: Books,
  at: string,
  sideId: SideId,
  otherId: SideId,
  role: CrossingRole,
): number => {
  const found = books.db
    .select({ id: accounts.id })
    .from(accounts)
    .where(
      and(eq(accounts.sideId, sideId), eq(accounts.crossingSideId, otherId), eq(accounts.crossingRole, role)),
    )
    .get()
  if (found) return found.id
  const other = books.db.select().from(sides).where(eq(sides.id, otherId)).get()
  if (!other) throw new Error(`No side ${otherId}`)
  const { kind, first } = crossingAccountKinds[role]
  return books.db
    .insert(accounts)
    .values({
      sideId,
      number: nextNumber(books, sideId, first),
      name: crossingAccountName(role, sideId, other),
      kind,
      crossingRole: role,
      crossingSideId: otherId,
      createdAt: at,
    })
    .returning({ id: accounts.id })
    .get().id
}

const crossingAccountKinds: Record<CrossingRole, { kind: Account['kind']; first: number }> = {
  draws: { kind: 'equity', first: 3100 },
  contributions: { kind: 'equity', first: 3200 },
  reimbursements: { kind: 'equity', first: 3300 },
  goods: { kind: 'equity', first: 3400 },
  lent: { kind: 'asset', first: 1800 },
  borrowed: { kind: 'liability', first: 2800 },
}

const crossingAccountName = (role: CrossingRole, sideId: SideId, other: Side): string => {
  const atHome = sideId === 'household'
  switch (role) {
    case 'draws':
      return atHome ? `Drawn from ${other.name}` : `Owner's draws to ${other.name}`
    case 'contributions':
      return atHome ? `Put into ${other.name}` : `Owner's contributions from ${other.name}`
    case 'reimbursements':
      return atHome ? `Reimbursed by ${other.name}` : `Reimbursed to ${other.name}`
    case 'goods':
      return atHome ? `Goods from ${other.name}` : `Goods used at home by ${other.name}`
    case 'lent':
      return `Lent to ${other.name}`
    case 'borrowed':
      return `Borrowed from ${other.name}`
  }
}

const firstNumberOf: Record<Account['kind'], number> = {
  asset: 1000,
  liability: 2000,
  equity: 3000,
  income: 4000,
  expense: 5000,
}

const nextNumber = (books: Books, sideId: SideId, first: number): number => {
  const span = first % 1000 === 0 ? 1000 : 100
  const last = books.db
    .select({ number: max(accounts.number) })
    .from(accounts)
    .where(
      and(eq(accounts.sideId, sideId), sql`${accounts.number} BETWEEN ${first} AND ${first + span - 11}`),
    )
    .get()?.number
  return last === null || last === undefined ? first : last + 1
}

/** What is wrong with name, number or side, whoever asks. */
export const accountProblems = (
  books: Books,
  draft: Pick<Account, 'sideId' | 'name' | 'number'>,
  id: number | null,
): FieldProblem[] => {
  const problems: FieldProblem[] = []
  const others = listAccounts(books, { sideId: draft.sideId, withArchived: true }).filter(
    (account) => account.id !== id,
  )
  const name = draft.name.trim()
  if (name === '') problems.push({ path: 'name', message: 'Give the account a name' })
  if (others.some((account) => account.name.toLowerCase() === name.toLowerCase()))
    problems.push({ path: 'name', message: 'There is an account of this name. Choose another one' })
  if (others.some((account) => account.number === draft.number))
    problems.push({ path: 'number', message: 'This number is taken. Choose another one' })
  if (!books.db.select().from(sides).where(eq(sides.id, draft.sideId)).get())
    problems.push({ path: 'side', message: 'Choose whose books the account belongs to' })
  return problems
}

const ventureId = (books: Books, name: string): SideId => {
  const stem = `venture-${
    name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'side'
  }`
  const taken = new Set(listSides(books, { withArchived: true }).map((side) => side.id))
  if (!taken.has(stem)) return stem
  for (let count = 2; ; count += 1) if (!taken.has(`${stem}-${count}`)) return `${stem}-${count}`
}

const accountFields = {
  id: accounts.id,
  sideId: accounts.sideId,
  number: accounts.number,
  name: accounts.name,
  kind: accounts.kind,
  cashRole: accounts.cashRole,
  scheduleLine: accounts.scheduleLine,
  purpose: accounts.purpose,
  taxKind: accounts.taxKind,
  savingsKind: accounts.savingsKind,
  personId: accounts.personId,
  propertyLoan: accounts.propertyLoan,
  currentKind: accounts.currentKind,
  contraKind: accounts.contraKind,
  enterpriseId: accounts.enterpriseId,
  crossingRole: accounts.crossingRole,
  crossingSideId: accounts.crossingSideId,
  systemRole: accounts.systemRole,
  bankKey: accounts.bankKey,
  note: accounts.note,
  archivedAt: accounts.archivedAt,
  revision: accounts.revision,
}
