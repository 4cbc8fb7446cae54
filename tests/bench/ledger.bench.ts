// What the Books and Now pages ask of the file, at a million postings against ten thousand: the answers must not grow with history.
import { monthOfDay } from '#calendar/day.ts'
import { addMonths } from '#calendar/month.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { householdMonths } from '#db/ledger/household-months.ts'
import { latestEntries } from '#db/ledger/latest-entries.ts'
import { changeEntries, planChange } from '#db/ledger/ledger-bulk.ts'
import { registerPage } from '#db/ledger/register.ts'
import { dropReconciliation, startReconciliation } from '#db/reconcile/reconcile-store.ts'
import { zeroCents } from '#money/cents.ts'
import { type Benches, type BenchRow, medianMilliseconds } from './bench.ts'
import { type BigBooks, bigBooks } from './big-books.ts'

export const benches: Benches = { ledger: run }

async function run(): Promise<BenchRow[]> {
  const rows: BenchRow[] = []
  const small = bigBooks(10_000)
  const atSmall = await measure(small)
  small.remove()
  const large = bigBooks(1_000_000)
  const atLarge = await measure(large)
  const floor = await medianMilliseconds(() => rawPage(large))
  large.remove()
  for (const [what, milliseconds] of Object.entries(atLarge)) {
    const before = atSmall[what]!
    rows.push({
      what: `${what}, 1,000,000 postings`,
      milliseconds,
      floor: { what: 'raw SQLite page of 50', milliseconds: floor },
      limit: 'under 60 ms',
      held: milliseconds < 60,
    })
    rows.push({
      what: `${what}, 10,000 postings`,
      milliseconds: before,
      // A hundred times the history: the depth of the index grows by a few steps, the month's own rows by a hundred.
      limit: `a hundredfold history costs ${(milliseconds / before).toFixed(1)}×`,
    })
  }
  return rows
}

const measure = async (books: BigBooks): Promise<Record<string, number>> => {
  const last = monthOfDay(books.lastDay)
  const accountId = books.busiestAccountId
  const deep = registerPage(books, { accountId, filter: { to: '2005-06-15' as never } }).rows[0]!
  return {
    'register, newest page': await medianMilliseconds(() => registerPage(books, { accountId })),
    'register, a page deep in the past': await medianMilliseconds(() =>
      registerPage(books, { accountId, olderThan: deep }),
    ),
    'register, searched': await medianMilliseconds(() =>
      registerPage(books, { accountId, filter: { text: 'seed 42' } }),
    ),
    'register, searched for a common word': await medianMilliseconds(() =>
      registerPage(books, { accountId, filter: { text: 'market' } }),
    ),
    'register, unreconciled and above $500': await medianMilliseconds(() =>
      registerPage(books, { accountId, filter: { onlyUnreconciled: true, minimumCents: 50_000 as never } }),
    ),
    'balances of all accounts on a day': await medianMilliseconds(() => balancesOn(books, books.lastDay)),
    'latest entries of both sides': await medianMilliseconds(() => latestEntries(books)),
    'household facts of 24 months': await medianMilliseconds(() =>
      householdMonths(books, addMonths(last, -23), last),
    ),
    ...(await measureChanges(books)),
  }
}

/** Last, since it writes: fifty entries are changed, which leaves a hundred lines that a reconciliation ticks by itself. */
const measureChanges = async (books: BigBooks): Promise<Record<string, number>> => {
  const accountId = books.busiestAccountId
  let forms = 0
  const act = () => ({ formId: `bench-${++forms}`, at: '2026-01-01T00:00:00.000Z', actor: 'bench' })
  const request = {
    accountId,
    postingIds: registerPage(books, { accountId }).rows.map((row) => row.postingId),
    change: {
      lines: 'others' as const,
      accountId: null,
      enterpriseId: null,
      payee: 'Hollow Feed',
      memo: null,
    },
  }
  const looking = await medianMilliseconds(() => planChange(books, request))
  const looked = planChange(books, request)
  const able = looked.ok ? looked.planned.filter(({ fate }) => fate.ok) : []
  const changed = changeEntries(books, act(), {
    ...request,
    postingIds: able.flatMap((one) => one.postingIds),
  })
  if (!changed.ok) throw new Error(JSON.stringify(changed.problems))
  const statement = { accountId, statementDay: books.lastDay, statementBalanceCents: zeroCents }
  const starting = await medianMilliseconds(() => {
    const started = startReconciliation(books, act(), statement)
    if (!started.ok) throw new Error(JSON.stringify(started.problems))
    dropReconciliation(books, act(), started.result.reconciliationId)
  })
  return {
    'a look at changing a page of entries': looking,
    'a reconciliation started after that change, and put aside': starting,
  }
}

/** The least a page can cost: fifty rows by the same key, nothing else. */
const rawPage = (books: BigBooks) =>
  books.sqlite
    .prepare(
      'SELECT id, day, amount_cents FROM postings WHERE account_id = ? ORDER BY day DESC, id DESC LIMIT 50',
    )
    .all(books.busiestAccountId)
