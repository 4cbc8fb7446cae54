// What was paid to each payee, from the entries; and what people said of payees.
import { eq } from 'drizzle-orm'
import { type Day, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { payees } from '#db/schema-year.ts'
import { readOnce } from '#db/written-since.ts'
import { type Account, householdSide } from '#ledger/account.ts'
import type { Outcome } from '#ledger/problem.ts'
import type { PayeeKind } from '#ledger/tax/payee-kind.ts'
import type { PaidOn, PayeeSaid } from '#ledger/tax/payee-totals.ts'
import type { Cents } from '#money/cents.ts'

interface PaidRow extends Pick<Account, 'sideId' | 'kind' | 'scheduleLine' | 'taxKind'> {
  payee: string
  day: Day
  isByCard: 0 | 1
  amountCents: Cents
}

/** By payee, day and account of the businesses, in a year. What was taken back is none. */
export const paidInYear = (books: Books, year: number): readonly PaidOn[] =>
  readOnce(books, `paid in ${year}`, () => paidTo(books, year, namedText))

/** The same of entries that name nobody. */
export const paidToNobody = (books: Books, year: number): readonly PaidOn[] =>
  readOnce(books, `paid to nobody in ${year}`, () => paidTo(books, year, namelessText))

const paidTo = (books: Books, year: number, text: string): PaidOn[] => {
  const days: { household: string; from: Day; to: Day } = {
    household: householdSide,
    from: firstDayOfYear(year),
    to: lastDayOfYear(year),
  }
  return (books.sqlite.prepare(text).all(days) as PaidRow[]).map(
    ({ payee, day, isByCard, amountCents, ...account }) => ({
      payee,
      day,
      account,
      isByCard: isByCard === 1,
      amountCents,
    }),
  )
}

const paidText = (payee: string) => `
  SELECT e.payee, p.day, a.side_id AS sideId, a.kind, a.schedule_line AS scheduleLine, a.tax_kind AS taxKind,
    EXISTS (SELECT 1 FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND b.kind = 'liability' AND b.cash_role <> 'none') AS isByCard,
    sum(p.amount_cents) AS amountCents
  FROM postings AS p
  JOIN entries AS e ON e.no = p.entry_no
  JOIN accounts AS a ON a.id = p.account_id
  WHERE p.day BETWEEN @from AND @to AND e.side_id <> @household AND ${payee} AND e.source <> 'opening'
    AND (a.kind = 'expense' OR (a.kind = 'liability' AND a.tax_kind IS NOT NULL))
    AND +e.reverses_no IS NULL AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no)
  GROUP BY e.payee, p.day, a.id, isByCard
  ORDER BY e.payee, p.day, a.id`
const namedText = paidText("e.payee <> ''")
const namelessText = paidText("e.payee = ''")

export const listPayees = (books: Books): (PayeeSaid & { revision: number })[] =>
  books.db
    .select({
      name: payees.name,
      kind: payees.kind,
      sameAs: payees.sameAs,
      formOnFile: payees.formOnFile,
      revision: payees.revision,
    })
    .from(payees)
    .orderBy(payees.name)
    .all()

export interface PayeeWord {
  name: string
  /** Null takes back what was said. */
  kind: PayeeKind | null
  sameAs: string | null
  formOnFile: boolean
}

/** Says who payees are, all or none; what is said already is not written again. */
export const sayPayees = (books: Books, act: Act, words: readonly PayeeWord[]): Outcome<{ said: number }> =>
  once(books, act, 'payees.say', { words }, () => {
    const known = new Map(listPayees(books).map((one) => [one.name, one]))
    const changed = words.filter((word) => !isSaid(known.get(word.name), word))
    for (const { name, kind, sameAs, formOnFile } of changed) {
      if (kind === null) {
        books.db.delete(payees).where(eq(payees.name, name)).run()
        continue
      }
      const row = { kind, sameAs, formOnFile, saidAt: act.at }
      books.db
        .insert(payees)
        .values({ name, ...row })
        .onConflictDoUpdate({
          target: payees.name,
          set: { ...row, revision: (known.get(name)?.revision ?? 0) + 1 },
        })
        .run()
    }
    if (changed.length > 0)
      logChange(books, act, {
        kind: 'payees.said',
        subject: 'payees',
        summary: 'Payees were described',
        details: {
          changed: changed.map((word) => ({ before: known.get(word.name) ?? null, now: word })),
        },
      })
    return { ok: true, result: { said: changed.length } }
  })

const isSaid = (known: PayeeSaid | undefined, { kind, sameAs, formOnFile }: PayeeWord): boolean =>
  known === undefined
    ? kind === null
    : known.kind === kind && known.sameAs === sameAs && known.formOnFile === formOnFile
