// What the books hold of each enterprise: sales and costs by its tag over a span of days, from the postings themselves.
import { and, between, eq, isNotNull, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { accounts, postings } from '#db/schema.ts'
import { type Cents, cents } from '#money/cents.ts'

export interface EnterpriseActual {
  tag: string
  /** As read: sales and costs are positive. */
  salesCents: Cents
  costsCents: Cents
  /** Bought and booked as an asset: stock, equipment, fences. */
  assetsCents: Cents
  lines: number
}

/** Tags with postings in the span, both days included. Reversed entries cancel out by themselves. */
export const enterpriseActuals = (books: Books, from: Day, to: Day): EnterpriseActual[] => {
  const sum = (kind: 'income' | 'expense' | 'asset', cashToo = false) =>
    cashToo
      ? sql<number>`sum(CASE WHEN ${accounts.kind} = ${kind} THEN ${postings.amountCents} ELSE 0 END)`
      : sql<number>`sum(CASE WHEN ${accounts.kind} = ${kind} AND ${accounts.cashRole} = 'none' THEN ${postings.amountCents} ELSE 0 END)`
  return books.db
    .select({
      tag: postings.enterpriseId,
      income: sum('income', true),
      expense: sum('expense', true),
      asset: sum('asset'),
      lines: sql<number>`count(*)`,
    })
    .from(postings)
    .innerJoin(accounts, eq(accounts.id, postings.accountId))
    .where(and(isNotNull(postings.enterpriseId), between(postings.day, from, to)))
    .groupBy(postings.enterpriseId)
    .orderBy(postings.enterpriseId)
    .all()
    .map((row) => ({
      tag: row.tag!,
      salesCents: cents(-row.income),
      costsCents: cents(row.expense),
      assetsCents: cents(row.asset),
      lines: row.lines,
    }))
}
