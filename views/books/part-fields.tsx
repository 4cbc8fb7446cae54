// The parts of one sum: what each was for, how much of it by amount or percent, and of which enterprise.
import { Field, type FieldErrors, type Option, Select } from '../parts/field.tsx'

export interface PartFieldsProps {
  value: (name: string) => string
  errors: FieldErrors
  partCount: number
  accountOptions: readonly Option[]
  enterprises: readonly Option[]
}

export const PartFields = (props: PartFieldsProps) => (
  <>
    <p class="hint">
      Accounts of every side can be named: a part for another side makes its crossing by itself. Enter an
      amount or a percent, like 40%. Leave the last one empty to give it the rest.
    </p>
    {Array.from({ length: props.partCount }, (_, index) => {
      const at = `parts.${index}`
      return (
        <fieldset class="group">
          <legend>Part {index + 1}</legend>
          <div class="field-row">
            <Select
              name={`${at}.account`}
              label="For"
              options={props.accountOptions}
              empty="Choose"
              value={props.value(`${at}.account`)}
              error={props.errors[`${at}.account`]}
            />
            <Field
              name={`${at}.amount`}
              label="Amount or percent"
              class="short-field"
              value={props.value(`${at}.amount`)}
              error={props.errors[`${at}.amount`]}
            />
            {props.enterprises.length > 0 ? (
              <Select
                name={`${at}.enterprise`}
                label="Enterprise"
                options={props.enterprises}
                empty="None"
                value={props.value(`${at}.enterprise`)}
              />
            ) : null}
          </div>
        </fieldset>
      )
    })}
  </>
)
