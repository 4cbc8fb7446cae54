// Large choices of the notebook's forms, and what its sections share.

import type { NotebookFigures } from '#today/farm/notebook-figures.ts'
import { type FieldErrors, fieldId } from '../parts/field.tsx'

export interface TypedValues {
  value(name: string): string
  values(name: string): readonly string[]
}

export interface SectionProps {
  figures: NotebookFigures
  typed: TypedValues
  errors: FieldErrors
}

export const hasError = (errors: FieldErrors, section: string): boolean =>
  Object.keys(errors).some((name) => name.startsWith(`${section}.`))

interface TilesProps {
  name: string
  label: string
  options: readonly { value: string; label: string }[]
  value?: string | undefined
  error?: string | undefined
  /** Where a group goes on in a second place: the ids of its choices begin with this. */
  at?: string
}

/** Choices large enough for a thumb; the last one chosen stands chosen. */
export const Tiles = ({ name, label, options, value, error, at = fieldId(name) }: TilesProps) => (
  <fieldset class="tiles" id={at} tabindex={-1} aria-describedby={error ? `${at}-error` : undefined}>
    <legend>{label}</legend>
    {error ? (
      <p class="field-error" id={`${at}-error`}>
        <span class="hidden-text">Error: </span>
        {error}
      </p>
    ) : null}
    {options.map((option, index) => (
      <div class="tile">
        <input
          type="radio"
          id={`${at}-${index}`}
          name={name}
          value={option.value}
          checked={option.value === value}
        />
        <label for={`${at}-${index}`}>{option.label}</label>
      </div>
    ))}
  </fieldset>
)
