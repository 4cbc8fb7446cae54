// Money out to a loan that has terms: shown once more with its interest and principal as lines, before it is booked.
import type { Books } from '#db/open.ts'
import type { EntryDraft } from '#ledger/entry.ts'
import { partsByAccount } from '#ledger/loan-payment.ts'
import { centsToDecimalText } from '#money/format.ts'
import { loanBook, proposedParts } from '#today/loan-terms.ts'
import { openingForm, type TypedForm } from '#web/forms/form.ts'

/** Said with the form, and sent back with it: what then stands in the lines is what a person means. */
export const loanShown = 'loanShown'

/** The form with the lines that the loan's terms make; null when no line is a whole payment to such a loan, or it was shown before. */
export const withLoanParts = (books: Books, typed: TypedForm, draft: EntryDraft): TypedForm | null => {
  if (typed.value('kind') !== 'out' || typed.value(loanShown) === 'yes') return null
  const terms = loanBook(books)
  const paid = draft.lines.filter((line) => line.amountCents > 0)
  const payments = paid.flatMap((line, id) => {
    const own = terms.get(line.accountId)
    return own && !paid.some((other) => other.accountId === own.interestAccountId)
      ? [{ id, loanAccountId: line.accountId, day: draft.day, size: line.amountCents }]
      : []
  })
  const parts = proposedParts(books, terms, payments)
  if (![...parts.values()].some((one) => one.interestCents > 0)) return null
  const lines = paid.flatMap((line, id) => {
    const own = parts.get(id)
    const made = own ? partsByAccount(terms.get(line.accountId)!, own) : []
    return own ? made.map(({ accountId, size }) => ({ ...line, accountId, amountCents: size })) : [line]
  })
  const head = ['formId', 'side', 'kind', 'day', 'payee', 'memo', 'moneyAccount', 'another'].map((name) => [
    name,
    typed.value(name),
  ])
  const rows = lines.flatMap((line, index) => [
    [`lines.${index}.account`, String(line.accountId)],
    [`lines.${index}.amount`, centsToDecimalText(line.amountCents)],
    [`lines.${index}.memo`, line.memo ?? ''],
    [`lines.${index}.enterprise`, line.enterpriseId ?? ''],
  ])
  return openingForm({ ...Object.fromEntries([...head, ...rows]), [loanShown]: 'yes' })
}

export const loanSays =
  'By the loan’s own terms a part of this is interest. The lines below say so: change them if the lender says otherwise, then record it'
