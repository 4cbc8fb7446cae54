// The batch a cost or sale belongs to, beside its account: left out while no batch is under way.
import { type FieldProps, type Option, Select } from '../parts/field.tsx'

export const BatchSelect = ({ batches, ...props }: FieldProps & { batches: readonly Option[] }) =>
  batches.length > 0 ? <Select {...props} options={batches} empty="None" /> : null
