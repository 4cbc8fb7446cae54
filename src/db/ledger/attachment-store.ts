// Receipts kept with entries: a photo or a PDF, its content under its hash in the data folder, its name in the books.
import { existsSync, readFileSync } from 'node:fs'
import { and, desc, eq, isNull } from 'drizzle-orm'
import { logChange } from '#db/change-log.ts'
import { fileProblem } from '#db/file-problem.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { attachments } from '#db/schema-records.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import { attachmentPath, hashOf, keepBytes } from './attachment-files.ts'
import { findEntry } from './entry-reader.ts'

export type Attachment = typeof attachments.$inferSelect

const attachmentLimitBytes = 10 * 1024 * 1024

/** What a kept file is, by its first bytes and not by its name: only these are kept, and only as these are they sent back. */
const kinds: readonly { mediaType: string; starts: (bytes: Buffer) => boolean }[] = [
  { mediaType: 'application/pdf', starts: (bytes) => bytes.subarray(0, 5).toString('latin1') === '%PDF-' },
  {
    mediaType: 'image/jpeg',
    starts: (bytes) => bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff])),
  },
  {
    mediaType: 'image/png',
    starts: (bytes) => bytes.subarray(0, 8).equals(Buffer.from('\x89PNG\r\n\x1a\n', 'latin1')),
  },
  {
    mediaType: 'image/webp',
    starts: (bytes) =>
      bytes.subarray(0, 4).toString('latin1') === 'RIFF' &&
      bytes.subarray(8, 12).toString('latin1') === 'WEBP',
  },
]

export interface NewAttachment {
  entryId: string
  fileName: string
  bytes: Buffer
}

/** Keeps the file first and names it in the books after: what the books name is on disk. */
export const addAttachment = (
  books: Books,
  act: Act,
  folder: string,
  { entryId, fileName, bytes }: NewAttachment,
): Outcome<{ attachmentId: string; contentHash: string }> =>
  once(books, act, 'attachment.add', { entryId, fileName, contentHash: hashOf(bytes) }, () => {
    const entry = findEntry(books, entryId)
    if (!entry) return refuse({ path: '', message: 'There is no such entry. Open the register again' })
    if (bytes.length === 0) return refuse({ path: 'receipt', message: 'Choose a photo or a PDF' })
    if (bytes.length > attachmentLimitBytes)
      return refuse({ path: 'receipt', message: 'The file is larger than 10 MB. Take a smaller photo of it' })
    const kind = kinds.find(({ starts }) => starts(bytes))
    if (!kind) return refuse({ path: 'receipt', message: 'Choose a PDF, or a photo as JPEG, PNG or WebP' })
    const kept = keep(folder, bytes)
    if (typeof kept !== 'string') return refuse({ path: 'receipt', message: kept.message })
    books.db
      .insert(attachments)
      .values({
        id: act.formId,
        entryNo: entry.no,
        contentHash: kept,
        fileName: plainName(fileName),
        mediaType: kind.mediaType,
        byteCount: bytes.length,
        addedAt: act.at,
      })
      .run()
    logChange(books, act, {
      kind: 'attachment.added',
      subject: act.formId,
      sideId: entry.sideId,
      summary: 'A receipt was attached',
    })
    return { ok: true, result: { attachmentId: act.formId, contentHash: kept } }
  })

/** Takes an attachment off its entry. The file itself stays, so that this can be taken back. */
export const removeAttachment = (books: Books, act: Act, attachmentId: string): Outcome<null> =>
  once(books, act, 'attachment.remove', { attachmentId }, () => setRemoved(books, act, attachmentId, true))

export const restoreAttachment = (books: Books, act: Act, attachmentId: string): Outcome<null> =>
  once(books, act, 'attachment.restore', { attachmentId }, () => setRemoved(books, act, attachmentId, false))

export const attachmentsOf = (books: Books, entryNo: number): Attachment[] =>
  books.db
    .select()
    .from(attachments)
    .where(and(eq(attachments.entryNo, entryNo), isNull(attachments.removedAt)))
    .orderBy(desc(attachments.addedAt))
    .all()

/** Also one that was removed. */
export const attachmentById = (books: Books, id: string): Attachment | undefined =>
  books.db.select().from(attachments).where(eq(attachments.id, id)).get()

/** The attachment with its content, or null when the file is gone or was changed: a wrong receipt is worse than none. */
export const readAttachment = (
  books: Books,
  folder: string,
  attachmentId: string,
): { attachment: Attachment; bytes: Buffer | null } | undefined => {
  const attachment = attachmentById(books, attachmentId)
  if (!attachment) return undefined
  const path = attachmentPath(folder, attachment.contentHash)
  const bytes = existsSync(path) ? readFileSync(path) : null
  return { attachment, bytes: bytes && hashOf(bytes) === attachment.contentHash ? bytes : null }
}

const keep = (folder: string, bytes: Buffer): string | { message: string } => {
  try {
    return keepBytes(folder, bytes)
  } catch (error) {
    const problem = fileProblem(error, folder)
    if (!problem) throw error
    return problem
  }
}

const setRemoved = (books: Books, act: Act, id: string, removed: boolean) => {
  const found = attachmentById(books, id)
  if (!found) return refuse({ path: '', message: 'There is no such attachment. Open the entry again' })
  books.db
    .update(attachments)
    .set({ removedAt: removed ? act.at : null })
    .where(eq(attachments.id, id))
    .run()
  logChange(books, act, {
    kind: removed ? 'attachment.removed' : 'attachment.restored',
    subject: id,
    summary: removed ? 'A receipt was removed' : 'A receipt was put back',
  })
  return { ok: true as const, result: null }
}

/** The last part of a path, without control characters: browsers and cameras send all kinds of names. */
const plainName = (name: string): string => {
  const last = name.split(/[\\/]/).at(-1) ?? ''
  const plain = [...last]
    .filter((letter) => letter >= ' ' && letter !== '\u007f')
    .join('')
    .trim()
  return plain.slice(0, 120) || 'receipt'
}
