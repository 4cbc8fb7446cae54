// Sorting rules: those learned from choices and those written by hand.
import { asc, eq, isNull, sql } from 'drizzle-orm'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { sortingRules } from '#db/schema-statements.ts'
import { type Outcome, refuse, savedMeanwhile } from '#ledger/problem.ts'
import { namesNoOne, plainPayee } from '#ledger/statements/payee-text.ts'
import {
  type Learned,
  type SortableLine,
  type SortingRule,
  type SortingTarget,
  sameTarget,
} from '#ledger/statements/sorting.ts'
import type { SplitShare } from '#ledger/statements/split-shares.ts'
import type { Cents } from '#money/cents.ts'
import type { TaughtRule } from './sorted.ts'

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
      return refuse({ path: '', message: 'This rule was archived meanwhile. Open the list again' })
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
      // A split is kept with its place: another place is another thing to do.
      const split = sameTarget(before!.target, fields.target) ? (before!.split ?? null) : null
      books.db
        .update(sortingRules)
        .set({ ...values, split, revision })
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
    logChange(books, act, { kind: 'rule.archived', subject: id, summary: 'A sorting rule was archived' })
    return { ok: true, result: { ruleId: id } }
  })

/** Whether a rule is still as a choice taught it: one written by hand or changed since is a person's own. */
export const standsAsTaught = (rule: KeptRule, { kept }: TaughtRule): boolean =>
  kept ? rule.revision === kept.revision : rule.learned

/** Takes back what a choice taught: the rule is put away, or its payee goes where it went before. A rule changed since stays. */
export const forgetRule = (books: Books, act: Act, taught: TaughtRule): Outcome<{ ruleId: string }> =>
  once(books, act, 'rule.forget', taught, () => {
    const { ruleId, before, kept } = taught
    const rule = findRule(books, ruleId)
    if (rule && standsAsTaught(rule, taught)) {
      const splitBefore = kept
        ? { split: kept.splitBefore && [...kept.splitBefore], revision: rule.revision + 1 }
        : {}
      books.db
        .update(sortingRules)
        .set(before === null ? { archivedAt: act.at } : { ...targetColumns(before), ...splitBefore })
        .where(eq(sortingRules.id, ruleId))
        .run()
      logChange(books, act, {
        kind: 'rule.forgotten',
        subject: ruleId,
        summary: 'A learned rule was forgotten',
      })
    }
    return { ok: true, result: { ruleId } }
  })

/** Keeps how a bill is split, for the next ones of its payee, or those of one amount: in place of a split kept for the same before. Call it inside a write. */
export const keepSplit = (
  books: Books,
  at: string,
  newId: string,
  line: SortableLine,
  shares: readonly SplitShare[],
  onlyOf: Cents | null,
): TaughtRule | null => {
  const matchText = plainPayee(line.text)
  if (namesNoOne(matchText)) return null
  const fields: RuleFields = {
    matchKind: 'equals',
    matchText,
    onAccountId: line.accountId,
    sign: line.amount < 0 ? 'out' : 'in',
    minimum: onlyOf,
    maximum: onlyOf,
    target: { kind: 'account', accountId: shares[0]!.accountId, enterpriseId: shares[0]!.enterpriseId },
    priority: 0,
  }
  const before = listRules(books).find((rule) => !rule.learned && catchesTheSame(rule, fields))
  const split = [...shares]
  if (before)
    books.db
      .update(sortingRules)
      .set({ ...targetColumns(fields.target), split, revision: before.revision + 1 })
      .where(eq(sortingRules.id, before.id))
      .run()
  else
    books.db
      .insert(sortingRules)
      .values({ id: newId, ...columnsOf(fields), split, learned: false, createdAt: at })
      .run()
  return {
    ruleId: before?.id ?? newId,
    before: before?.target ?? null,
    kept: { revision: before ? before.revision + 1 : 1, splitBefore: before?.split ?? null },
  }
}

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
  split: row.split,
  priority: row.priority,
  learned: row.learned,
  lastUsedAt: row.lastUsedAt,
  timesUsed: row.timesUsed,
  createdAt: row.createdAt,
  revision: row.revision,
})
