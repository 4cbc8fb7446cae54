// Options under their headings, for a list that many fields share.
import type { Option } from './field.tsx'

export const GroupedOptions = ({ options }: { options: readonly Option[] }) => {
  const groups = [...new Set(options.map((option) => option.group ?? ''))]
  return (
    <>
      {groups.map((group) => (
        <optgroup label={group}>
          {options
            .filter((option) => (option.group ?? '') === group)
            .map((option) => (
              <option value={option.value}>{option.label}</option>
            ))}
        </optgroup>
      ))}
    </>
  )
}
