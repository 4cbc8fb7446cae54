// A form of an entry that is in the books already and says something else now, as when one goes back and sends it again: it books once.
import { dayName } from '#calendar/day.ts'
import { lastChangeOf } from '#db/change-log.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import { carriedOutBefore, wasCarriedOut } from '#db/once.ts'
import type { EntryDraft } from '#ledger/entry.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { VersionRow } from '#views/parts/two-versions.tsx'
import type { Answered, PageContext } from '#web/forms/answer.tsx'
import { newFormId, type TypedForm } from '#web/forms/form.ts'
import { showTwoVersions } from '#web/forms/two-versions.tsx'
import { typedPairs } from '#web/forms/typed-form.ts'

/** Both, with the way to book it as another one; null where the form was not booked, or was with the very same content. */
export function bookedBefore(c: PageContext, typed: TypedForm, draft: EntryDraft): Answered | null {
  const { books } = c.var.web
  if (!wasCarriedOut(books, draft.id) || carriedOutBefore(books, draft.id, 'entry.post', draft)) return null
  const entry = findEntry(books, draft.id)
  if (!entry) return null
  const last = lastChangeOf(books, entry.id)
  const fields = typedPairs(typed.nested).filter(([name]) => name !== 'formId')
  return showTwoVersions(c, {
    what: `entry ${entry.no}`,
    isSameForm: true,
    saved: last ? { at: last.at, by: last.actor } : null,
    rows: differences(c, entry, draft),
    mine: { action: '/books/entry', fields: [...fields, ['formId', newFormId()]] },
    theirs: `/books/entries/${entry.no}`,
  })
}

type Told = Pick<EntryDraft, 'day' | 'payee' | 'memo'> & {
  lines: readonly { accountId: number; amountCents: Cents }[]
}

const differences = (c: PageContext, first: Told, second: Told): VersionRow[] => {
  const names = new Map(
    listAccounts(c.var.web.books, { withArchived: true }).map(({ id, name }) => [id, name]),
  )
  const sums = (told: Told) => {
    const by = new Map<number, number>()
    for (const { accountId, amountCents } of told.lines)
      by.set(accountId, (by.get(accountId) ?? 0) + amountCents)
    return by
  }
  const [one, other] = [sums(first), sums(second)]
  const amount = (sum: number | undefined) => (sum === undefined ? 'nothing' : formatCents(cents(sum)))
  const rows = [
    { where: 'Day', first: dayName(first.day), second: dayName(second.day) },
    { where: 'Payee', first: first.payee || 'nothing', second: second.payee || 'nothing' },
    { where: 'Note', first: first.memo || 'nothing', second: second.memo || 'nothing' },
    ...[...new Set([...one.keys(), ...other.keys()])].map((id) => ({
      where: names.get(id) ?? 'An account that is gone',
      first: amount(one.get(id)),
      second: amount(other.get(id)),
    })),
  ]
  return rows.filter((row) => row.first !== row.second)
}
