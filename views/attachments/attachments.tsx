// The receipts of one entry: what is kept, and the form that adds one.
import { type Day, dayName } from '#calendar/day.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { ReceiptFields } from './receipt-fields.tsx'

export interface AttachmentsFigures {
  entry: { no: number; day: Day; payee: string }
  receipts: readonly { id: string; fileName: string; mediaType: string; byteCount: number; addedAt: string }[]
}

export interface AttachmentsProps {
  figures: AttachmentsFigures
  errors: FieldErrors
  formId: string
  removeIds: readonly string[]
}

export const AttachmentsPage = ({ figures, errors, formId, removeIds }: AttachmentsProps) => {
  const { entry, receipts } = figures
  return (
    <>
      <PageTitle
        purpose={`${dayName(entry.day)}${entry.payee ? ` · ${entry.payee}` : ''}. Kept in the data folder, unchanged.`}
      >
        Receipts of entry {entry.no}
      </PageTitle>
      <ErrorSummary errors={errors} />
      {receipts.length === 0 ? (
        <EmptyState>No receipt is kept with this entry yet.</EmptyState>
      ) : (
        <ul class="due">
          {receipts.map((receipt, index) => (
            <li>
              <span>
                <a href={`/books/receipts/${entry.no}/${receipt.id}`}>{receipt.fileName}</a>{' '}
                <span class="hint">
                  {kindNames[receipt.mediaType] ?? receipt.mediaType}, {sizeName(receipt.byteCount)}
                </span>
              </span>
              <form method="post" action={`/books/receipts/${entry.no}/${receipt.id}/remove`}>
                <FormId value={removeIds[index] ?? ''} />
                <Button quiet small label={`Remove: ${receipt.fileName}`}>
                  Remove
                </Button>
              </form>
            </li>
          ))}
        </ul>
      )}
      <form method="post" action={`/books/receipts/${entry.no}`} enctype="multipart/form-data">
        <FormId value={formId} />
        <ReceiptFields error={errors.receipt} />
        <ButtonRow>
          <Button>Keep it with the entry</Button>
          <LinkButton quiet href={`/books/entries/${entry.no}`}>
            Back to the entry
          </LinkButton>
        </ButtonRow>
      </form>
    </>
  )
}

const kindNames: Record<string, string> = {
  'application/pdf': 'PDF',
  'image/jpeg': 'photo',
  'image/png': 'picture',
  'image/webp': 'picture',
}

const sizeName = (bytes: number): string =>
  bytes < 100_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`
