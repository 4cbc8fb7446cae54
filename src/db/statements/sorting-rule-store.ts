// Sorting rules: those learned from choices and those written by hand, and the history a rule is tried on.
import { asc, eq, isNull, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { sortingRules } from '#db/schema-statements.ts'
import { type Outcome, refuse, savedMeanwhile } from '#ledger/problem.ts'
import type { HistoryLine } from '#ledger/statements/dry-run.ts'
import type { EarlierLine } from '#ledger/statements/habits.ts'
import { plainPayee } from '#ledger/statements/payee-text.ts'
import type { Learned, SortingRule, SortingTarget } from '#ledger/statements/sorting.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import type { Cents } from '#money/cents.ts'

export interface KeptRule extends SortingRule {
  /** Counts changes of where it catches and leads, so that two people do not overwrite each other. */
  revision: number
  timesUsed: number
  createdAt: string
}

/** Rules in use: by hand first, then by text. */
export const listRules = (books: Books): KeptRule[] =>
  books.db
    .select()
    .from(sortingRules)
    .where(isNull(sortingRules.archivedAt))
    .orderBy(asc(sortingRules.learned), asc(sortingRules.matchText), asc(sortingRules.id))
    .all()
    .map(ruleFrom)

export const findRule = (books: Books, id: string): KeptRule | undefined => {
  const row = books.db.select().from(sortingRules).where(eq(sortingRules.id, id)).get()
  return row && row.archivedAt === null ? ruleFrom(row) : undefined
}

export type RuleFields = Pick<
  SortingRule,
  'matchKind' | 'matchText' | 'onAccountId' | 'sign' | 'minimum' | 'maximum' | 'target' | 'priority'
>

/** A rule written by hand, or a change of one as it was seen: a learned rule that is changed counts as written by hand from then on. */
export const saveRule = (
  books: Books,
  act: Act,
  seen: Pick<KeptRule, 'id' | 'revision'> | null,
  fields: RuleFields,
): Outcome<{ ruleId: string }> =>
  once(books, act, 'rule.save', { seen, fields }, () => {
    const id = seen?.id ?? null
    const matchText = plainPayee(fields.matchText)
    if (matchText === '')
      return refuse({ path: 'matchText', message: 'Enter at least one word of the payee, without numbers' })
    if (fields.minimum !== null && fields.maximum !== null && fields.minimum > fields.maximum)
      return refuse({ path: 'maximum', message: 'The largest amount must not be below the smallest' })
    const before = id === null ? null : findRule(books, id)
    if (before === undefined)
      return refuse({ path: '', message: 'This rule was put away meanwhile. Open the list again' })
    if (before && before.revision !== seen?.revision) return savedMeanwhile()
    if (
      listRules(books).some(
        (one) => one.id !== id && !one.learned && catchesTheSame(one, { ...fields, matchText }),
      )
    )
      return refuse({
        path: 'matchText',
        message:
          'Another rule catches exactly these transactions. Change that one, or say more here: an account, a sign, amounts',
      })
    const values = { ...columnsOf({ ...fields, matchText }), learned: false }
    const ruleId = id ?? act.formId
    if (id === null)
      books.db
        .insert(sortingRules)
        .values({ id: ruleId, ...values, createdAt: act.at })
        .run()
    else {
      const revision = before!.revision + 1
      books.db
        .update(sortingRules)
        .set({ ...values, revision })
        .where(eq(sortingRules.id, id))
        .run()
    }
    logChange(books, act, { kind: 'rule.saved', subject: ruleId, summary: 'A sorting rule was saved' })
    return { ok: true, result: { ruleId } }
  })

/** Of two such rules written by hand, one would never be used, and nothing says which. */
const catchesTheSame = (a: RuleFields, b: RuleFields): boolean =>
  (['matchKind', 'matchText', 'onAccountId', 'sign', 'minimum', 'maximum'] as const).every(
    (field) => a[field] === b[field],
  )

/** Puts a rule away: it proposes nothing from now on; what it sorted stays sorted. */
export const archiveRule = (books: Books, act: Act, id: string): Outcome<{ ruleId: string }> =>
  once(books, act, 'rule.archive', { id }, () => {
    if (!findRule(books, id)) return { ok: true, result: { ruleId: id } }
    books.db.update(sortingRules).set({ archivedAt: act.at }).where(eq(sortingRules.id, id)).run()
    logChange(books, act, { kind: 'rule.archived', subject: id, summary: 'A sorting rule was put away' })
    return { ok: true, result: { ruleId: id } }
  })

/** Writes down a rule that a choice taught, or its changed target; call it inside a write. */
export const rememberChoice = (
  books: Books,
  at: string,
  newId: string,
  learned: Exclude<Learned, { kind: 'nothing' | 'used' }>,
): SortingRule | null => {
  if (learned.kind === 'changed') {
    books.db
      .update(sortingRules)
      .set({ ...targetColumns(learned.target), revision: sql`${sortingRules.revision} + 1` })
      .where(eq(sortingRules.id, learned.ruleId))
      .run()
    return null
  }
  const rule: SortingRule = { ...learned.rule, id: newId, lastUsedAt: at }
  books.db
    .insert(sortingRules)
    .values({ id: newId, ...columnsOf(rule), learned: true, lastUsedAt: at, createdAt: at })
    .run()
  return rule
}

/** Counts how often each rule was chosen by a form; call it once at the form's end. */
export const countRuleUses = (books: Books, at: string, uses: ReadonlyMap<string, number>): void => {
  const count = books.sqlite.prepare(
    'UPDATE sorting_rules SET times_used = times_used + ?, last_used_at = ? WHERE id = ?',
  )
  for (const [id, times] of uses) count.run(times, at, id)
}

export interface ShownHistoryLine extends HistoryLine {
  day: Day
  payee: string
}

/** The newest lines of all accounts with where each went, for dry runs. */
export const sortingHistory = (books: Books, limit = 5000): ShownHistoryLine[] =>
  (books.sqlite.prepare(historyQuery).all({ limit }) as HistoryRow[]).map((row) => ({
    id: row.id,
    accountId: row.accountId,
    amount: row.amount,
    day: row.day,
    payee: row.payee,
    text: textOfLine(row),
    went: wentTo(row),
  }))

/** Those of them that were sorted, for habits. */
export const earlierLines = (books: Books): EarlierLine[] =>
  sortingHistory(books).flatMap(({ went, ...line }) => (went === null ? [] : [{ ...line, went }]))

interface HistoryRow {
  id: number
  accountId: number
  amount: Cents
  day: Day
  payee: string
  memo: string
  state: 'unsorted' | 'doubtful' | 'posted' | 'matched' | 'ignored'
  others: number
  otherAccountId: number | null
  enterpriseId: string | null
  crossingKind: Extract<SortingTarget, { kind: 'crossing' }>['crossingKind'] | null
  farOthers: number
  farAccountId: number | null
  farIsMoney: number | null
}

/**
 * Beside the line's own posting, an entry sorted whole has one other line; when that is a crossing's, the far entry's other
 * line is where the value went.
 */
const historyQuery = `
  SELECT line.id, line.account_id AS accountId, line.amount_cents AS amount, line.day, line.payee, line.memo, line.state,
    (SELECT count(*) FROM postings AS o WHERE o.entry_no = own.entry_no AND o.id <> own.id) AS others,
    other.account_id AS otherAccountId, other.enterprise_id AS enterpriseId, crossings.kind AS crossingKind,
    (SELECT count(*) FROM postings AS o WHERE o.entry_no = half.entry_no AND o.id <> half.id) AS farOthers,
    far.account_id AS farAccountId, far_account.kind IN ('asset', 'liability') AS farIsMoney
  FROM statement_lines AS line
  LEFT JOIN postings AS own ON own.id = line.posting_id
  LEFT JOIN postings AS other ON other.entry_no = own.entry_no
    AND other.id = (SELECT min(id) FROM postings WHERE entry_no = own.entry_no AND id <> own.id)
  LEFT JOIN crossings ON crossings.id = other.crossing_id
  LEFT JOIN postings AS half ON half.crossing_id = other.crossing_id AND half.entry_no <> other.entry_no
  LEFT JOIN postings AS far ON far.entry_no = half.entry_no
    AND far.id = (SELECT min(id) FROM postings WHERE entry_no = half.entry_no AND id <> half.id)
  LEFT JOIN accounts AS far_account ON far_account.id = far.account_id
  ORDER BY line.day DESC, line.id DESC LIMIT @limit`

const wentTo = (row: HistoryRow): SortingTarget | 'other' | null => {
  if (row.state === 'unsorted' || row.state === 'doubtful') return null
  if (row.state === 'ignored' || row.others !== 1 || row.otherAccountId === null) return 'other'
  if (row.crossingKind === null)
    return { kind: 'account', accountId: row.otherAccountId, enterpriseId: row.enterpriseId }
  if (row.farOthers !== 1 || row.farAccountId === null) return 'other'
  return row.farIsMoney === 1
    ? { kind: 'crossing', crossingKind: row.crossingKind, otherAccountId: row.farAccountId }
    : { kind: 'account', accountId: row.farAccountId, enterpriseId: null }
}

const columnsOf = (rule: RuleFields) => ({
  matchKind: rule.matchKind,
  matchText: rule.matchText,
  onAccountId: rule.onAccountId,
  sign: rule.sign,
  minimumCents: rule.minimum,
  maximumCents: rule.maximum,
  priority: rule.priority,
  ...targetColumns(rule.target),
})

const targetColumns = (target: SortingTarget) =>
  target.kind === 'account'
    ? {
        targetAccountId: target.accountId,
        enterpriseId: target.enterpriseId,
        crossingKind: null,
        otherAccountId: null,
      }
    : {
        targetAccountId: null,
        enterpriseId: null,
        crossingKind: target.crossingKind,
        otherAccountId: target.otherAccountId,
      }

const ruleFrom = (row: typeof sortingRules.$inferSelect): KeptRule => ({
  id: row.id,
  matchKind: row.matchKind,
  matchText: row.matchText,
  onAccountId: row.onAccountId,
  sign: row.sign,
  minimum: row.minimumCents,
  maximum: row.maximumCents,
  target:
    row.targetAccountId !== null
      ? { kind: 'account', accountId: row.targetAccountId, enterpriseId: row.enterpriseId }
      : { kind: 'crossing', crossingKind: row.crossingKind!, otherAccountId: row.otherAccountId! },
  priority: row.priority,
  learned: row.learned,
  lastUsedAt: row.lastUsedAt,
  timesUsed: row.timesUsed,
  createdAt: row.createdAt,
  revision: row.revision,
})
