// The chain of changes held against the rows: each link whole, each row as the last link that names it left it, none unknown.
import type Database from 'better-sqlite3'
import { type ChainEnd, linkDigest, takenAway } from '#db/chain/chain.ts'
import { type ProvedTable, provedTables, rowDigests } from '#db/chain/proved-rows.ts'
import type { Finding } from './verify-check.ts'

/** The end of the chain as it was written down elsewhere: in a copy, or on paper by its first letters. */
export interface KnownEnd extends ChainEnd {
  from: string
}

export interface ChainProof {
  /** Links looked at. */
  count: number
  findings: Omit<Finding, 'check'>[]
}

/** The first broken link comes first. */
export const proveChain = (sqlite: Database.Database, known: readonly KnownEnd[] = []): ChainProof => {
  const links = readLinks(sqlite)
  const findings = [
    ...links.findings,
    ...provedTables.flatMap((table) => [...wrongRows(sqlite, table, links.rows.get(table) ?? new Map())]),
    ...closingsCutOff(sqlite, links.digests),
    ...known
      .filter(({ no, digest }) => !links.digests[no - 1]?.startsWith(digest))
      .map(({ from, no }) => ({
        no,
        at: from,
        message: `It holds link ${no} of a chain that these books no longer have: their end was cut off, or it is of other books`,
      })),
  ]
  findings.sort((a, b) => a.no - b.no)
  return { count: links.digests.length, findings: findings.map(({ at, message }) => ({ at, message })) }
}

/** `no` is the link that is broken there. */
interface Broken {
  no: number
  at: string
  message: string
}

/** What the chain last said of a row. */
interface LastSaid {
  digest: string
  no: number
}

const readLinks = (sqlite: Database.Database) => {
  const rows = new Map<string, Map<string, LastSaid>>()
  const digests: string[] = []
  const findings: Broken[] = []
  const links = sqlite
    .prepare('SELECT no, written, digest FROM chain_links ORDER BY no')
    .iterate() as Iterable<{
    no: number
    written: string
    digest: string
  }>
  for (const { no, written, digest } of links) {
    if (no !== digests.length + 1)
      findings.push({ no, at: `link ${no}`, message: 'The link of the chain before it is missing' })
    else if (linkDigest(no, digests.at(-1) ?? '', written) !== digest)
      findings.push({
        no,
        at: `link ${no}`,
        message: 'This link of the chain does not rest on the one before: one of the two was changed',
      })
    digests[no - 1] = digest
    for (const line of written.split('\n')) {
      const [table = '', key = '', said = ''] = line.split('\t')
      const ofTable = rows.get(table) ?? new Map<string, LastSaid>()
      rows.set(table, ofTable.set(key, { digest: said, no }))
    }
  }
  return { rows, digests, findings }
}

/** Takes the rows it meets out of `said`; what is left there was taken away, by the program or by another hand. */
function* wrongRows(
  sqlite: Database.Database,
  table: ProvedTable,
  said: Map<string, LastSaid>,
): Generator<Broken> {
  for (const { key, digest } of rowDigests(sqlite, table).all()) {
    const last = said.get(key)
    said.delete(key)
    if (last?.digest === digest) continue
    yield {
      no: last?.no ?? Number.POSITIVE_INFINITY,
      at: nameOf(table, key),
      message: last
        ? `It is not what link ${last.no} of the chain wrote: it was changed past the program`
        : 'No link of the chain knows it: it was written past the program, or the end of the chain was cut off',
    }
  }
  for (const [key, last] of said)
    if (last.digest !== takenAway)
      yield {
        no: last.no,
        at: nameOf(table, key),
        message: `It is gone; link ${last.no} of the chain wrote it`,
      }
}

const closingsCutOff = (sqlite: Database.Database, digests: readonly string[]): Broken[] => {
  const there = new Set(digests)
  return (
    sqlite
      .prepare('SELECT id, chain_digest AS digest FROM month_closings WHERE chain_digest IS NOT NULL')
      .all() as { id: string; digest: string }[]
  )
    .filter(({ digest }) => !there.has(digest))
    .map(({ id }) => ({
      no: Number.POSITIVE_INFINITY,
      at: nameOf('month_closings', JSON.stringify([id])),
      message: 'It was made on a chain that these books no longer have',
    }))
}

const nameOf = (table: ProvedTable, key: string): string => `${rowNames[table]} ${keyInWords(key)}`

/** A link that somebody rewrote may name a row by anything: it is told as it stands there. */
const keyInWords = (key: string): string => {
  try {
    const parts: unknown = JSON.parse(key)
    if (Array.isArray(parts)) return parts.join(', ')
  } catch {}
  return key || '(none)'
}

const rowNames: Record<ProvedTable, string> = {
  sides: 'books',
  accounts: 'account',
  crossings: 'crossing',
  entries: 'entry no',
  standing_transfers: 'standing transfer',
  standing_occurrences: 'month of standing transfer',
  statement_mappings: 'reading of columns',
  other_bank_keys: 'bank’s other number',
  statements: 'statement',
  sorting_rules: 'sorting rule',
  statement_lines: 'transaction',
  reconciliations: 'reconciliation',
  reconciliation_ticks: 'check mark of posting',
  month_closings: 'closing',
  attachments: 'attachment',
  market_values: 'market value of account',
  holdings: 'holding',
  holding_values: 'value of holding',
  holding_parts: 'sold part of holding',
  kept_packs: 'kept year pack',
  accrual_adjustments: 'year-end amount',
  batches: 'batch',
  batch_ties: 'tie to a batch of posting',
  batch_marks: 'mark of a batch',
  work_hours: 'hours',
  head_tallies: 'heads',
  market_days: 'market day',
  market_takings: 'takings of market day',
  trips: 'trip',
  goods_notes: 'goods',
  goods_entries: 'entry of bartered goods',
  posting_tax: 'tax year of posting',
  payees: 'payee',
  plans: 'plan',
  plan_revisions: 'plan revision',
  settings: 'setting',
  runway_history: 'saying of month',
  submissions: 'form',
  change_log: 'change',
}
