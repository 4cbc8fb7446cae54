// The sample farm's books, built once a machine for all tests that copy them.
import { createHash } from 'node:crypto'
import { cpSync, readdirSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openSampleBooks, sampleFingerprint } from '#sample/open-sample.ts'

const root = join(import.meta.dirname, '../..')

/** What the sample is made of and the rooms that write it: a change of either builds it anew. */
const fingerprint = (): string => {
  const hash = createHash('sha256').update(sampleFingerprint())
  for (const room of ['src/db', 'src/ledger'])
    for (const name of readdirSync(join(root, room), { recursive: true, encoding: 'utf8' }).sort())
      if (name.endsWith('.ts')) hash.update(readFileSync(join(root, room, name)))
  return hash.digest('hex').slice(0, 12)
}

/** Puts `sample.sqlite` into the folder, as on November 25, 2026. */
export async function copySample(folder: string): Promise<string> {
  const built = join(tmpdir(), `dooryard-sample-for-tests-${fingerprint()}`)
  const books = await openSampleBooks(built, new Date('2026-11-25T12:00:00'))
  books.close()
  const copy = join(folder, 'sample.sqlite')
  cpSync(join(built, 'sample.sqlite'), copy)
  return copy
}
