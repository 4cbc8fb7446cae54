// Changes of an account: renamed, described anew, put away and taken up again.
import { eq } from 'drizzle-orm'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { accountFaults } from '#ledger/account-fields.ts'
import { type Outcome, refuse, savedMeanwhile } from '#ledger/problem.ts'
import { sideKindOf } from '#ledger/schedule-lines.ts'
import { type AccountFields, accountProblems, findAccount, type KeptAccount } from './account-store.ts'
import { hangingProblem, letGo } from './what-hangs.ts'

export interface AccountChange extends Partial<AccountFields> {
  archived?: boolean
  /** Said after what hangs on the account was shown: it is put away all the same. */
  anyway?: boolean
}

/** Changes the account as it was seen. Side, kind and crossing role stay. `archived` puts it away or takes it up. */
export const changeAccount = (
  books: Books,
  act: Act,
  { id, revision }: Pick<KeptAccount, 'id' | 'revision'>,
  change: AccountChange,
): Outcome<{ accountId: number }> =>
  once(books, act, 'account.change', { id, revision, ...change }, () => {
    const before = findAccount(books, id)
    if (!before) return refuse({ path: '', message: 'There is no such account. Open the list again' })
    if (before.revision !== revision) return savedMeanwhile()
    const { archived, anyway = false, ...fields } = change
    const problems = accountProblems(books, { ...before, ...fields }, id)
    // Only what is changed is judged: older books may hold what a form would refuse now.
    const faults = accountFaults(sideKindOf(before), { ...before, ...fields })
    problems.push(...faults.filter(({ path }) => Object.hasOwn(fields, path)))
    const isPutAway = archived === true && before.archivedAt === null
    if (isPutAway && before.systemRole !== null)
      problems.push({ path: 'archived', message: 'These books need this account. Rename it if you like' })
    else if (isPutAway && !anyway) problems.push(...hangingProblem(books, [before]))
    if (problems.length > 0) return refuse(...problems)
    if (isPutAway) letGo(books, act.at, [before])
    const archivedAt =
      archived === undefined ? before.archivedAt : archived ? (before.archivedAt ?? act.at) : null
    books.db
      .update(accounts)
      .set({ ...fields, archivedAt, revision: revision + 1 })
      .where(eq(accounts.id, id))
      .run()
    logChange(books, act, {
      kind: 'account.changed',
      subject: `account ${id}`,
      sideId: before.sideId,
      summary: 'An account was changed',
      details: { before, change },
    })
    return { ok: true, result: { accountId: id } }
  })
