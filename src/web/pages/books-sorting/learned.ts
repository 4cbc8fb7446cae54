// Rules that a booking taught, shown as they are learned, and forgotten by one press: put away, or back to where the payee went before.
import { findChange, lastChangeOf } from '#db/change-log.ts'
import type { Books } from '#db/open.ts'
import type { Sorted, TaughtRule } from '#db/statements/sorted.ts'
import { findRule, forgetRule, standsAsTaught } from '#db/statements/sorting-rule-store.ts'
import type { SortingTarget } from '#ledger/statements/sorting.ts'
import type { SplitShare } from '#ledger/statements/split-shares.ts'
import type { LearnedRule } from '#views/books-sorting/learned.tsx'
import { actOfForm } from '#web/forms/act.ts'
import { moveOn, type PageContext } from '#web/forms/answer.tsx'
import { newFormId, readForm } from '#web/forms/form.ts'
import { wholeOrNull } from './desk-choices.ts'
import { sharesName, type TargetGround, targetName } from './sorting-targets.ts'

/** Of the booking by the form of this id: those that still stand as they were taught. */
export const learnedBy = (books: Books, formId: string | undefined, ground: TargetGround): LearnedRule[] => {
  const change = formId === undefined ? undefined : lastChangeOf(books, formId)
  if (change?.kind !== 'lines.sorted') return []
  return taughtIn(change.details).flatMap((taught) => {
    const { ruleId, before, kept } = taught
    const rule = findRule(books, ruleId)
    if (!rule || !standsAsTaught(rule, taught)) return []
    const side = ground.accounts.find(({ id }) => id === rule.onAccountId)?.sideId
    const goesTo = (target: SortingTarget, split: readonly SplitShare[] | null | undefined) =>
      split ? sharesName(split, ground, side) : targetName(target, ground, side)
    return {
      ruleId,
      payee: rule.matchText,
      to: goesTo(rule.target, rule.split),
      before: before === null ? '' : goesTo(before, kept?.splitBefore),
      formId: newFormId(),
      change: change.id,
    }
  })
}

/** The desk's address after a booking, with what it taught. */
export const withLearned = (address: string, { rulesLearned }: Sorted, formId: string): string =>
  rulesLearned === 0 ? address : `${address}${address.includes('?') ? '&' : '?'}learned=${formId}`

export async function forgetLearned(c: PageContext) {
  const { books } = c.var.web
  const typed = await readForm(c)
  const change = findChange(books, wholeOrNull(typed.value('change')) ?? 0)
  const taught = taughtIn(change?.details).find(({ ruleId }) => ruleId === typed.value('rule'))
  if (!change || !taught) return moveOn(c, '/books/sorting', 'That rule is gone. Look at the sorting rules.')
  forgetRule(books, actOfForm(c, typed), taught)
  return moveOn(
    c,
    `/books/sorting?learned=${change.subject}`,
    taught.before === null
      ? 'Forgotten: nothing is proposed by it any more. What is booked stays.'
      : 'Forgotten: the payee is proposed as before. What is booked stays.',
  )
}

const taughtIn = (details: unknown): readonly TaughtRule[] =>
  (details as { taught?: readonly TaughtRule[] } | undefined)?.taught ?? []
