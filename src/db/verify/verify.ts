// Proves a books file: every promise the books make is recomputed from the postings and compared. Changes nothing.
import type Database from 'better-sqlite3'
import { type ChainEnd, chainBegun, chainEnd } from '#db/chain/chain.ts'
import { missingFromSchema } from '#db/open.ts'
import { keptPackFindings } from '#db/year/kept-packs.ts'
import { type AttachmentReader, attachmentFindings } from './verify-attachments.ts'
import { type KnownEnd, proveChain } from './verify-chain.ts'
import type { Finding } from './verify-check.ts'
import { ledgerChecks } from './verify-ledger.ts'
import { recordChecks } from './verify-records.ts'

export interface VerifyReport {
  findings: Finding[]
  /** Checks made, each with how many things it looked at. */
  checked: { check: string; count: number }[]
  /** The newest link of the chain, to be written down elsewhere; null when it could not be asked or nothing was ever done. */
  end: ChainEnd | null
  /** When the books were taken as they were found: what they held before is not proved by the chain. */
  begun: string[]
}

/** All checks on an open database. Reading attachments is optional: they lie beside the file. `known` ends of the chain are held against it. */
export const verifyBooks = (
  sqlite: Database.Database,
  attachments?: AttachmentReader,
  known: readonly KnownEnd[] = [],
): VerifyReport => {
  const report: VerifyReport = { findings: [], checked: [], end: null, begun: [] }
  const add = (check: string, count: number, findings: readonly Omit<Finding, 'check'>[]) => {
    report.checked.push({ check, count })
    report.findings.push(...findings.map((finding) => ({ check, ...finding })))
  }
  const pages = integrityOf(sqlite)
  add('pages', pages.count, pages.findings)
  // On damaged pages further questions may not even be answered.
  if (pages.findings.length > 0) return report
  const orphans = sqlite.pragma('foreign_key_check') as { table: string; rowid: number; parent: string }[]
  add(
    'parents',
    orphans.length,
    orphans.slice(0, limit).map((row) => ({
      at: `${row.table} row ${row.rowid}`,
      message: `Points to a row of ${row.parent} that is not there`,
    })),
  )
  const lost = missingFromSchema(sqlite)
  add(
    'structure',
    lost.length,
    lost.map((name) => ({ at: name, message: 'This part of the structure is missing or was changed' })),
  )
  for (const check of [...ledgerChecks, ...recordChecks]) {
    const rows = sqlite.prepare(`${check.wrong} LIMIT ${limit}`).all() as { at: string; message: string }[]
    add(check.name, sqlite.prepare(check.counted).pluck().get() as number, rows)
  }
  const chain = proveChain(sqlite, known)
  add('chain', chain.count, chain.findings.slice(0, limit))
  report.end = chainEnd(sqlite)
  report.begun = beginnings(sqlite)
  const packs = keptPackFindings(sqlite)
  add('kept-packs', packs.count, packs.findings)
  if (attachments) {
    const kept = attachmentFindings(sqlite, attachments)
    add('attachments', kept.count, kept.findings)
  }
  return report
}

const limit = 100

const beginnings = (sqlite: Database.Database): string[] =>
  sqlite.prepare('SELECT at FROM change_log WHERE kind = ? ORDER BY id').pluck().all(chainBegun) as string[]

/** SQLite's own check of pages, indices, CHECKs and STRICT types; a page too damaged to read throws, which is a finding too. */
const integrityOf = (sqlite: Database.Database): { count: number; findings: Omit<Finding, 'check'>[] } => {
  try {
    const rows = sqlite.pragma('integrity_check') as { integrity_check: string }[]
    const count = sqlite.pragma('page_count', { simple: true }) as number
    const findings = rows
      .filter((row) => row.integrity_check !== 'ok')
      .map((row) => ({ at: 'file', message: row.integrity_check }))
    return { count, findings }
  } catch (error) {
    const code = (error as { code?: string }).code ?? ''
    if (!code.startsWith('SQLITE_')) throw error
    return {
      count: 0,
      findings: [{ at: 'file', message: `The file is damaged (${(error as Error).message})` }],
    }
  }
}
