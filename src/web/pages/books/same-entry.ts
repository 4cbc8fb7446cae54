// An entry like one that the books have: a form asks once, and books it when it is another one.
import { likeEntry } from '#db/ledger/like-entry.ts'
import { wasCarriedOut } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { EntryDraft } from '#ledger/entry.ts'
import { sameEntryKey, sameEntryQuestion, sureAnother } from '#views/parts/same-entry.tsx'
import type { FormErrors, TypedForm } from '#web/forms/form.ts'

type Like = Pick<EntryDraft, 'id' | 'sideId' | 'day' | 'payee' | 'lines'>

/**
 * The question at the day. Money out or in is the same by the account that the money is in, anything else by all its lines; without
 * a payee only money moved is held against others.
 */
export function repeats(books: Books, typed: TypedForm, draft: Like): FormErrors {
  const isMoved = typed.value('kind') === 'moved'
  if (draft.payee.trim() === '' && !isMoved) return {}
  const money = draft.lines.filter(({ accountId }) => String(accountId) === typed.value('moneyAccount'))
  const no = likeEntry(books, draft, money.length > 0 ? money : draft.lines)
  if (no === null || wasCarriedOut(books, draft.id)) return {}
  return typed.values(sureAnother).includes(sameEntryKey(typed))
    ? {}
    : { day: sameEntryQuestion(no, draft.day, draft.payee.trim()) }
}
