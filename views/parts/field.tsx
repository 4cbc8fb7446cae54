// Form fields: label, hint and error are tied to the input by id, so that no page can forget.
import type { Child } from 'hono/jsx'
import { FarDayBox } from './far-day.tsx'

/** Messages by input name, as `checkForm` gives them. */
export type FieldErrors = Readonly<Record<string, string>>

export interface FieldProps {
  name: string
  label: Child
  hint?: Child
  value?: string | undefined
  error?: string | undefined
  /** Kept out of the label only where the table around it already says what the column is. */
  hideLabel?: boolean
  required?: boolean
  /** Tells it from the same field of another form on the page. */
  at?: string | undefined
  /** What holds while the field is empty. */
  placeholder?: string | undefined
}

/** A form as it was typed, with what is wrong. */
interface TypedFields {
  typed: { value(name: string): string }
  errors: FieldErrors
}

/** What each field takes from its form. */
export const fieldOf = ({ typed, errors }: TypedFields, name: string) => ({
  name,
  value: typed.value(name),
  error: errors[name],
})

interface InputProps extends FieldProps {
  type?: 'text' | 'date' | 'month' | 'password' | 'search' | 'email'
  inputmode?: 'text' | 'decimal' | 'numeric'
  autocomplete?: string
  list?: string
  maxlength?: number
  class?: string
}

/**
 * For a form whose rows are those of a list that its own sending shortens: come back to, a browser puts what was chosen into the
 * rows by their place, and so at others than were meant. It does not where nothing may be filled in by it.
 */
export const neverRestored = { autocomplete: 'off' } as const

export const fieldId = (name: string, at = ''): string => (at === '' ? `f-${name}` : `f-${at}-${name}`)

const idOf = ({ name, at }: Pick<FieldProps, 'name' | 'at'>): string => fieldId(name, at)

export const Field = (props: InputProps) => (
  <FieldFrame {...props}>
    <input
      id={idOf(props)}
      name={props.name}
      type={props.type ?? 'text'}
      value={props.value ?? ''}
      inputmode={props.inputmode}
      autocomplete={props.autocomplete ?? 'off'}
      list={props.list}
      maxlength={props.maxlength}
      placeholder={props.placeholder || undefined}
      {...described(props)}
    />
  </FieldFrame>
)

export const MoneyField = (props: FieldProps) => (
  <FieldFrame {...props} class="money-field">
    <span class="money-input">
      <span aria-hidden="true">$</span>
      <input
        id={idOf(props)}
        name={props.name}
        type="text"
        value={props.value ?? ''}
        inputmode="decimal"
        autocomplete="off"
        placeholder={props.placeholder || undefined}
        {...described(props)}
      />
    </span>
  </FieldFrame>
)

export const DayField = (props: FieldProps) => (
  <>
    <Field {...props} type="date" class="short-field" />
    <FarDayBox {...props} id={`${idOf(props)}-sure`} />
  </>
)

/** Months are typed as 2026-11: browsers without a month picker show the same text. */
export const MonthField = (props: FieldProps) => (
  <>
    <Field {...props} type="month" class="short-field" />
    <FarDayBox {...props} id={`${idOf(props)}-sure`} />
  </>
)

/** Hours, acres, head, years: a plain number. */
export const QuantityField = (props: FieldProps) => (
  <Field {...props} inputmode="decimal" class="short-field" />
)

export const PercentField = (props: FieldProps) => (
  <Field {...props} inputmode="decimal" class="short-field" />
)

export const TextArea = (props: FieldProps & { rows?: number }) => (
  <FieldFrame {...props}>
    <textarea id={idOf(props)} name={props.name} rows={props.rows ?? 4} {...described(props)}>
      {props.value ?? ''}
    </textarea>
  </FieldFrame>
)

/** `camera`: a phone opens its camera at once, any other browser a choice of files. */
export const FileField = (props: FieldProps & { accept?: string; several?: boolean; camera?: boolean }) => (
  <FieldFrame {...props}>
    <input
      id={idOf(props)}
      name={props.name}
      type="file"
      accept={props.accept}
      multiple={props.several}
      capture={props.camera ? 'environment' : undefined}
      {...described(props)}
    />
  </FieldFrame>
)

export interface Option {
  value: string
  label: string
  /** Options of one group stand together under this heading. */
  group?: string
}

export const Select = (props: FieldProps & { options: readonly Option[]; empty?: string }) => (
  <FieldFrame {...props}>
    <select id={idOf(props)} name={props.name} {...described(props)}>
      {props.empty === undefined ? null : <option value="">{props.empty}</option>}
      <ChosenOptions options={props.options} value={props.value} />
    </select>
  </FieldFrame>
)

/** The inside of a `select`. */
export const ChosenOptions = ({
  options,
  value,
}: {
  options: readonly Option[]
  value: string | undefined
}) => (
  <>
    {grouped(options).map(({ group, options: of }) =>
      group ? (
        <optgroup label={group}>{of.map((option) => optionTag(option, value))}</optgroup>
      ) : (
        of.map((option) => optionTag(option, value))
      ),
    )}
  </>
)

interface ChoiceProps extends FieldProps {
  options: readonly { value: string; label: Child; hint?: Child }[]
}

export const RadioGroup = (props: ChoiceProps) => (
  <fieldset class="choices" id={idOf(props)} tabindex={-1} {...describedGroup(props)}>
    <legend class={props.hideLabel ? 'hidden-text' : undefined}>{props.label}</legend>
    <FieldNotes {...props} />
    {props.options.map((option, index) => (
      <div class="choice">
        <input
          type="radio"
          id={`${idOf(props)}-${index}`}
          name={props.name}
          value={option.value}
          checked={option.value === props.value}
        />
        <label for={`${idOf(props)}-${index}`}>
          {option.label}
          {option.hint ? <span class="hint"> {option.hint}</span> : null}
        </label>
      </div>
    ))}
  </fieldset>
)

export const Checkbox = (props: FieldProps & { checked?: boolean; checkedValue?: string }) => (
  <div class="field">
    <div class="choice">
      <input
        type="checkbox"
        id={idOf(props)}
        name={props.name}
        value={props.checkedValue ?? 'yes'}
        checked={props.checked ?? props.value === (props.checkedValue ?? 'yes')}
        {...described(props)}
      />
      <label for={idOf(props)}>{props.label}</label>
    </div>
    <FieldNotes {...props} />
  </div>
)

export const Hidden = ({ name, value }: { name: string; value: string }) => (
  <input type="hidden" name={name} value={value} />
)

/** The id a form is booked under: sending the same form twice books it once. */
export const FormId = ({ value }: { value: string }) => <Hidden name="formId" value={value} />

export interface PlanFormIdsProps {
  formId: string
  planId: string
  /** The revision the form was opened with. */
  basedOn: number
}

/** What a form that changes the plan carries: saved once, in the plan it was opened in, and not over a newer revision. */
export const PlanFormIds = ({ formId, planId, basedOn }: PlanFormIdsProps) => (
  <>
    <FormId value={formId} />
    <Hidden name="planId" value={planId} />
    <Hidden name="basedOn" value={String(basedOn)} />
  </>
)

const FieldFrame = (props: FieldProps & { class?: string; children: Child }) => (
  <div class={['field', props.class, isLong(props.hint) ? 'wide-field' : ''].filter(Boolean).join(' ')}>
    <label for={idOf(props)} class={props.hideLabel ? 'hidden-text' : undefined}>
      {props.label}
    </label>
    <FieldNotes {...props} />
    {props.children}
  </div>
)

/** More than three lines above a short field: it takes the room of two, so that a row of fields keeps one height. */
const isLong = (hint: Child | undefined): boolean => typeof hint === 'string' && hint.length > 80

const FieldNotes = ({ name, at, hint, error }: FieldProps) => (
  <>
    {hint ? (
      <p class="hint" id={`${idOf({ name, at })}-hint`}>
        {hint}
      </p>
    ) : null}
    {error ? (
      <p class="field-error" id={`${idOf({ name, at })}-error`}>
        <span class="hidden-text">Error: </span>
        {error}
      </p>
    ) : null}
  </>
)

const describedGroup = ({ name, at, hint, error }: FieldProps) => {
  const ids = [hint ? `${idOf({ name, at })}-hint` : '', error ? `${idOf({ name, at })}-error` : ''].filter(
    Boolean,
  )
  return ids.length > 0 ? { 'aria-describedby': ids.join(' ') } : {}
}

const described = (props: FieldProps) => ({
  ...describedGroup(props),
  ...(props.error ? { 'aria-invalid': 'true' as const } : {}),
  ...(props.required ? { 'aria-required': 'true' as const } : {}),
})

const optionTag = (option: Option, value: string | undefined) => (
  <option value={option.value} selected={option.value === value}>
    {option.label}
  </option>
)

function grouped(options: readonly Option[]): { group: string; options: Option[] }[] {
  const groups: { group: string; options: Option[] }[] = []
  for (const option of options) {
    const last = groups.at(-1)
    if (last && last.group === (option.group ?? '')) last.options.push(option)
    else groups.push({ group: option.group ?? '', options: [option] })
  }
  return groups
}
