// Receipts kept with an entry: sent up from its page, shown as what they are and nothing else, taken off again.
import { Hono } from 'hono'
import { placeBeside } from '#db/data-place.ts'
import { attachmentsOf, readAttachment, removeAttachment } from '#db/ledger/attachment-store.ts'
import { entryByNo } from '#db/ledger/entry-reader.ts'
import { AttachmentsPage } from '#views/attachments/attachments.tsx'
import { actOfForm, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, readForm, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { keepReceipt, receiptIn } from '#web/forms/receipt.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'

export const attachmentPages: PageRoom = {
  uploads: ['/books/receipts/'],
  build: () =>
    new Hono<PageEnv>()
      .get('/books/receipts/:no{[0-9]{1,12}}', (c) => showAttachments(c, {}))
      .post('/books/receipts/:no{[0-9]{1,12}}', add)
      .post('/books/receipts/:no{[0-9]{1,12}}/:id/remove', remove)
      .get('/books/receipts/:no{[0-9]{1,12}}/:id', show),
}

async function add(c: PageContext) {
  const entry = entryByNo(c.var.web.books, entryNo(c))
  if (!entry) return notFound(c, noSuchEntry)
  const typed = await readForm(c)
  const receipt = await receiptIn(typed)
  if (!receipt) return showAttachments(c, { receipt: 'Choose a photo or a PDF' })
  const added = keepReceipt(c.var.web.books, actOfForm(c, typed), { ...receipt, entryId: entry.id })
  if (!added.ok) return showAttachments(c, errorsOf(added.problems))
  return moveOn(c, `/books/receipts/${entry.no}`, undoable(c, 'The receipt is kept with the entry.'))
}

async function remove(c: PageContext) {
  const typed = await readForm(c)
  const act = actOfForm(c, typed)
  const removed = removeAttachment(c.var.web.books, act, c.req.param('id') ?? '')
  if (!removed.ok) return showAttachments(c, errorsOf(removed.problems))
  return moveOn(c, `/books/receipts/${entryNo(c)}`, undoable(c, 'The receipt is removed.'))
}

/** A file someone chose is never run: its own kind, no sniffing, no script, no frames of ours. */
function show(c: PageContext) {
  const { books } = c.var.web
  const found = readAttachment(books, placeBeside(books.path).attachments, c.req.param('id') ?? '')
  const entry = entryByNo(books, entryNo(c))
  if (!found || !entry || found.attachment.entryNo !== entry.no || found.attachment.removedAt !== null)
    return notFound(c, 'There is no such receipt.')
  if (found.bytes === null)
    return notFound(c, 'The file of this receipt is missing or was changed. Restore it from a backup.')
  const { mediaType, fileName } = found.attachment
  c.header('Content-Type', mediaType)
  c.header('Content-Disposition', `inline; filename*=UTF-8''${encodeURIComponent(fileName)}`)
  c.header('X-Content-Type-Options', 'nosniff')
  return c.body(new Uint8Array(found.bytes))
}

const noSuchEntry = 'There is no entry of this number.'
const entryNo = (c: PageContext): number => Number.parseInt(c.req.param('no') ?? '', 10)

function showAttachments(c: PageContext, errors: FormErrors) {
  const { books } = c.var.web
  const entry = entryByNo(books, entryNo(c))
  if (!entry) return notFound(c, noSuchEntry)
  const figures = {
    entry: { no: entry.no, day: entry.day, payee: entry.payee },
    receipts: attachmentsOf(books, entry.no).map((one) => ({
      id: one.id,
      fileName: one.fileName,
      mediaType: one.mediaType,
      byteCount: one.byteCount,
      addedAt: one.addedAt,
    })),
  }
  return answer(c, {
    title: `Receipts of entry ${entry.no}`,
    status: statusOf(errors),
    figures,
    page: () => (
      <AttachmentsPage
        figures={figures}
        errors={errors}
        formId={newFormId()}
        removeIds={figures.receipts.map(() => newFormId())}
      />
    ),
  })
}
