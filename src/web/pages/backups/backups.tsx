// Backups: what is kept by itself, a file to carry away, proof of the books, and the way back to a copy.

import { createReadStream, mkdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { Readable } from 'node:stream'
import { Hono } from 'hono'
import { listBackups } from '#db/backup/backup.ts'
import { backUpToFile } from '#db/backup/backup-file.ts'
import { lastCopyElsewhere, noteCopyElsewhere } from '#db/backup/elsewhere.ts'
import { exportBooks } from '#db/backup/export.ts'
import { endInWords } from '#db/chain/chain.ts'
import { endsInCopies } from '#db/chain/kept-ends.ts'
import { placeBeside } from '#db/data-place.ts'
import type { FileProblem } from '#db/file-problem.ts'
import { forgetHalf, halfOf } from '#db/half.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { receiptsOfFile } from '#db/verify/verify-attachments.ts'
import { type BackupsFigures, BackupsPage } from '#views/backups/backups.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, readForm, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { dayOfInstant } from '#web/server/clock.ts'
import type { PageEnv } from '#web/server/context.ts'
import { restoreDesk } from './restore.tsx'

export const backupPages: PageRoom = {
  uploads: ['/settings/backups/look'],
  build: () => {
    const desk = restoreDesk(showBackups)
    return new Hono<PageEnv>()
      .get('/settings/backups', (c) => showBackups(c, {}))
      .post('/settings/backups/file', sendFile)
      .post('/settings/backups/verify', verify)
      .post('/settings/backups/look', desk.look)
      .post('/settings/backups/restore', desk.carryOut)
  },
}

/** Made in the data folder under a half name, proved, sent piece by piece, and forgotten. */
async function sendFile(c: PageContext) {
  const typed = await readForm(c)
  const { books, clock, today } = c.var.web
  const kind = typed.value('kind')
  const passphrase = typed.value('passphrase').trim()
  if (kind === 'sealed' && passphrase.length < 8)
    return showBackups(c, { passphrase: 'Enter 8 letters or more. Several words are easier to keep' })
  if (kind === 'sealed' && passphrase !== typed.value('again').trim())
    return showBackups(c, { again: 'Enter the same passphrase once more' })
  const name = `dooryard-${today()}.${kind === 'sealed' ? 'dooryard' : kind === 'json' ? 'json' : 'sqlite'}`
  const { folder, attachments } = placeBeside(books.path)
  // The folder may have gone with the file: what is open is saved all the same.
  mkdirSync(folder, { recursive: true })
  const path = halfOf(join(folder, `${newFormId()}-${name}`))
  const made =
    kind === 'json'
      ? exportBooks(books.sqlite, path, { now: clock.now(), attachments })
      : backUpToFile(books, path, kind === 'sealed' ? { attachments, passphrase } : { attachments })
  if (!made.ok) return showBackups(c, { '': told(made.problem, path, name) })
  c.header('Content-Type', 'application/octet-stream')
  c.header('Content-Disposition', `attachment; filename="${name}"`)
  const sent = createReadStream(path)
  sent.once('end', () => {
    if (!books.standing.problem()) noteCopyElsewhere(books.path, today())
  })
  sent.once('close', () => forgetHalf(path))
  return c.body(Readable.toWeb(sent) as ReadableStream)
}

async function verify(c: PageContext) {
  await readForm(c)
  const { books } = c.var.web
  const { attachments, backups } = placeBeside(books.path)
  const report = verifyBooks(
    books.sqlite,
    receiptsOfFile(books.sqlite, attachments),
    endsInCopies(books.path, backups),
  )
  return showBackups(c, {}, report)
}

const told = (problem: FileProblem, path: string, name: string) => problem.message.replaceAll(path, name)

function showBackups(c: PageContext, errors: FormErrors, report?: ReturnType<typeof verifyBooks>) {
  const { books, upkeep, exchange } = c.var.web
  const { backups } = placeBeside(books.path)
  const said = upkeep.restoreSaid
  upkeep.restoreSaid = null
  const figures: BackupsFigures = {
    folder: backups,
    kept: listBackups(backups).map((one) => ({
      name: one.name,
      day: one.day,
      byteCount: statSync(one.path).size,
    })),
    lastElsewhere: lastCopyElsewhere(books.path),
    verified: report
      ? {
          findings: report.findings.map((finding) => `${finding.at}: ${finding.message}`),
          checks: report.checked.length,
          chainEnd: report.end && endInWords(report.end),
          begun: report.begun.map(dayOfInstant),
        }
      : null,
  }
  return answer(c, {
    title: 'Backups',
    status: statusOf(errors),
    figures,
    page: () => (
      <BackupsPage
        figures={figures}
        restoreSaid={said}
        canRestore={exchange !== undefined}
        errors={errors}
        formId={newFormId()}
      />
    ),
  })
}
