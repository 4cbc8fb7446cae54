// The field for files from the bank, wherever they are chosen.
import { FileField } from '../parts/field.tsx'

export const BankFilesField = ({ error }: { error?: string | undefined }) => (
  <FileField
    name="file"
    label="Files from the bank"
    several
    hint="One or several: OFX (any file extension), or CSV; at most 25 MB. Nothing is stored before you confirm it on the next page."
    accept=".ofx,.qfx,.qbo,.csv,.txt,.xml"
    error={error}
  />
)
