// A receipt sent with a form: chosen as a file or taken with the camera, kept with the entry in the form's own transaction.
import { placeBeside } from '#db/data-place.ts'
import { addAttachment, type NewAttachment } from '#db/ledger/attachment-store.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { TypedForm } from './form.ts'

export type SentReceipt = Pick<NewAttachment, 'fileName' | 'bytes'>

/** Null when none was sent: a browser sends an empty file for a field that was left alone. */
export const receiptIn = async (typed: TypedForm): Promise<SentReceipt | null> => {
  const file = typed.file('receipt') ?? typed.file('photo')
  return file ? { fileName: file.name, bytes: Buffer.from(await file.arrayBuffer()) } : null
}

export const keepReceipt = (
  books: Books,
  act: Act,
  receipt: SentReceipt & { entryId: string },
): ReturnType<typeof addAttachment> => addAttachment(books, act, placeBeside(books.path).attachments, receipt)
