// Where a receipt is chosen, or taken with a phone's camera: the same two fields wherever one can be added.
import { FileField } from '../parts/field.tsx'

export const ReceiptFields = ({ error }: { error: string | undefined }) => (
  <div class="field-row">
    <FileField
      name="receipt"
      label="Receipt"
      hint="If you have one: PDF, JPEG, PNG or WebP, at most 10 MB"
      accept="application/pdf,image/jpeg,image/png,image/webp"
      error={error}
    />
    {/* On a screen that is touched alone: elsewhere it would be the same choice of files twice. */}
    <div class="by-touch">
      <FileField name="photo" label="Or take its photo" accept="image/*" camera />
    </div>
  </div>
)
