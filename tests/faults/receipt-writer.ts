// A small process for the kill tests: attaches receipts and takes them off, keeps the copy of a day, and says what was acknowledged.
import { dirname, join } from 'node:path'
import { addDays, day } from '#calendar/day.ts'
import { backUpDaily } from '#db/backup/daily-copy.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { addAttachment, removeAttachment } from '#db/ledger/attachment-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'

const [path, run] = process.argv.slice(2) as [string, string]
const books = openBooksOrThrow(path, { now: new Date() })
const attachments = join(dirname(path), 'attachments')
const account = (name: string) =>
  listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const say = (line: string) => process.stdout.write(`${line}\n`)
const act = (what: string) => ({ formId: `${run}-${what}`, at: new Date().toISOString(), actor: 'writer' })

say('ready')
for (let turn = 0; ; turn += 1) {
  const head = { id: '', sideId: 'farm', day: day('2026-02-01'), payee: 'Seed house', memo: '' }
  const lines = [{ accountId: account('Supplies'), amountCents: cents(100 + turn) }]
  const posted = postEntry(books, act(`${turn}-entry`), moneyOut(head, account('Farm checking'), lines))
  if (!posted.ok) throw new Error(JSON.stringify(posted))
  // As large as a photo, so that a kill may fall into its writing.
  const bytes = Buffer.alloc(1_500_000, `${run} ${turn} `)
  bytes.write('%PDF-1.4')
  const added = addAttachment(books, act(`${turn}-receipt`), attachments, {
    entryId: posted.result.entryId,
    fileName: 'receipt.pdf',
    bytes,
  })
  if (!added.ok) throw new Error(JSON.stringify(added))
  say(`kept ${added.result.contentHash}`)
  if (turn % 4 === 3) removeAttachment(books, act(`${turn}-off`), added.result.attachmentId)
  const today = addDays(day('2026-01-01'), posted.result.entryNo)
  const copied = backUpDaily(books, join(dirname(path), 'backups'), today)
  if (copied && !copied.ok) throw new Error(copied.problem.message)
  say(`copied ${added.result.contentHash}`)
}
